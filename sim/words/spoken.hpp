#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "sim/base/clock_time.hpp"

namespace sixty {

/// What sim/base writes for files and commands, as the spoken language has it in sentences.

/// "18.2 V" -> "18,2 V". Units: SI, as format_quantity.
std::string spoken_quantity(double si, std::string_view si_unit);
std::string spoken_quantity(double si, std::string_view si_unit, int digits);
/// "Mon 10:15:35.000" -> "Mo 10:15:35,000"; a date, which all languages share, after the first
/// week.
std::string spoken_instant(const CivilClock& clock, SimTime t, int fraction_digits = 3);
/// "Mon 10:15:35.000" -> "Mo 10:15:35,000", in any week.
std::string spoken_weekday_time(const CivilClock& clock, SimTime t, int fraction_digits = 3);
/// "Monday, 5 January 2026".
std::string spoken_date(const CalendarTime& date);
/// "1m35.5s" -> "1m35,5s".
std::string spoken_duration(SimTime t);
/// The words that the spoken language has for a name in data, "error_min"; the name as it stands
/// there where it has none.
std::string spoken_key(const std::string& name);
/// The same of the name of a kind of part, which may mean something else as that of a value.
std::string spoken_kind(const std::string& name);
/// "never", "once", "3 times".
std::string spoken_times(std::int64_t number);

}  // namespace sixty
