#include "sim/base/units.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/base/unit_system.hpp"

namespace sixty {
namespace {

constexpr std::size_t kLongestQuantity = 200;
constexpr const char* kNumberMend = "write one number with a decimal point, then one unit";

bool begins_with(std::string_view text, std::string_view head) {
  return text.substr(0, head.size()) == head;
}

// A number as written, in pieces: the exponent apart, so that a prefix can be added to it.
struct Number {
  std::string mantissa;
  int exponent = 0;
};

void take_digits(std::string_view& text, std::string& into) {
  while (!text.empty() && is_digit(text.front())) {
    into += text.front();
    text.remove_prefix(1);
  }
}

// Takes "e-3", if there is one; the "e" of a unit ("5eV") is left where it is.
// Errors: false if it has more digits than any number needs.
bool take_exponent(std::string_view& text, int& exponent) {
  if (text.empty() || lower(text.front()) != 'e') return true;
  std::string_view rest = text.substr(1);
  const bool negative = begins_with(rest, "-");
  if (negative || begins_with(rest, "+")) rest.remove_prefix(1);
  std::string digits;
  take_digits(rest, digits);
  if (digits.empty()) return true;
  if (digits.size() > 4) return false;
  std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
  if (negative) exponent = -exponent;
  text = rest;
  return true;
}

// Takes a number from the head of the text. Errors: what is wrong with it, else an empty text.
std::string take_number(std::string_view& text, Number& number) {
  if (begins_with(text, "-") || begins_with(text, "+")) {
    if (text.front() == '-') number.mantissa = "-";
    text.remove_prefix(1);
  }
  std::string whole;
  take_digits(text, whole);
  if (whole.empty() && begins_with(text, "."))
    return "a number needs a digit before its point, as in 0.5";
  if (whole.empty()) return "there is no number at the beginning";
  if (whole.size() > 1 && whole.front() == '0')
    return "a number must not begin with 0 (elsewhere that means octal)";
  number.mantissa += whole;
  if (begins_with(text, ".")) {
    text.remove_prefix(1);
    std::string fraction;
    take_digits(text, fraction);
    if (fraction.empty()) return "a decimal point needs a digit behind it";
    number.mantissa += "." + fraction;
  }
  return take_exponent(text, number.exponent) ? "" : "the exponent is out of range";
}

// What is wrong with that which follows a number where a unit should stand, else an empty text.
std::string unit_place_mistake(std::string_view rest, const Number& number) {
  if (rest.empty()) return "";
  if (rest.front() == ',') return "a decimal comma or a comma between digits is not read";
  if (rest.front() == '_') return "an underscore between digits is not read";
  if (rest.front() == ':') return "a time of day is not a quantity";
  if (rest.front() == '.') return "there are two decimal points";
  const bool radix = number.mantissa == "0" && rest.size() > 1 && is_letter(rest.front()) &&
                     (is_digit(rest[1]) || lower(rest.front()) == 'x');
  if (radix) return "only decimal numbers are read, no hexadecimal or octal ones";
  if (rest.front() == ' ') rest.remove_prefix(1);
  if (begins_with(rest, "1/")) return "";  // as in "0.004 1/K"
  if (!rest.empty() && (is_digit(rest.front()) || rest.front() == '-' || rest.front() == '+'))
    return "there are two numbers";
  if (!rest.empty() && rest.front() == ' ') return "there is more than one space before the unit";
  return "";
}

std::string number_mistake_hint(std::string_view text) {
  while (begins_with(text, "-") || begins_with(text, "+") || begins_with(text, "."))
    text.remove_prefix(1);
  std::string head;
  for (const char c : text.substr(0, 3)) head += lower(c);
  if (head == "nan" || head == "inf") return "a number must be finite";
  if (begins_with(text, "\xE2\x88\x92"))
    return "the minus is a typographical one; write the plain hyphen -";
  return "";
}

// The number with its decimal point shifted. Errors: nothing if out of the range of doubles.
std::optional<double> value_of(const Number& number, int shift) {
  const std::string text = number.mantissa + "e" + std::to_string(number.exponent + shift);
  double value = 0;
  const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (code == std::errc() && std::isfinite(value)) return value;
  return std::nullopt;
}

// k for a factor of ten to the power k.
std::optional<int> power_of_ten(double factor) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, factor, std::chars_format::scientific);
  const std::string_view written(text, static_cast<std::size_t>(end.ptr - text));
  if (!begins_with(written, "1e")) return std::nullopt;
  const std::size_t sign = written[2] == '+' ? 3 : 2;
  int power = 0;
  std::from_chars(text + sign, end.ptr, power);
  return power;
}

std::optional<double> converted(const Number& number, const UnitConversion& unit) {
  if (unit.divide != 1 || unit.offset != 0 || !power_of_ten(unit.multiply)) {
    const std::optional<double> value = value_of(number, 0);
    if (!value) return std::nullopt;
    const double si = *value * unit.multiply / unit.divide + unit.offset;
    if (std::isfinite(si)) return si;
    return std::nullopt;
  }
  return value_of(number, *power_of_ten(unit.multiply));
}

bool is_plain(std::string_view si_unit) { return si_unit.empty() || si_unit == "1"; }

bool is_count(std::string_view si_unit) {
  constexpr std::array<std::string_view, 5> kCounts{"turn", "row", "cell", "beat", "tooth"};
  for (const std::string_view count : kCounts)
    if (si_unit == count) return true;
  return false;
}

// The unit that the library shall convert into.
std::string_view target_unit(std::string_view si_unit) {
  if (is_plain(si_unit)) return "1";
  return si_unit == "delta_K" ? "K" : si_unit;
}

std::string expectation(std::string_view si_unit) {
  const std::string example = "for example \"" + example_quantity(si_unit) + "\"";
  if (is_plain(si_unit)) return "a number without unit or in %, " + example;
  if (is_count(si_unit)) return "a number or a number with a unit, " + example;
  return "a number and a unit, " + example;
}

// Abbreviations that are common but mean something else, or nothing.
std::string common_slip(std::string_view name) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 12> kSlips{{
      {"Nm", "N.m"},
      {"mNm", "mN.m"},
      {"Vs", "V.s"},
      {"Celsius", "degC"},
      {"celsius", "degC"},
      {"kohms", "kohm"},
      {"As", "A.s"},
      {"gcm", "g.cm"},
      {"kgm", "kg.m"},
      {"pct", "%"},
      {"Nmm", "N.mm"},
      {"wk", "week"},
  }};
  for (const auto& [slip, meant] : kSlips)
    if (name == slip) return "write \"" + std::string(meant) + "\"";
  return did_you_mean(name, unit_names());
}

std::optional<double> refused(Diagnostic& mistake, const std::string& what,
                              const std::string& mend) {
  mistake.what = what;
  mistake.mend = mend;
  return std::nullopt;
}

std::optional<double> refuse_unit(std::string_view unit, const UnitConversion& conversion,
                                  std::string_view si_unit, Diagnostic& mistake) {
  if (conversion.match == UnitConversion::kUnknown) {
    const std::string name = printable(conversion.unknown, 40);
    const std::string hint = common_slip(conversion.unknown);
    return refused(mistake, "\"" + name + "\" is not a unit", hint.empty() ? kNumberMend : hint);
  }
  if (is_plain(si_unit))
    return refused(mistake, "there is a unit where a plain number belongs", "leave the unit out");
  std::string mend = "give it in " + std::string(target_unit(si_unit)) + " or a multiple of it";
  if (unit == "C" && target_unit(si_unit) == "K") mend = "C is the coulomb; write \"degC\"";
  return refused(mistake, "\"" + printable(unit, 40) + "\" is a unit of something else", mend);
}

std::optional<double> with_unit(const Number& number, std::string_view unit,
                                std::string_view si_unit, Diagnostic& mistake) {
  UnitConversion conversion;
  conversion.match = UnitConversion::kSameKind;
  if (!unit.empty()) conversion = convert_unit(unit, target_unit(si_unit));
  if (conversion.match != UnitConversion::kSameKind)
    return refuse_unit(unit, conversion, si_unit, mistake);
  if (si_unit == "delta_K" && conversion.offset != 0)
    return refused(mistake, "a difference of temperatures is wanted, not a temperature",
                   "give it in K");
  const std::optional<double> value = converted(number, conversion);
  if (value) return value;
  return refused(mistake, "the number is too large or too small to compute with",
                 "check its exponent");
}

}  // namespace

std::optional<double> parse_quantity(std::string_view text, std::string_view si_unit,
                                     Diagnostic& mistake) {
  mistake.found = printable(text, 60);
  mistake.expected = expectation(si_unit);
  text = trimmed(text);
  if (text.empty()) return refused(mistake, "the quantity is empty", kNumberMend);
  if (text.size() > kLongestQuantity)
    return refused(mistake, "the quantity is too long", kNumberMend);
  const std::string hint = number_mistake_hint(text);
  if (!hint.empty()) return refused(mistake, hint, kNumberMend);
  Number number;
  std::string what = take_number(text, number);
  if (what.empty()) what = unit_place_mistake(text, number);
  if (!what.empty()) return refused(mistake, what, kNumberMend);
  if (text.empty() && !is_plain(si_unit) && !is_count(si_unit))
    return refused(mistake, "the number has no unit",
                   "write the unit, as in \"" + example_quantity(si_unit) + "\"");
  return with_unit(number, trimmed(text), si_unit, mistake);
}

std::optional<double> parse_quantity(std::string_view text, std::string_view si_unit,
                                     std::string& error) {
  Diagnostic mistake;
  const std::optional<double> value = parse_quantity(text, si_unit, mistake);
  if (!value)
    error = "\"" + mistake.found + "\": " + mistake.what + "; expected " + mistake.expected + "; " +
            mistake.mend;
  return value;
}

bool is_unit(std::string_view si_unit) {
  return convert_unit(target_unit(si_unit), "1").match != UnitConversion::kUnknown;
}

}  // namespace sixty
