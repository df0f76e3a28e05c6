#include "sim/base/clock_time.hpp"

#include <algorithm>
#include <chrono>

namespace sixty {
namespace {

constexpr std::string_view kWeekdayNames = "MonTueWedThuFriSatSun";

std::chrono::year_month_day date_of(std::int64_t day) {
  return std::chrono::sys_days{std::chrono::days{day}};
}

void append_number(std::string& text, std::int64_t value, std::size_t width = 1) {
  const std::string digits = std::to_string(value);
  if (digits.size() < width) text.append(width - digits.size(), '0');
  text += digits;
}

// ".020" for 20,000,000 ns; cut, or without trailing zeros for kExactFraction.
std::string fraction_text(SimTime ns, int digits) {
  std::string text = ".";
  append_number(text, ns, 9);
  if (digits != kExactFraction) {
    text.resize(static_cast<std::size_t>(std::clamp(digits, 0, 9)) + 1);
  } else {
    while (text.back() == '0') text.pop_back();
  }
  return text == "." ? "" : text;
}

std::string time_of_day_text(SimTime ns_of_day, int fraction_digits) {
  std::string text;
  append_number(text, ns_of_day / kHour, 2);
  text += ':';
  append_number(text, ns_of_day / kMinute % 60, 2);
  text += ':';
  append_number(text, ns_of_day / kSecond % 60, 2);
  return text + fraction_text(ns_of_day % kSecond, fraction_digits);
}

// "72.1ms", with the largest unit of which there is at least one.
std::string below_a_second_text(SimTime ns) {
  const SimTime unit_ns = ns >= kMillisecond ? kMillisecond : ns >= kMicrosecond ? kMicrosecond : 1;
  const char* unit = ns >= kMillisecond ? "ms" : ns >= kMicrosecond ? "us" : "ns";
  const std::string whole = std::to_string(ns / unit_ns);
  return whole + fraction_text(ns % unit_ns * (kSecond / unit_ns), kExactFraction) + unit;
}

}  // namespace

int day_of_year(const CalendarTime& instant) {
  const std::chrono::sys_days first{date_of(instant.day).year() / std::chrono::January / 1};
  return static_cast<int>(instant.day - first.time_since_epoch().count()) + 1;
}

int iso_weekday(const CalendarTime& instant) {
  const std::chrono::sys_days day{std::chrono::days{instant.day}};
  return static_cast<int>(std::chrono::weekday{day}.iso_encoding());
}

SimTime CivilClock::shift(SimTime t) const {
  const auto after = std::upper_bound(changes.begin(), changes.end(), t,
                                      [](SimTime x, const CivilChange& c) { return x < c.at; });
  return after == changes.begin() ? 0 : std::prev(after)->shift;
}

std::optional<SimTime> CivilClock::when(SimTime shown, SimTime from) const {
  // Each stretch between two changes shows it once, or not at all.
  SimTime begins = 0;
  SimTime ahead = 0;
  for (std::size_t k = 0; k <= changes.size(); ++k) {
    const SimTime ends = k < changes.size() ? changes[k].at : kNever;
    const SimTime at = shown - ahead;
    if (at >= begins && at < ends && at >= from) return at;
    if (k == changes.size()) break;
    begins = ends;
    ahead = changes[k].shift;
  }
  return std::nullopt;
}

CalendarTime calendar_time(const CivilClock& clock, SimTime t) {
  const CalendarTime& start = clock.start;
  t += clock.shift(t);
  std::int64_t days = t / kDay;
  SimTime rest = t % kDay + start.ns_of_day;
  if (rest < 0) {
    rest += kDay;
    --days;
  } else if (rest >= kDay) {
    rest -= kDay;
    ++days;
  }
  return {start.day + days, rest};
}

std::string format_weekday_time(const CivilClock& clock, SimTime t, int fraction_digits) {
  const CalendarTime instant = calendar_time(clock, t);
  const auto weekday = static_cast<std::size_t>(iso_weekday(instant) - 1);
  return std::string(kWeekdayNames.substr(3 * weekday, 3)) + " " +
         time_of_day_text(instant.ns_of_day, fraction_digits);
}

std::string format_iso(const CivilClock& clock, SimTime t, int fraction_digits) {
  const CalendarTime instant = calendar_time(clock, t);
  const std::chrono::year_month_day date = date_of(instant.day);
  std::string text;
  append_number(text, static_cast<int>(date.year()), 4);
  text += '-';
  append_number(text, static_cast<unsigned>(date.month()), 2);
  text += '-';
  append_number(text, static_cast<unsigned>(date.day()), 2);
  return text + "T" + time_of_day_text(instant.ns_of_day, fraction_digits);
}

std::string format_instant(const CivilClock& clock, SimTime t, int fraction_digits) {
  return t < kWeek ? format_weekday_time(clock, t, fraction_digits)
                   : format_iso(clock, t, fraction_digits);
}

std::string format_duration(SimTime t) {
  if (t == kNever) return "never";
  if (t == 0) return "0s";
  // The two most negative times have no positive twin that is a time.
  if (t < 0) return "-" + format_duration(t <= -kNever ? kNever - 1 : -t);
  if (t < kSecond) return below_a_second_text(t);
  std::string text;
  if (t >= kDay) text += std::to_string(t / kDay) + "d";
  if (t / kHour % 24 != 0) text += std::to_string(t / kHour % 24) + "h";
  if (t / kMinute % 60 != 0) text += std::to_string(t / kMinute % 60) + "m";
  const std::string seconds =
      std::to_string(t / kSecond % 60) + fraction_text(t % kSecond, kExactFraction);
  return seconds == "0" ? text : text + seconds + "s";
}

}  // namespace sixty
