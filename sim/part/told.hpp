#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sixty {

/// How a number is told to people, where its unit and four digits would not do.
enum class Told : std::uint8_t {
  kPlain,    ///< by its unit
  kShare,    ///< a share of a whole: in per cent
  kFine,     ///< what is wanted of it are its last digits: seven of them
  kMinutes,  ///< a number of minutes, without a unit of its own
  kDial      ///< seconds from twelve o'clock, as a dial shows them: "8:30", "8:30:15"
};

/// "1.000012 s", "3.2 %", "-485 min", "8:30".
std::string told_text(double number, std::string_view si_unit, Told told);

/// Seconds from twelve o'clock. Range: "0:00" to "12:00". Errors: nothing, if it is no time of a
/// dial.
std::optional<double> read_dial_time(std::string_view text);

}  // namespace sixty
