#include "gui/staff/utc.hpp"

#include <algorithm>

#include "sim/base/clock_time.hpp"
#include "sim/base/math.hpp"

namespace sixty::gui {
namespace {

constexpr std::int64_t kDaySeconds = 86'400;
constexpr std::int64_t kFirstDay = -719'162, kLastDay = 2'932'896;  // 0001-01-01, 9999-12-31

}  // namespace

std::string utc_text(std::int64_t now) {
  now = std::clamp(now, kFirstDay * kDaySeconds, (kLastDay + 1) * kDaySeconds - 1);
  const std::int64_t second = floor_mod(now, kDaySeconds);
  const CalendarTime at{(now - second) / kDaySeconds, second * kSecond};
  return format_iso(at, 0, 0) + "Z";
}

std::string date_text(std::int64_t day) {
  const CalendarTime at{std::clamp(day, kFirstDay, kLastDay), 0};
  return format_iso(at, 0, 0).substr(0, 10);
}

}  // namespace sixty::gui
