#pragma once

#include <cstdint>
#include <string>

namespace sixty::gui {

/// What systemd is told of the program, through the socket that the environment names
/// (NOTIFY_SOCKET); without one, nothing is told. `alive` belongs into the loop that draws, never
/// into a thread of its own: a loop that hangs shall be noticed.
class Watchdog {
 public:
  /// `watchdog_usec`: the value of WATCHDOG_USEC, a null pointer without it. Whose process
  /// WATCHDOG_PID means is not looked at, since between systemd and the program stands what starts
  /// the X server (so the unit says NotifyAccess=all).
  explicit Watchdog(const char* watchdog_usec);

  /// The display is up; `status` is what `systemctl status` shows. Errors: false, nothing told.
  bool ready(const std::string& status);
  /// Told at once when half of the watchdog's time is over, or the clock was set back.
  /// Units: ms, of any clock. Errors: false if nothing was told, which is so most of the time.
  bool alive(std::int64_t now_ms);
  bool status(const std::string& status);
  /// The program ends in good order.
  bool stopping();

  /// Units: ms; 0 without a watchdog.
  std::int64_t interval() const { return interval_ms_; }

 private:
  std::int64_t interval_ms_ = 0, told_ms_ = 0;
  bool has_told_ = false;
};

}  // namespace sixty::gui
