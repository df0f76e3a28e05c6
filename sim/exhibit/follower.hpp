#pragma once

#include <cstdint>
#include <optional>

#include "sim/base/clock_time.hpp"

namespace sixty::exhibit {

/// Keeps the run of one week, gone through again and again, where clocks on the wall are.
class Follower {
 public:
  /// `start`: of the scene; `rate`: seconds of the clocks to one of the wall.
  explicit Follower(const CalendarTime& start, double rate = 1) : start_(start), rate_(rate) {}

  /// Where in the run it is, since the scene's start, when clocks on the wall show that. Range: 0
  /// to a week.
  SimTime place(const CalendarTime& shown) const;

  /// What the run is to do.
  struct Order {
    std::optional<SimTime> jump;  ///< to there, and go on at true speed
    double speed = 1;             ///< else: seconds of the scene to one of the wall
  };
  /// `shown`: what clocks on the wall show; `run`: where the run is; it may have gone past its
  /// week.
  Order follow(const CalendarTime& shown, SimTime run);

  /// What had to be left out or gone back over.
  struct Moved {
    SimTime by = 0;            ///< forward: positive
    std::int64_t minutes = 0;  ///< that were left out, or come once more
  };
  /// Since it was last asked; nothing: time went on as it should.
  std::optional<Moved> take_moved();
  /// Minutes that have been rung already come once more: they are not to be heard.
  bool is_hushed() const { return hushed_; }

  /// Nobody sees a dial that is off by less. Units: ns.
  static constexpr SimTime kClose = 30 * kMillisecond;
  /// What is farther off is not worth waiting for.
  static constexpr SimTime kFar = 1500 * kMillisecond;
  /// Set back by more, the clocks had been wrong: what was rung then does not count.
  static constexpr SimTime kWasWrong = 12 * kHour;

 private:
  CalendarTime start_;
  double rate_;
  std::optional<CalendarTime> last_;  ///< what clocks showed when it was last asked
  std::optional<CalendarTime> rung_;  ///< up to here it has gone through the minutes
  std::optional<Moved> moved_;
  bool hushed_ = false;
};

/// How much later b is than a.
SimTime between(const CalendarTime& a, const CalendarTime& b);

}  // namespace sixty::exhibit
