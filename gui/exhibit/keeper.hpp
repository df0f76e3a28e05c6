#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "gui/staff/counts.hpp"
#include "gui/staff/logbook.hpp"
#include "gui/staff/sheet_writer.hpp"
#include "gui/staff/staff_book.hpp"
#include "gui/staff/watchdog.hpp"
#include "sim/exhibit/attendant.hpp"

namespace sixty::gui {

/// Keeps an exhibit running where nobody looks after it: what was used is counted, what happened is
/// logged, and systemd and monitors are told that it lives.
class Keeper {
 public:
  /// Where nothing can be kept, nothing is, and all else goes on.
  explicit Keeper(const StateEnvironment& environment);
  /// `now`: unix seconds, here as below. `flaws`: of the exhibit's self-test.
  void begin(std::int64_t now, const std::string& title);
  /// The self-test is done. `flaws`: what is wrong, a line for each.
  void tested(std::int64_t now, const std::vector<std::string>& flaws);
  void note(std::int64_t now, const std::string& words);
  /// Order: once in each frame. `shown`: what clocks on the wall show; `gone_ms`: of the program.
  void follow(std::int64_t now, std::int64_t gone_ms, const CalendarTime& shown,
              exhibit::Attendant& attendant);
  void end(std::int64_t now);
  /// What staff have changed.
  StaffDesk& desk() { return desk_; }
  const StaffDesk& desk() const { return desk_; }
  /// The line of the PIN's gate, which outlives a restart; empty: there is none.
  std::string gate_line() const;
  void keep_gate_line(const std::string& line);
  /// What the staff should know, a line for each; none: all is well.
  std::vector<std::string> troubles() const;

 private:
  void beat(std::int64_t now, const std::string& language);

  std::string heartbeat_, gate_;  ///< files; empty: none
  SheetWriter writer_;
  Counts counts_;
  Logbook log_;
  Watchdog watchdog_;
  StaffDesk desk_;
  std::vector<std::string> flaws_;
  std::int64_t began_ = 0, day_ = 0;
  std::optional<std::int64_t> beat_at_;
};

}  // namespace sixty::gui
