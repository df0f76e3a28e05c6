#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <string_view>

#include "sim/base/math.hpp"

#include "sim/base/units.hpp"

namespace sixty {
namespace {

constexpr int kDigits = 4;

// A unit that people prefer for quantities of at least that size: shown = si / divide + add.
struct TradeUnit {
  std::string_view si;
  double at_least;
  std::string_view shown;
  double divide;
  double add;
};
constexpr TradeUnit kTradeUnits[] = {
    {"s", 172800, "d", 86400, 0},    {"s", 7200, "h", 3600, 0},      {"s", 600, "min", 60, 0},
    {"kg", 1, "kg", 1, 0},           {"kg", 1e-4, "g", 1e-3, 0},     {"kg", 0, "mg", 1e-6, 0},
    {"rad", 0, "deg", kPi / 180, 0}, {"K", 0, "degC", 1, -273.15},   {"delta_K", 0, "K", 1, 0},
    {"m2", 1e-2, "m2", 1, 0},        {"m2", 0, "mm2", 1e-6, 0},      {"m3", 0, "mm3", 1e-9, 0},
    {"C", 360, "Ah", 3600, 0},       {"1/K", 1e-2, "1/K", 1, 0},     {"1/K", 0, "ppm/K", 1e-6, 0},
    {"kg.m2", 1e-2, "kg.m2", 1, 0},  {"kg.m2", 0, "g.cm2", 1e-7, 0},
};

// Units that take a decimal prefix, alone or at the head of a compound ("N" in "N.m").
constexpr std::string_view kPrefixable[] = {"V", "A", "ohm", "H", "F", "N",  "J",
                                            "W", "m", "Pa",  "T", "C", "Wb", "S"};

struct Prefix {
  double factor;
  std::string_view letter;
};
constexpr Prefix kPrefixes[] = {{1e9, "G"},  {1e6, "M"},  {1e3, "k"},  {0.1, ""},
                                {1e-3, "m"}, {1e-6, "u"}, {1e-9, "n"}, {1e-12, "p"}};

// One and many of what is counted.
constexpr std::string_view kCounted[][2] = {
    {"turn", "turns"}, {"row", "rows"}, {"cell", "cells"}, {"beat", "beats"}, {"tooth", "teeth"}};

struct Example {
  std::string_view si;
  std::string_view text;
};
constexpr Example kExamples[] = {
    {"", "0.5"},          {"1", "0.5"},        {"V", "24 V"},          {"A", "0.12 A"},
    {"ohm", "80 ohm"},    {"H", "0.4 H"},      {"F", "1 uF"},          {"s", "90 s"},
    {"m", "3 mm"},        {"m2", "80 mm2"},    {"kg", "15 g"},         {"N", "0.3 N"},
    {"N.m", "1.5 mN.m"},  {"N/m", "200 N/m"},  {"rad", "2 deg"},       {"K", "20 degC"},
    {"delta_K", "5 K"},   {"1/K", "12 ppm/K"}, {"C", "60 Ah"},         {"Hz", "50 Hz"},
    {"W", "2 W"},         {"J", "3 mJ"},       {"turn", "9000 turns"}, {"row", "5 rows"},
    {"cell", "12 cells"}, {"beat", "2 beats"}, {"tooth", "30 teeth"},  {"Pa", "1013 hPa"},
};

std::string with_decimals(double value, int decimals) {
  char text[64];
  const auto end =
      std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, decimals).ptr;
  std::string digits(text, end);
  if (digits.find('.') != std::string::npos) {
    while (digits.back() == '0') digits.pop_back();
    if (digits.back() == '.') digits.pop_back();
  }
  return digits == "-0" ? "0" : digits;
}

// Rounds to so many digits; `text` gets the scientific form, `exponent` its power of ten.
double rounded(double value, int digits, std::string& text, int& exponent) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value,
                                 std::chars_format::scientific, digits - 1)
                       .ptr;
  text.assign(buffer, end);
  const std::size_t e = text.find('e');
  const std::size_t power = e + (text[e + 1] == '+' ? 2 : 1);
  std::from_chars(buffer + power, end, exponent);
  double result = 0;
  std::from_chars(buffer, end, result);
  return result;
}

// So many digits, whole numbers in full, powers of ten only where the zeros would hide the figure.
std::string digits_of(double value, int digits) {
  if (value == 0) return "0";
  std::string scientific;
  int exponent = 0;
  rounded(value, digits, scientific, exponent);
  if (exponent < -5 || exponent > 14) return scientific;
  return with_decimals(value, std::max(0, digits - 1 - exponent));
}

double rounded_size(double value, int digits) {
  std::string text;
  int exponent = 0;
  return std::fabs(rounded(value, digits, text, exponent));
}

const TradeUnit* trade_unit(double size, std::string_view si_unit) {
  const TradeUnit* first = nullptr;
  for (const TradeUnit& row : kTradeUnits) {
    if (row.si != si_unit) continue;
    if (first == nullptr) first = &row;
    if (size >= row.at_least && size > 0) return &row;
  }
  // Nothing is nought of the largest unit, unless that is only for large quantities.
  return first != nullptr && first->at_least <= 1 ? first : nullptr;
}

bool takes_prefix(std::string_view si_unit) {
  if (si_unit == "s") return true;  // but "s/day" is never thousands of them
  const std::string_view head = si_unit.substr(0, si_unit.find_first_of("./"));
  return std::find(std::begin(kPrefixable), std::end(kPrefixable), head) != std::end(kPrefixable);
}

std::string with_prefix(double si, std::string_view si_unit, int digits) {
  const double size = rounded_size(si, digits);
  Prefix prefix{1, ""};
  for (const Prefix& row : kPrefixes) {
    if (size == 0) break;
    prefix = row;
    if (size >= row.factor) break;
  }
  if (prefix.letter.empty()) prefix.factor = 1;
  return digits_of(si / prefix.factor, digits) + " " + std::string(prefix.letter) +
         std::string(si_unit);
}

}  // namespace

std::string example_quantity(std::string_view si_unit) {
  for (const Example& example : kExamples)
    if (example.si == si_unit) return std::string(example.text);
  return "1 " + std::string(si_unit);
}

std::string format_quantity(double si, std::string_view si_unit) {
  return format_quantity(si, si_unit, kDigits);
}

std::string format_quantity(double si, std::string_view si_unit, int digits) {
  if (!std::isfinite(si)) return format_exact(si) + " " + std::string(si_unit);
  if (si_unit.empty() || si_unit == "1") return digits_of(si, digits);
  for (const auto& [one, many] : kCounted)
    if (si_unit == one) return digits_of(si, digits) + " " + std::string(si == 1 ? one : many);
  const TradeUnit* trade = trade_unit(rounded_size(si, digits), si_unit);
  if (trade != nullptr) {
    const double shown = si / trade->divide + trade->add;
    return digits_of(shown, digits) + " " + std::string(trade->shown);
  }
  if (takes_prefix(si_unit)) return with_prefix(si, si_unit, digits);
  return digits_of(si, digits) + " " + std::string(si_unit);
}

std::string format_exact(double value) {
  char text[32];
  return {text, std::to_chars(text, text + sizeof text, value).ptr};
}

}  // namespace sixty
