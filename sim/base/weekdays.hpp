#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sixty {

/// A set of weekdays: bit 0 is Monday, bit 6 Sunday.
using WeekdaySet = std::uint8_t;
constexpr WeekdaySet kEveryDay = 0x7f;
/// Whether a day is in the set. Range: 0 (Monday) to 6.
constexpr bool has_day(WeekdaySet set, unsigned day) { return (unsigned{set} & (1U << day)) != 0; }

/// Reads "Mon", "Mon, Wed", "Mon-Fri", "Sat-Mon, Wed" or "daily"; names by three letters or in
/// full. Errors: nothing, and in `error` what is wrong and how to mend it.
std::optional<WeekdaySet> parse_weekdays(std::string_view text, std::string& error);

/// Reads a whole minute of the day, "08:05". Range: 0 to 1439.
/// Errors: nothing, and in `error` what is wrong and how to mend it.
std::optional<int> parse_minute_of_day(std::string_view text, std::string& error);

/// "08:05" for a minute of the day. Range: 0 to 1439.
std::string format_minute_of_day(int minute);

}  // namespace sixty
