#include "sim/part/told.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>

#include "sim/base/units.hpp"

namespace sixty {
namespace {

constexpr int kFineDigits = 7;
constexpr std::int64_t kMinute_s = 60, kHour_min = 60, kDial_min = 12 * kHour_min;

std::string dial_text(double seconds) {
  const auto whole = static_cast<std::int64_t>(std::floor(seconds));
  const std::int64_t minutes = whole / kMinute_s, over = whole % kMinute_s;
  const std::string text = fmt::format("{}:{:02}", minutes / kHour_min, minutes % kHour_min);
  return over == 0 ? text : text + fmt::format(":{:02}", over);
}

/// One or two digits at the head of a text, which are taken off it.
std::optional<int> take_number(std::string_view& text) {
  int number = 0;
  std::size_t digits = 0;
  for (; digits < text.size() && text[digits] >= '0' && text[digits] <= '9'; ++digits) {
    if (digits == 2) return std::nullopt;
    number = 10 * number + (text[digits] - '0');
  }
  text.remove_prefix(digits);
  return digits > 0 ? std::optional(number) : std::nullopt;
}

}  // namespace

std::string told_text(double number, std::string_view si_unit, Told told) {
  if (!std::isfinite(number)) return format_quantity(number, si_unit);
  switch (told) {
    case Told::kShare:
      return format_quantity(100 * number, "1") + " %";
    case Told::kFine:
      return format_quantity(number, si_unit, kFineDigits);
    case Told::kMinutes:
      return format_quantity(number, "1") + " min";
    case Told::kDial:
      return number >= 0 ? dial_text(number) : format_quantity(number, si_unit);
    case Told::kPlain:
      break;
  }
  return format_quantity(number, si_unit);
}

std::optional<double> read_dial_time(std::string_view text) {
  const std::optional<int> hours = take_number(text);
  if (!hours || text.size() != 3 || text.front() != ':') return std::nullopt;
  text.remove_prefix(1);
  const std::optional<int> minutes = take_number(text);
  if (!minutes || *minutes >= kHour_min) return std::nullopt;
  const std::int64_t all = *hours * kHour_min + *minutes;
  return all <= kDial_min ? std::optional(static_cast<double>(all * kMinute_s)) : std::nullopt;
}

}  // namespace sixty
