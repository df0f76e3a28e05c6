#include "sim/words/spoken.hpp"

#include <array>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/words/words.hpp"

namespace sixty {
namespace {

constexpr std::array kWeekdays{to_tr("Mon"), to_tr("Tue"), to_tr("Wed"), to_tr("Thu"),
                               to_tr("Fri"), to_tr("Sat"), to_tr("Sun")};

/// The English weekday that a text begins with, in the spoken language.
std::string with_spoken_day(std::string text) {
  for (const char* day : kWeekdays)
    if (text.compare(0, 3, day) == 0) text.replace(0, 3, tr(day));
  return spoken_number(std::move(text));
}

}  // namespace

std::string spoken_quantity(double si, std::string_view si_unit) {
  return spoken_number(format_quantity(si, si_unit));
}

std::string spoken_quantity(double si, std::string_view si_unit, int digits) {
  return spoken_number(format_quantity(si, si_unit, digits));
}

std::string spoken_instant(const CivilClock& clock, SimTime t, int fraction_digits) {
  return with_spoken_day(format_instant(clock, t, fraction_digits));
}

std::string spoken_weekday_time(const CivilClock& clock, SimTime t, int fraction_digits) {
  return with_spoken_day(format_weekday_time(clock, t, fraction_digits));
}

std::string spoken_duration(SimTime t) {
  return t == kNever ? tr("never") : spoken_number(format_duration(t));
}

std::string spoken_key(const std::string& name) {
  const char* words = words_in(spoken(), words_of_key(name).c_str());
  return words == nullptr ? name : words;
}

std::string spoken_times(std::int64_t number) {
  if (number == 0) return tr("never");
  return number == 1 ? tr("once") : say_counted("{} time", "{} times", number);
}

}  // namespace sixty
