#include "sim/base/weekdays.hpp"

#include <array>

#include "sim/base/clock_time.hpp"
#include "sim/base/text.hpp"

namespace sixty {
namespace {

constexpr int kDays = 7;
constexpr std::array<std::string_view, kDays> kNames{"monday", "tuesday",  "wednesday", "thursday",
                                                     "friday", "saturday", "sunday"};
constexpr const char* kForms = "write days as \"Mon\", \"Mon, Wed\", \"Mon-Fri\" or \"daily\"";

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

// 0 for Monday; -1 for what is no day.
int day_named(std::string_view text) {
  const std::string name = lower(trimmed(text));
  for (int day = 0; day < kDays; ++day) {
    const std::string_view full = kNames[static_cast<std::size_t>(day)];
    if (name == full || name == full.substr(0, 3)) return day;
  }
  return -1;
}

// One day, or a stretch of days that may run over Sunday; 0 for neither.
WeekdaySet days_of(std::string_view item) {
  const std::size_t dash = item.find('-');
  const int first = day_named(item.substr(0, dash));
  const int last = dash == std::string_view::npos ? first : day_named(item.substr(dash + 1));
  if (first < 0 || last < 0) return 0;
  WeekdaySet set = 0;
  for (int day = first;; day = (day + 1) % kDays) {
    set = static_cast<WeekdaySet>(set | (1 << day));
    if (day == last) return set;
  }
}

}  // namespace

std::optional<WeekdaySet> parse_weekdays(std::string_view text, std::string& error) {
  if (lower(trimmed(text)) == "daily") return kEveryDay;
  WeekdaySet set = 0;
  std::string_view rest = text;
  for (bool more = true; more;) {
    const std::size_t comma = rest.find(',');
    const std::string_view item = rest.substr(0, comma);
    const WeekdaySet days = days_of(item);
    if (days == 0) {
      error = "\"" + printable(trimmed(item), 60) + "\" is no weekday; " + kForms;
      return std::nullopt;
    }
    set = static_cast<WeekdaySet>(set | days);
    more = comma != std::string_view::npos;
    if (more) rest.remove_prefix(comma + 1);
  }
  return set;
}

std::optional<int> parse_minute_of_day(std::string_view text, std::string& error) {
  const std::string shown = "\"" + printable(text, 60) + "\"";
  if (text.find_first_not_of("0123456789:") != std::string_view::npos ||
      text.find(':') == std::string_view::npos) {
    error = shown + " is not a time of day; write hours and minutes as \"08:05\"";
    return std::nullopt;
  }
  Diagnostic mistake;
  const std::optional<SimTime> time = parse_time(text, CalendarTime{}, 0, mistake);
  if (!time) {
    error = mistake.what + "; " + mistake.mend;
    return std::nullopt;
  }
  if (*time % kMinute != 0) {
    error = shown + " is not a whole minute; write hours and minutes as \"08:05\"";
    return std::nullopt;
  }
  return static_cast<int>(*time / kMinute);
}

std::string format_minute_of_day(int minute) {
  std::string text = "00:00";
  text[0] = static_cast<char>('0' + minute / 600);
  text[1] = static_cast<char>('0' + minute / 60 % 10);
  text[3] = static_cast<char>('0' + minute % 60 / 10);
  text[4] = static_cast<char>('0' + minute % 10);
  return text;
}

}  // namespace sixty
