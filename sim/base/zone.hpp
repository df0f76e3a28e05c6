#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "sim/base/clock_time.hpp"

namespace date {
class time_zone;
}

namespace sixty {

/// What clocks on the wall say somewhere at an instant of the world, with summer time, by the
/// system's time-zone database (IANA). Read by H. Hinnant's library `date`.
class TimeZone {
 public:
  /// Coordinated universal time, for where nothing better is known.
  TimeZone() = default;
  /// `name`: "Europe/Berlin"; empty: the one that the system is set to. Errors: nothing, and in
  /// `error` what is wrong.
  static std::optional<TimeZone> find(const std::string& name, std::string& error);

  /// How far clocks on the wall are ahead of UTC. `unix_ns`: nanoseconds since 1970-01-01 UTC.
  SimTime ahead(std::int64_t unix_ns) const;
  /// What they show then.
  CalendarTime local(std::int64_t unix_ns) const;

 private:
  const date::time_zone* zone_ = nullptr;
};

}  // namespace sixty
