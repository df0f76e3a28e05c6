#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/diagnostic.hpp"
#include "sim/base/time.hpp"

namespace sixty {

/// An instant of the civil calendar: the proleptic Gregorian one, without leap seconds. Range:
/// years 1 to 9999.
struct CalendarTime {
  std::int64_t day = 0;   ///< days since 1970-01-01
  SimTime ns_of_day = 0;  ///< Units: ns. Range: 0 to kDay - 1
};

/// From here on clocks are ahead of where they stood at a scene's start by so much more than has
/// gone by.
struct CivilChange {
  SimTime at = 0;  ///< since the start
  SimTime shift = 0;
};

/// What clocks on the wall say through a scene: its start, and where summer time is kept, when they
/// go forward and back.
struct CivilClock {
  CivilClock() = default;
  CivilClock(const CalendarTime& from) : start(from) {}  // most scenes keep one time throughout

  CalendarTime start;
  std::vector<CivilChange> changes;  ///< in their order; none before the first

  /// How far clocks are ahead of the time that has gone by since the start.
  SimTime shift(SimTime t) const;
  /// First instant at or after `from` at which clocks show the start's time and `shown` more; none
  /// if they never do, because they go forward over it.
  std::optional<SimTime> when(SimTime shown, SimTime from) const;
};

/// Day of the week by ISO 8601. Range: 1 (Monday) to 7 (Sunday).
int iso_weekday(const CalendarTime& instant);

/// Range: 1 (1 January) to 366.
int day_of_year(const CalendarTime& instant);

/// The calendar instant that lies `t` after (or, if negative, before) the start.
CalendarTime calendar_time(const CivilClock& clock, SimTime t);

/// Reads an ISO 8601 date and time of day, as a scene's start is written: "2026-01-05T10:15:05.02",
/// "2026-01-05 10:15" or "2026-01-05" (midnight).
/// Errors: nothing, and in `error` what is wrong and how to mend it; a time zone is refused.
std::optional<CalendarTime> parse_calendar_time(std::string_view text, std::string& error);

/// Reads a duration: parts from the largest unit to the smallest, "7d", "1h30m", "2m35.05s",
/// "90 s", "1w"; units w d h m (or min) s ms us ns, only the last part with a decimal point.
/// Units: ns; exact, nothing is rounded. Range: 0 to 292 years.
/// Errors: nothing, with what, found, expected and mend set in `mistake` (its place is left alone);
/// so is what is finer than a nanosecond.
std::optional<SimTime> parse_duration(std::string_view text, Diagnostic& mistake);

/// Reads an instant of a scene, in any of four forms:
/// a duration from the start ("7d"), a weekday and time of day ("Mon 10:15:05.02") or a time of
/// day ("10:15") for the first such instant at or after `from`, or an ISO 8601 date and time, the
/// first of two where clocks go back over it.
/// Units: ns since the start. Range: 0 to 292 years.
/// Errors: as parse_duration(); so is what clocks go forward over.
std::optional<SimTime> parse_time(std::string_view text, const CivilClock& clock, SimTime from,
                                  Diagnostic& mistake);

/// As many digits of a second's fraction as the instant needs, at most nine.
constexpr int kExactFraction = -1;

/// "Mon 10:15:05.020", with the digits asked for. Like a dial it shows the last instant reached:
/// further digits are cut, not rounded. Range: fraction_digits 0 to 9, or kExactFraction.
std::string format_weekday_time(const CivilClock& clock, SimTime t, int fraction_digits = 3);

/// "2026-01-05T10:15:05.020"; digits as for format_weekday_time.
std::string format_iso(const CivilClock& clock, SimTime t, int fraction_digits = 3);

/// An instant for people: by weekday within the first week, later by date; digits as above.
std::string format_instant(const CivilClock& clock, SimTime t, int fraction_digits = 3);

/// "7d", "1h30m", "2m35.05s", "72.1ms", "0s": exact, and read again by parse_duration (but for a
/// minus sign); "never" for kNever.
std::string format_duration(SimTime t);

}  // namespace sixty
