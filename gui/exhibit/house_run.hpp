#pragma once

#include <memory>
#include <optional>

#include "gui/bench/runner.hpp"
#include "gui/exhibit/world_clock.hpp"
#include "sim/base/zone.hpp"
#include "sim/exhibit/follower.hpp"

namespace sixty::gui {

/// The installation as it stands now: its run is kept where clocks on the wall are, whatever
/// happens to them.
class HouseRun {
 public:
  /// It comes to the present by itself; see is_right().
  HouseRun(const std::shared_ptr<const Installation>& installation, const TimeZone& zone,
           WorldClock clock);

  /// Looks at the clock, and puts the run right. Order: once in each frame.
  void follow();
  /// What clocks on the wall showed then.
  const CalendarTime& shown() const { return shown_; }
  const Runner::Seen& seen() const { return seen_; }
  /// The picture shows what clocks on the wall do, but for what no dial shows.
  bool is_right() const { return right_; }
  std::optional<exhibit::Follower::Moved> take_moved() { return follower_.take_moved(); }

  /// What it sounds like goes there, but for minutes that were heard already; nullptr: nowhere.
  void play_on(std::shared_ptr<Sound> player);
  Runner& runner() { return *runner_; }

 private:
  TimeZone zone_;
  WorldClock clock_;
  exhibit::Follower follower_;
  CalendarTime shown_;
  std::shared_ptr<Sound> player_;
  bool hushed_ = false, right_ = false;
  std::unique_ptr<Runner> runner_;
  Runner::Seen seen_;
};

}  // namespace sixty::gui
