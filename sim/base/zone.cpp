#include "sim/base/zone.hpp"

#include <date/tz.h>

#include <stdexcept>

namespace sixty {

std::optional<TimeZone> TimeZone::find(const std::string& name, std::string& error) {
  TimeZone zone;
  try {
    zone.zone_ = name.empty() ? date::current_zone() : date::locate_zone(name);
    return zone;
  } catch (const std::exception& failed) {  // no such name, or no database on this machine
    error = failed.what();
    return std::nullopt;
  }
}

SimTime TimeZone::ahead(std::int64_t unix_ns) const {
  if (zone_ == nullptr) return 0;
  const date::sys_seconds at{std::chrono::seconds(unix_ns / kSecond - (unix_ns % kSecond < 0))};
  return std::chrono::nanoseconds(zone_->get_info(at).offset).count();
}

CalendarTime TimeZone::local(std::int64_t unix_ns) const {
  const std::int64_t shown = unix_ns + ahead(unix_ns);
  const std::int64_t day = shown / kDay - (shown % kDay < 0);
  return {day, shown - day * kDay};
}

}  // namespace sixty
