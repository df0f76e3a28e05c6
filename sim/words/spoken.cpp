#include "sim/words/spoken.hpp"

#include <array>
#include <chrono>

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

// Units that are words, one and many.
constexpr std::array kUnits{
    to_tr_as("unit", "turn"),  to_tr_as("unit", "turns"), to_tr_as("unit", "row"),
    to_tr_as("unit", "rows"),  to_tr_as("unit", "cell"),  to_tr_as("unit", "cells"),
    to_tr_as("unit", "beat"),  to_tr_as("unit", "beats"), to_tr_as("unit", "tooth"),
    to_tr_as("unit", "teeth"), to_tr_as("unit", "s/day")};

std::string with_spoken_unit(std::string quantity) {
  const std::size_t unit = quantity.rfind(' ') + 1;
  for (const char* english : kUnits) {
    if (quantity.compare(unit, std::string::npos, english) != 0) continue;
    quantity.replace(unit, std::string::npos, tr_as("unit", english));
    break;
  }
  return spoken_number(std::move(quantity));
}

}  // namespace

std::string spoken_quantity(double si, std::string_view si_unit) {
  return with_spoken_unit(format_quantity(si, si_unit));
}

std::string spoken_quantity(double si, std::string_view si_unit, int digits) {
  return with_spoken_unit(format_quantity(si, si_unit, digits));
}

std::string spoken_kind(const std::string& name) {
  const std::string words = words_of_key(name);
  const char* spoken = tr_as("kind of part", words.c_str());
  return spoken == words.c_str() ? name : spoken;
}

std::string spoken_instant(const CivilClock& clock, SimTime t, int fraction_digits) {
  return with_spoken_day(format_instant(clock, t, fraction_digits));
}

std::string spoken_weekday_time(const CivilClock& clock, SimTime t, int fraction_digits) {
  return with_spoken_day(format_weekday_time(clock, t, fraction_digits));
}

std::string spoken_date(const CalendarTime& date) {
  static constexpr const char* kDays[] = {to_tr("Monday"),   to_tr("Tuesday"), to_tr("Wednesday"),
                                          to_tr("Thursday"), to_tr("Friday"),  to_tr("Saturday"),
                                          to_tr("Sunday")};
  static constexpr const char* kMonths[] = {to_tr("January"), to_tr("February"), to_tr("March"),
                                            to_tr("April"),   to_tr("May"),      to_tr("June"),
                                            to_tr("July"),    to_tr("August"),   to_tr("September"),
                                            to_tr("October"), to_tr("November"), to_tr("December")};
  const std::chrono::year_month_day day{std::chrono::sys_days{std::chrono::days{date.day}}};
  return say("{0}, {1} {2} {3}", tr(kDays[iso_weekday(date) - 1]), static_cast<unsigned>(day.day()),
             tr(kMonths[static_cast<unsigned>(day.month()) - 1]), static_cast<int>(day.year()));
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
