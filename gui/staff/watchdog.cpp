#include "gui/staff/watchdog.hpp"

#include <systemd/sd-daemon.h>

#include <charconv>
#include <string_view>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr int kKeepEnvironment = 0;  // so that later calls find the socket too

bool tell(const std::string& message) { return sd_notify(kKeepEnvironment, message.c_str()) > 0; }

/// A message has one assignment a line, so a status may have no line end.
std::string status_line(const std::string& status) { return "STATUS=" + printable(status, 500); }

}  // namespace

Watchdog::Watchdog(const char* watchdog_usec) {
  if (watchdog_usec == nullptr) return;
  const std::string_view text = watchdog_usec;
  std::int64_t usec = 0;
  const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), usec);
  if (code != std::errc() || end != text.data() + text.size() || usec < 2000) return;
  interval_ms_ = usec / 2000;
}

bool Watchdog::ready(const std::string& status) { return tell("READY=1\n" + status_line(status)); }

bool Watchdog::alive(std::int64_t now_ms) {
  if (interval_ms_ == 0) return false;
  const bool is_due = !has_told_ || now_ms < told_ms_ || now_ms - told_ms_ >= interval_ms_;
  if (!is_due) return false;
  has_told_ = true;
  told_ms_ = now_ms;
  return tell("WATCHDOG=1");
}

bool Watchdog::status(const std::string& status) { return tell(status_line(status)); }

bool Watchdog::stopping() { return tell("STOPPING=1"); }

}  // namespace sixty::gui
