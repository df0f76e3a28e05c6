#include "sim/base/unit_system.hpp"

#include <udunits2.h>

#include <array>
#include <charconv>
#include <cmath>
#include <memory>
#include <mutex>
#include <utility>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"

namespace sixty {
namespace {

constexpr std::string_view kScaled = "pnumkMG";  // prefixes of what is measured on many scales

// One unit: how it is written (the prefixes go with the first name), and what it is. The library's
// own database is not used: it holds traps ("a" is 100 square metres, "oz" a volume, a radian is
// the number one) and would have to be found on the machine.
struct UnitRow {
  std::string_view prefixes;
  std::string_view names;
  double factor;
  const char* of;  // nullptr: a dimension of its own
};
constexpr UnitRow kRows[] = {
    {"pnumckMG", "m metre metres meter meters", 1, nullptr},
    {"", "kg", 1, nullptr},
    {"pnum", "s second seconds sec", 1, nullptr},
    {kScaled, "A ampere amperes amp amps", 1, nullptr},
    {"m", "K kelvin", 1, nullptr},
    {"um", "rad radian radians", 1, nullptr},
    {"", "turn turns", 1, nullptr},
    {"", "row rows", 1, nullptr},
    {"", "cell cells", 1, nullptr},
    {"", "beat beats", 1, nullptr},
    {"", "tooth teeth", 1, nullptr},

    {"", "percent", 1e-2, "1"},
    {"", "permille", 1e-3, "1"},
    {"", "ppm", 1e-6, "1"},
    {"", "ppb", 1e-9, "1"},
    {"um", "g gram grams", 1e-3, "kg"},
    {"", "lb", 0.45359237, "kg"},         // international pound: exact by definition
    {"", "oz", 0.028349523125, "kg"},     // a sixteenth of it
    {"", "in inch inches", 0.0254, "m"},  // international inch: exact by definition
    {"", "ft foot feet", 0.3048, "m"},
    {"", "min minute minutes", 60, "s"},
    {"", "h hour hours hr", 3600, "s"},
    {"", "d day days", 86400, "s"},
    {"", "week weeks", 604800, "s"},
    {"", "year years", 31557600, "s"},  // Julian: 365.25 days
    {"mkM", "Hz hertz", 1, "1/s"},
    {"", "deg degree degrees", kPi / 180, "rad"},
    {"", "arcmin", kPi / 10800, "rad"},
    {"", "rev", 2 * kPi, "rad"},
    {"", "rpm", kPi / 30, "rad/s"},
    {kScaled, "N newton newtons", 1, "kg.m/s2"},
    {"mk", "gf", 0.00980665, "N"},  // standard gravity: exact by definition
    {"", "lbf", 4.4482216152605, "N"},
    {kScaled, "Pa pascal", 1, "N/m2"},
    {"", "hPa", 100, "Pa"},
    {"m", "bar", 1e5, "Pa"},
    {"", "mmHg", 133.322387415, "Pa"},  // conventional millimetre of mercury
    {kScaled, "J joule joules", 1, "N.m"},
    {kScaled, "W watt watts", 1, "J/s"},
    {"", "VA", 1, "W"},
    {"mk", "Wh", 3600, "J"},
    {kScaled, "C coulomb coulombs", 1, "A.s"},
    {"m", "Ah", 3600, "C"},
    {kScaled, "V volt volts", 1, "W/A"},
    {kScaled, "ohm ohms Ohm", 1, "V/A"},
    {kScaled, "S siemens", 1, "A/V"},
    {kScaled, "F farad", 1, "C/V"},
    {kScaled, "Wb weber", 1, "V.s"},
    {kScaled, "H henry", 1, "Wb/A"},
    {kScaled, "T tesla", 1, "Wb/m2"},
};

// Scales of temperature: factor * (number + zero) kelvins.
struct TemperatureRow {
  const char* name;
  double factor;
  double zero;
};
constexpr TemperatureRow kTemperatures[] = {{"degC", 1, 273.15}, {"degF", 5.0 / 9, 459.67}};

double prefix_factor(char prefix) {
  switch (prefix) {
    case 'p':
      return 1e-12;
    case 'n':
      return 1e-9;
    case 'u':
      return 1e-6;
    case 'm':
      return 1e-3;
    case 'c':
      return 1e-2;
    case 'k':
      return 1e3;
    case 'M':
      return 1e6;
    default:
      return 1e9;
  }
}

// What else a unit may be written with, in the letters of the table.
constexpr std::pair<std::string_view, std::string_view> kSpellings[] = {
    {"\xC2\xB0", "deg"},  // degree sign, also before C and F
    {"%", "percent"},     //
    {"\xE2\x80\xB0", "permille"},
    {"\xCE\xA9", "ohm"},      // Greek omega
    {"\xE2\x84\xA6", "ohm"},  // ohm sign
    {"\xC2\xB5", "u"},        // micro sign
    {"\xCE\xBC", "u"},        // Greek mu
    {"\xC2\xB7", "."},        // middle dot
    {"\xE2\x8B\x85", "."},    // dot operator
    {"*", "."},               //
    {"\xC2\xB2", "2"},        // superscripts
    {"\xC2\xB3", "3"},        //
    {"\xC2\xB9", "1"},        //
    {"\xE2\x81\xBB", "-"},
};

using Unit = std::unique_ptr<ut_unit, void (*)(ut_unit*)>;

Unit own(ut_unit* unit) { return {unit, ut_free}; }

// The library keeps its parser's state in globals, so every use of it holds the lock.
class UnitSystem {
 public:
  UnitSystem() : system_(ut_new_system(), ut_free_system) {
    ut_set_error_message_handler(ut_ignore);
    for (const UnitRow& row : kRows) add_row(row);
    for (const TemperatureRow& row : kTemperatures) {
      const Unit scaled = own(ut_scale(row.factor, parsed("K").get()));
      add(row.name, own(ut_offset(scaled.get(), row.zero)));
    }
  }

  UnitConversion convert(std::string_view from, std::string_view to);
  const std::vector<std::string>& names() const { return names_; }

 private:
  Unit parsed(const std::string& text) const {
    return own(ut_parse(system_.get(), text.c_str(), UT_ASCII));
  }
  void add(const std::string& name, const Unit& unit) {
    ut_map_symbol_to_unit(name.c_str(), UT_ASCII, unit.get());
    names_.push_back(name);
  }
  void add_row(const UnitRow& row);
  Unit read(std::string_view text, std::string& unknown) const;
  double factor(const ut_unit* from, const ut_unit* to) const;

  std::unique_ptr<ut_system, void (*)(ut_system*)> system_;
  std::vector<std::string> names_;
  std::mutex lock_;
};

void UnitSystem::add_row(const UnitRow& row) {
  const Unit unit = row.of == nullptr ? own(ut_new_base_unit(system_.get()))
                                      : own(ut_scale(row.factor, parsed(row.of).get()));
  std::string_view names = row.names;
  const std::string first(names.substr(0, names.find(' ')));
  while (!names.empty()) {
    const std::size_t end = std::min(names.find(' '), names.size());
    add(std::string(names.substr(0, end)), unit);
    names.remove_prefix(std::min(end + 1, names.size()));
  }
  for (const char prefix : row.prefixes)
    add(prefix + first, own(ut_scale(prefix_factor(prefix), unit.get())));
}

std::string in_table_letters(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    std::string_view taken = text.substr(0, 1);
    std::string_view written = taken;
    for (const auto& [spelling, letters] : kSpellings) {
      if (text.substr(0, spelling.size()) != spelling) continue;
      taken = spelling;
      written = letters;
    }
    out += written;
    text.remove_prefix(taken.size());
  }
  return out;
}

// Takes "name", "name2", "name^2" or "name-1"; empty if there is none. The exponent is one digit,
// since longer ones are typing mistakes ("2m35.05s").
std::string take_factor(std::string_view& text) {
  std::size_t n = 0;
  while (n < text.size() && is_letter(text[n])) ++n;
  std::string name(text.substr(0, n));
  text.remove_prefix(n);
  std::string_view rest = text;
  if (!rest.empty() && rest.front() == '^') rest.remove_prefix(1);
  if (!rest.empty() && rest.front() == '-') rest.remove_prefix(1);
  if (!rest.empty() && rest.front() >= '1' && rest.front() <= '4') text = rest.substr(1);
  return name;
}

// The unit of a text that keeps to our grammar, so that the library never sees anything in which
// it might find more than is meant.
Unit UnitSystem::read(std::string_view text, std::string& unknown) const {
  const std::string whole = in_table_letters(text);
  std::string_view rest = whole;
  if (rest == "1") return parsed(whole);
  if (rest.substr(0, 2) == "1/") rest.remove_prefix(2);
  for (bool more = true; more;) {
    const std::string name = take_factor(rest);
    more = !rest.empty();
    const bool joined = !more || rest.front() == '.' || rest.front() == '/';
    if (name.empty() || !joined) {
      unknown = text;
      return own(nullptr);
    }
    if (!parsed(name)) {
      unknown = name;
      return own(nullptr);
    }
    if (!more) break;
    rest.remove_prefix(1);
  }
  return parsed(whole);
}

double UnitSystem::factor(const ut_unit* from, const ut_unit* to) const {
  const std::unique_ptr<cv_converter, void (*)(cv_converter*)> converter(
      ut_get_converter(const_cast<ut_unit*>(from), const_cast<ut_unit*>(to)), cv_free);
  return converter ? cv_convert_double(converter.get(), 1) : 0;
}

// The library multiplies prefixes and raises powers in binary, which leaves 0.001 squared a hair
// off a millionth, on some processors perhaps another hair than on others. Twelve digits are more
// than any exact factor of the table has: what is so close to them is meant to be them.
bool round_to_decimal(double& factor) {
  char text[32];
  const auto end =
      std::to_chars(text, text + sizeof text, factor, std::chars_format::scientific, 12).ptr;
  double rounded = 0;
  std::from_chars(text, end, rounded);
  if (std::fabs(rounded - factor) > 1e-15 * factor) return false;
  factor = rounded;
  return true;
}

UnitConversion UnitSystem::convert(std::string_view from, std::string_view to) {
  const std::lock_guard<std::mutex> guard(lock_);
  UnitConversion result;
  const Unit source = read(from, result.unknown);
  const Unit target = read(to, result.unknown);
  if (!source || !target) return result;
  // By way of the quotient: asked directly, the library also converts seconds into hertz.
  const Unit quotient = own(ut_divide(source.get(), target.get()));
  const Unit one = own(ut_get_dimensionless_unit_one(system_.get()));
  result.match = UnitConversion::kOtherKind;
  if (!quotient || !ut_are_convertible(quotient.get(), one.get())) return result;
  result.match = UnitConversion::kSameKind;
  double scale = factor(quotient.get(), one.get());
  double inverse = 1 / scale;
  if (!round_to_decimal(scale) && round_to_decimal(inverse)) {
    result.divide = inverse;
  } else {
    result.multiply = scale;
  }
  const std::unique_ptr<cv_converter, void (*)(cv_converter*)> direct(
      ut_get_converter(source.get(), target.get()), cv_free);
  if (direct) result.offset = cv_convert_double(direct.get(), 0);
  return result;
}

UnitSystem& unit_system() {
  static UnitSystem system;
  return system;
}

}  // namespace

UnitConversion convert_unit(std::string_view from, std::string_view to) {
  return unit_system().convert(from, to);
}

const std::vector<std::string>& unit_names() { return unit_system().names(); }

}  // namespace sixty
