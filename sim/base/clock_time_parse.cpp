#include "sim/base/clock_time.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <limits>

#include "sim/base/text.hpp"

namespace sixty {
namespace {

constexpr SimTime kLongest = std::numeric_limits<SimTime>::max() - 1;  // kNever is not a time
constexpr std::size_t kLongestText = 100;
constexpr const char* kTimeForms =
    "a time as \"Mon 10:15:05.02\", \"10:15\", \"2026-01-05T10:15\" or a duration from the start "
    "such as \"7d\" or \"2m35.05s\"";
constexpr const char* kCalendarForm = "write \"2026-01-05T10:15:05.02\" or \"2026-01-05 10:15\"";
constexpr const char* kDurationForms =
    "a duration as \"7d\", \"1h30m\" or \"2m35.05s\" (units w d h m s ms us ns)";
constexpr const char* kDurationMend = "write whole numbers, each with its unit, the largest first";
constexpr const char* kTimeMend = "write it in one of these forms";
constexpr const char* kTooFar = "choose an earlier instant";

struct DurationUnit {
  std::string_view names;  // each between spaces, the one written first
  SimTime ns;
};
constexpr std::array<DurationUnit, 8> kDurationUnits{{
    {" w week weeks ", kWeek},
    {" d day days ", kDay},
    {" h hour hours ", kHour},
    {" m min minute minutes ", kMinute},
    {" s sec second seconds ", kSecond},
    {" ms ", kMillisecond},
    {" us \xC2\xB5s \xCE\xBCs ", kMicrosecond},  // with either of Unicode's letters mu
    {" ns ", 1},
}};

constexpr std::array<std::string_view, 7> kWeekdays{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                    "Friday", "Saturday", "Sunday"};

std::string quoted(std::string_view text) { return "\"" + printable(text, 60) + "\""; }

std::nullopt_t refused(Diagnostic& mistake, const std::string& what, const std::string& mend) {
  mistake.what = what;
  mistake.mend = mend;
  return std::nullopt;
}

std::string_view take_while(std::string_view& text, bool (*wanted)(char)) {
  std::size_t n = 0;
  while (n < text.size() && wanted(text[n])) ++n;
  const std::string_view head = text.substr(0, n);
  text.remove_prefix(n);
  return head;
}

bool take_char(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

// Takes a number of `least` to `most` digits; -1 if there is none.
int take_number(std::string_view& text, std::size_t least, std::size_t most) {
  const std::string_view digits = take_while(text, is_digit);
  if (digits.size() < least || digits.size() > most) return -1;
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

// Digits after a point, as a share of `unit_ns`. Working from the last digit to the first, every
// step divides by ten without remainder exactly if the whole is an integer; so the first
// remainder shows a fraction of a nanosecond, and nothing is ever rounded.
std::optional<SimTime> exact_fraction(std::string_view digits, SimTime unit_ns) {
  SimTime sum = 0;
  for (std::size_t i = digits.size(); i-- > 0;) {
    const SimTime tenfold = sum + (digits[i] - '0') * unit_ns;
    if (tenfold % 10 != 0) return std::nullopt;
    sum = tenfold / 10;
  }
  return sum;
}

// Takes "10:15", "9:05:30" or "10:15:05.02". Units: ns since midnight.
std::optional<SimTime> take_time_of_day(std::string_view& text, Diagnostic& mistake) {
  const std::string whole = quoted(text);
  const int hour = take_number(text, 1, 2);
  const int minute = take_char(text, ':') ? take_number(text, 2, 2) : -1;
  const int second = take_char(text, ':') ? take_number(text, 2, 2) : 0;
  if (hour < 0 || minute < 0 || second < 0) {
    return refused(mistake, whole + " is not a time of day", "write it as 10:15 or 10:15:05.02");
  }
  if (hour > 23 || minute > 59 || second > 59) {
    return refused(
        mistake, whole + " is not on the dial: hours go from 00 to 23, minutes and seconds to 59",
        hour == 24 ? "midnight is 00:00 of the next day" : "choose a time that a dial can show");
  }
  std::optional<SimTime> fraction = 0;
  if (take_char(text, '.')) {
    const std::string_view digits = take_while(text, is_digit);
    fraction = digits.empty() ? std::nullopt : exact_fraction(digits, kSecond);
  }
  if (!fraction) {
    return refused(mistake,
                   whole + " needs one to nine digits after the point (a nanosecond is the finest)",
                   "write as many digits as that, or leave the point out");
  }
  return hour * kHour + minute * kMinute + second * kSecond + *fraction;
}

bool refuse_rest(std::string_view rest, Diagnostic& mistake) {
  rest = trimmed(rest);
  if (rest.empty()) return false;
  const bool zone =
      rest.front() == 'Z' || rest.front() == 'z' || rest.front() == '+' || rest.front() == '-';
  mistake.what = quoted(rest) + " follows the time";
  mistake.mend =
      zone ? "a scene keeps one local time without a zone, so leave it out" : "leave it out";
  if (rest.front() == ',') mistake.mend = "write the fraction with a point, not a comma";
  return true;
}

bool looks_like_date(std::string_view text) {
  const std::string_view digits = take_while(text, is_digit);
  return digits.size() >= 4 && take_char(text, '-');
}

std::optional<std::int64_t> take_date(std::string_view& text, Diagnostic& mistake) {
  const std::string whole = quoted(text);
  const int year = take_number(text, 4, 4);
  const int month = take_char(text, '-') ? take_number(text, 2, 2) : -1;
  const int day = take_char(text, '-') ? take_number(text, 2, 2) : -1;
  if (year < 0 || month < 0 || day < 0) {
    return refused(mistake, whole + " is not a date", kCalendarForm);
  }
  const std::chrono::year_month_day date{std::chrono::year{year},
                                         std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (year == 0 || !date.ok()) {
    return refused(mistake, whole + " names a day that the calendar does not have",
                   "correct the day");
  }
  return std::chrono::sys_days{date}.time_since_epoch().count();
}

// Monday and the like, by at least three letters or in full. Range: 1 to 7; 0 if it is none.
int weekday_named(std::string_view name) {
  const auto same = [](char a, char b) { return lower(a) == lower(b); };
  for (std::size_t i = 0; i < kWeekdays.size(); ++i) {
    const std::string_view full = kWeekdays[i];
    if (name.size() != 3 && name.size() != full.size()) continue;
    if (std::equal(name.begin(), name.end(), full.begin(), same)) return static_cast<int>(i) + 1;
  }
  return 0;
}

// First instant at or after `from` at which clocks show a time of day, every `period` (a day or a
// week) apart; `ahead` is from the start to any one of them, as clocks show it.
std::optional<SimTime> first_at_or_after(SimTime from, SimTime ahead, SimTime period,
                                         const CivilClock& clock, Diagnostic& mistake) {
  const SimTime shown = from + clock.shift(from);
  SimTime wait = (ahead - shown % period) % period;
  if (wait < 0) wait += period;
  if (shown > kLongest - wait - 2 * period) {
    return refused(mistake, "this lies more than 292 years after the scene's start", kTooFar);
  }
  // What was shown a short while ago is shown once more where clocks go back.
  for (const SimTime earlier : {-period, SimTime{0}, period}) {
    const std::optional<SimTime> at = clock.when(shown + wait + earlier, from);
    if (at && *at <= kLongest) return at;
  }
  return refused(mistake, "clocks never show this", kTooFar);
}

std::optional<SimTime> parse_weekday_time(std::string_view text, const CivilClock& clock,
                                          SimTime from, Diagnostic& mistake) {
  const std::string_view name = take_while(text, is_letter);
  const int weekday = weekday_named(name);
  if (weekday == 0) {
    return refused(mistake, quoted(name) + " is not a weekday (Mon Tue Wed Thu Fri Sat Sun)",
                   kTimeMend);
  }
  text = trimmed(text);
  const std::optional<SimTime> of_day = take_time_of_day(text, mistake);
  if (!of_day || refuse_rest(text, mistake)) return std::nullopt;
  const SimTime ahead =
      (weekday - iso_weekday(clock.start)) * kDay + *of_day - clock.start.ns_of_day;
  return first_at_or_after(from, ahead, kWeek, clock, mistake);
}

std::optional<CalendarTime> read_calendar_time(std::string_view text, Diagnostic& mistake) {
  if (text.size() > kLongestText)
    return refused(mistake, quoted(text) + " is too long for a date and time", kCalendarForm);
  const std::optional<std::int64_t> day = take_date(text, mistake);
  if (!day) return std::nullopt;
  if (text.empty()) return CalendarTime{*day, 0};
  if (!take_char(text, 'T') && !take_char(text, ' ')) {
    refuse_rest(text, mistake);
    return std::nullopt;
  }
  const std::optional<SimTime> of_day = take_time_of_day(text, mistake);
  if (!of_day || refuse_rest(text, mistake)) return std::nullopt;
  return CalendarTime{*day, *of_day};
}

std::optional<SimTime> parse_date_time(std::string_view text, const CivilClock& clock,
                                       Diagnostic& mistake) {
  const std::optional<CalendarTime> instant = read_calendar_time(text, mistake);
  if (!instant) return std::nullopt;
  const CalendarTime& start = clock.start;
  const std::int64_t days = instant->day - start.day;
  if (days > kLongest / kDay - 1) {
    return refused(mistake, quoted(text) + " lies more than 292 years after the scene's start",
                   kTooFar);
  }
  const bool before = days < 0 || (days == 0 && instant->ns_of_day < start.ns_of_day);
  if (before) {
    return refused(
        mistake,
        quoted(text) + " lies before the scene's start, " + format_iso(start, 0, kExactFraction),
        "choose an instant after the start");
  }
  const SimTime shown = days * kDay + instant->ns_of_day - start.ns_of_day;
  const std::optional<SimTime> at = clock.when(shown, 0);
  if (!at) {
    return refused(mistake, quoted(text) + " does not exist: clocks go forward over it",
                   "choose an instant before or after that");
  }
  return at;
}

// Index into kDurationUnits of the unit of that name, or its size.
std::size_t duration_unit(std::string_view name) {
  const std::string wanted = " " + std::string(name) + " ";
  std::size_t i = 0;
  while (i < kDurationUnits.size() &&
         kDurationUnits[i].names.find(wanted) == std::string_view::npos)
    ++i;
  return i;
}

bool is_unit_letter(char c) { return is_letter(c) || static_cast<unsigned char>(c) >= 0x80; }

// Adds digits * unit_ns to the sum. Errors: false if that leaves the range.
bool add_whole(std::string_view digits, SimTime unit_ns, SimTime& sum) {
  SimTime count = 0;
  const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), count);
  if (code != std::errc()) return false;
  SimTime part = 0;
  if (__builtin_mul_overflow(count, unit_ns, &part)) return false;
  return !__builtin_add_overflow(sum, part, &sum) && sum <= kLongest;
}

// One "number unit" of a duration as written.
struct DurationPart {
  std::string_view whole;
  std::optional<std::string_view> fraction;
  std::string_view unit;
};

std::optional<DurationPart> take_part(std::string_view& text) {
  DurationPart part;
  part.whole = take_while(text, is_digit);
  if (take_char(text, '.')) {
    part.fraction = take_while(text, is_digit);
    if (part.fraction->empty()) return std::nullopt;
  }
  text = trimmed(text);
  part.unit = take_while(text, is_unit_letter);
  text = trimmed(text);
  if (part.whole.empty()) return std::nullopt;
  return part;
}

// What is wrong with the unit, or an empty text.
std::string unit_mistake(const DurationPart& part, std::size_t unit, std::size_t first_allowed) {
  if (part.unit.empty()) return "the number " + std::string(part.whole) + " has no unit";
  if (unit == kDurationUnits.size()) return quoted(part.unit) + " is not a unit of time";
  if (unit < first_allowed)
    return quoted(part.unit) + " is out of order: each unit once, the largest first";
  return "";
}

// What is wrong with the part's number, or an empty text; adds it to the sum.
std::string add_part(const DurationPart& part, SimTime unit_ns, bool last, SimTime& sum) {
  if (!add_whole(part.whole, unit_ns, sum)) return "longer than 292 years";
  if (!part.fraction) return "";
  if (!last) return "only the last number may have a decimal point";
  const std::optional<SimTime> fraction = exact_fraction(*part.fraction, unit_ns);
  if (!fraction) return "finer than a nanosecond";
  if (sum > kLongest - *fraction) return "longer than 292 years";
  sum += *fraction;
  return "";
}

std::optional<SimTime> no_duration(std::string_view text, Diagnostic& mistake) {
  return refused(mistake, quoted(text) + " is not a duration", kDurationMend);
}

std::optional<SimTime> read_duration(std::string_view text, Diagnostic& mistake) {
  const std::string_view whole = text;
  SimTime sum = 0;
  std::size_t first_allowed = 0;
  if (text.empty() || text.size() > kLongestText) return no_duration(whole, mistake);
  while (!text.empty()) {
    const std::optional<DurationPart> part = take_part(text);
    if (!part) return no_duration(whole, mistake);
    const std::size_t unit = duration_unit(part->unit);
    std::string what = unit_mistake(*part, unit, first_allowed);
    if (!what.empty()) return refused(mistake, what, kDurationMend);
    what = add_part(*part, kDurationUnits[unit].ns, text.empty(), sum);
    if (!what.empty()) {
      return refused(mistake, quoted(whole) + " is not a duration the simulator can keep: " + what,
                     "choose one from 1ns to 292 years");
    }
    first_allowed = unit + 1;
  }
  return sum;
}

std::optional<SimTime> read_time(std::string_view text, const CivilClock& clock, SimTime from,
                                 Diagnostic& mistake) {
  if (text.empty() || text.size() > kLongestText)
    return refused(mistake, quoted(text) + " is not a time", kTimeMend);
  if (is_letter(text.front())) return parse_weekday_time(text, clock, from, mistake);
  if (looks_like_date(text)) return parse_date_time(text, clock, mistake);
  if (text.find(':') == std::string_view::npos) {
    const std::optional<SimTime> duration = read_duration(text, mistake);
    if (!duration && !is_digit(text.front()))
      return refused(mistake, quoted(text) + " is not a time", kTimeMend);
    return duration;
  }
  const std::optional<SimTime> of_day = take_time_of_day(text, mistake);
  if (!of_day || refuse_rest(text, mistake)) return std::nullopt;
  return first_at_or_after(from, *of_day - clock.start.ns_of_day, kDay, clock, mistake);
}

}  // namespace

std::optional<CalendarTime> parse_calendar_time(std::string_view text, std::string& error) {
  Diagnostic mistake;
  const std::optional<CalendarTime> instant = read_calendar_time(trimmed(text), mistake);
  if (!instant) error = mistake.what + "; " + mistake.mend;
  return instant;
}

std::optional<SimTime> parse_duration(std::string_view text, Diagnostic& mistake) {
  mistake.found = printable(text, 60);
  mistake.expected = kDurationForms;
  return read_duration(trimmed(text), mistake);
}

std::optional<SimTime> parse_time(std::string_view text, const CivilClock& clock, SimTime from,
                                  Diagnostic& mistake) {
  mistake.found = printable(text, 60);
  mistake.expected = kTimeForms;
  return read_time(trimmed(text), clock, from, mistake);
}

}  // namespace sixty
