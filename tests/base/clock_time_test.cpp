#include "sim/base/clock_time.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace sixty {
namespace {

CalendarTime instant(const std::string& text) {
  std::string error;
  const std::optional<CalendarTime> parsed = parse_calendar_time(text, error);
  EXPECT_TRUE(parsed) << text << ": " << error;
  return parsed.value_or(CalendarTime{});
}

SimTime duration(const std::string& text) {
  Diagnostic mistake;
  const std::optional<SimTime> parsed = parse_duration(text, mistake);
  EXPECT_TRUE(parsed) << text << ": " << mistake.what;
  return parsed.value_or(-1);
}

std::string duration_error(const std::string& text) {
  Diagnostic mistake;
  EXPECT_FALSE(parse_duration(text, mistake)) << text;
  return mistake.what;
}

// A Monday.
CalendarTime start() { return instant("2026-01-05T00:00"); }

SimTime at(const std::string& text, SimTime from = 0, CalendarTime begin = start()) {
  Diagnostic mistake;
  const std::optional<SimTime> parsed = parse_time(text, begin, from, mistake);
  EXPECT_TRUE(parsed) << text << ": " << mistake.what;
  return parsed.value_or(-1);
}

std::string time_error(const std::string& text, CalendarTime begin = start()) {
  Diagnostic mistake;
  EXPECT_FALSE(parse_time(text, begin, 0, mistake)) << text;
  return mistake.what;
}

// FMT-12, FMT-13 (published), FMT-14 (derived): the last figure of their week dates.
TEST(CalendarTimeTest, WeekdaysAgreeWithIso8601) {
  const std::pair<const char*, int> known[] = {
      {"2004-12-31", 5}, {"2005-01-01", 6}, {"2006-01-01", 7}, {"2008-01-01", 2},
      {"2008-12-29", 1}, {"2009-12-31", 4}, {"2026-01-01", 4}, {"2024-12-31", 2}};
  for (const auto& [date, weekday] : known) EXPECT_EQ(iso_weekday(instant(date)), weekday) << date;
}

TEST(CalendarTimeTest, TheEpochIsDayZero) {
  EXPECT_EQ(instant("1970-01-01").day, 0);
  EXPECT_EQ(instant("1969-12-31").day, -1);
  EXPECT_EQ(instant("2000-03-01").day, 11017);
  EXPECT_EQ(instant("1970-01-02T01:02:03.5").ns_of_day,
            kHour + 2 * kMinute + 3 * kSecond + 500 * kMillisecond);
}

TEST(CalendarTimeTest, LeapYearsFollowTheGregorianRule) {
  std::string error;
  for (const char* day : {"1900-02-29", "2100-02-29", "2026-02-29"})
    EXPECT_FALSE(parse_calendar_time(day, error)) << day;
  for (const char* day : {"2000-02-29", "2024-02-29", "0004-02-29"})
    EXPECT_TRUE(parse_calendar_time(day, error)) << day << error;
}

TEST(CalendarTimeTest, WhatIsNoCalendarInstantIsRefused) {
  for (const char* text : {"",
                           "2026",
                           "2026-01",
                           "2026-1-5",
                           "26-01-05",
                           "2026-13-01",
                           "2026-00-01",
                           "2026-04-31",
                           "0000-01-01",
                           "02026-01-05",
                           "2026-01-05T",
                           "2026-01-05T10",
                           "2026-01-05T10:5",
                           "2026-01-05T24:00",
                           "2026-01-05T10:60",
                           "2026-01-05T10:15:60",
                           "2026-01-05T10:15:05.",
                           "2026-01-05T10:15:05.0000000001",
                           "2026-01-05T10:15:05,5",
                           "2026-01-05T10:15Z",
                           "2026-01-05T10:15+01:00",
                           "2026-01-05x",
                           "2026/01/05",
                           "-2026-01-05",
                           "2026-01-0510:15",
                           "2026-01-05T10:15 h"}) {
    std::string error;
    EXPECT_FALSE(parse_calendar_time(text, error)) << text;
    EXPECT_FALSE(error.empty()) << text;
  }
}

TEST(CalendarTimeTest, AZoneIsRefusedByName) {
  std::string error;
  parse_calendar_time("2026-01-05T10:15Z", error);
  EXPECT_NE(error.find("zone"), std::string::npos) << error;
}

TEST(DurationTest, PartsAddUpExactly) {
  EXPECT_EQ(duration("7d"), kWeek);
  EXPECT_EQ(duration("1w"), kWeek);
  EXPECT_EQ(duration("2m35.05s"), 155'050'000'000);
  EXPECT_EQ(duration("90 s"), 90 * kSecond);
  EXPECT_EQ(duration("1h30m"), 90 * kMinute);
  EXPECT_EQ(duration("1 h 30 min"), 90 * kMinute);
  EXPECT_EQ(duration(" 2 days "), 2 * kDay);
  EXPECT_EQ(duration("1.5h"), 90 * kMinute);
  EXPECT_EQ(duration("50us"), 50'000);
  EXPECT_EQ(duration("50 \xC2\xB5s"), 50'000);
  EXPECT_EQ(duration("50\xCE\xBCs"), 50'000);
  EXPECT_EQ(duration("0s"), 0);
  EXPECT_EQ(duration("1w2d3h4m5s6ms7us8ns"),
            kWeek + 2 * kDay + 3 * kHour + 4 * kMinute + 5'006'007'008);
}

TEST(DurationTest, FractionsAreNotRounded) {
  EXPECT_EQ(duration("0.000000001s"), 1);
  EXPECT_EQ(duration("0.123456789 s"), 123'456'789);
  EXPECT_EQ(duration("0.1s") * 10, kSecond);
  EXPECT_EQ(duration("0.3333d"), 28'797'120'000'000);
  EXPECT_EQ(duration("0.0000000000025h"), 9);
  EXPECT_NE(duration_error("0.1ns").find("finer than a nanosecond"), std::string::npos);
  EXPECT_NE(duration_error("0.1234567891s").find("finer"), std::string::npos);
}

TEST(DurationTest, TheLongestIsJustBelowNever) {
  EXPECT_EQ(duration("9223372036854775806ns"), kNever - 1);
  EXPECT_NE(duration_error("9223372036854775807ns").find("292 years"), std::string::npos);
  EXPECT_NE(duration_error("106752d").find("292 years"), std::string::npos);
  EXPECT_NE(duration_error("99999999999999999999d").find("292 years"), std::string::npos);
  EXPECT_NE(duration_error("106751d23h47m16.9s").find("292 years"), std::string::npos);
}

TEST(DurationTest, WhatIsNoDurationIsRefused) {
  for (const char* text :
       {"",      " ",   "90",     "s",     "-5s",    "+5s",  "1.5h30m", "30m1h", "1h1h",
        "5 x",   "5S",  "1e3s",   "0x10s", "1_000s", "1,5s", ".5s",     "5.s",   "1:30",
        "nan s", "inf", "1h,30m", "1h 30", "5 s s",  "1y",   "5M"}) {
    EXPECT_FALSE(duration_error(text).empty()) << text;
  }
  EXPECT_FALSE(duration_error(std::string(100'000, '1')).empty());
  EXPECT_FALSE(duration_error("0." + std::string(100'000, '0') + "s").empty());
}

TEST(DurationTest, FormatsAsPeopleWriteIt) {
  EXPECT_EQ(format_duration(0), "0s");
  EXPECT_EQ(format_duration(kWeek), "7d");
  EXPECT_EQ(format_duration(155'050'000'000), "2m35.05s");
  EXPECT_EQ(format_duration(90 * kMinute), "1h30m");
  EXPECT_EQ(format_duration(72'100'000), "72.1ms");
  EXPECT_EQ(format_duration(1), "1ns");
  EXPECT_EQ(format_duration(1'500), "1.5us");
  EXPECT_EQ(format_duration(kDay + 1), "1d0.000000001s");
  EXPECT_EQ(format_duration(-2 * kSecond), "-2s");
  EXPECT_EQ(format_duration(kNever), "never");
  EXPECT_EQ(format_duration(-kNever), "-" + format_duration(kNever - 1));
  EXPECT_EQ(format_duration(-kNever - 1), "-" + format_duration(kNever - 1));
}

RC_GTEST_PROP(DurationTest, WhatIsFormattedIsReadBackToTheNanosecond, ()) {
  const int shift = *rc::gen::inRange(0, 63);
  const SimTime t = *rc::gen::inRange<SimTime>(0, kNever) >> shift;
  Diagnostic mistake;
  const std::optional<SimTime> back = parse_duration(format_duration(t), mistake);
  RC_ASSERT(back.has_value());
  RC_ASSERT(*back == t);
}

TEST(TimeTest, TheFourFormsMeanTheSameInstant) {
  const SimTime expected = 10 * kHour + 15 * kMinute + 5 * kSecond + 20 * kMillisecond;
  EXPECT_EQ(at("Mon 10:15:05.02"), expected);
  EXPECT_EQ(at("monday 10:15:05.020000000"), expected);
  EXPECT_EQ(at("2026-01-05T10:15:05.02"), expected);
  EXPECT_EQ(at("2026-01-05 10:15:05.02"), expected);
  EXPECT_EQ(at("10:15:05.02"), expected);
  EXPECT_EQ(at("10h15m5.02s"), expected);
}

TEST(TimeTest, AWeekdayIsTheFirstAtOrAfterTheGivenInstant) {
  EXPECT_EQ(at("Mon 00:00"), 0);
  EXPECT_EQ(at("Sun 00:00"), 6 * kDay);
  EXPECT_EQ(at("Mon 00:00", 1), kWeek);
  EXPECT_EQ(at("Mon 10:15", 10 * kHour + 15 * kMinute), 10 * kHour + 15 * kMinute);
  EXPECT_EQ(at("Mon 10:15", 10 * kHour + 15 * kMinute + 1), kWeek + 10 * kHour + 15 * kMinute);
  EXPECT_EQ(at("10:15", 11 * kHour), kDay + 10 * kHour + 15 * kMinute);
  const CalendarTime wednesday_noon = instant("2026-01-07T12:00");
  EXPECT_EQ(at("Wed 12:00", 0, wednesday_noon), 0);
  EXPECT_EQ(at("Wed 11:59", 0, wednesday_noon), kWeek - kMinute);
  EXPECT_EQ(at("Mon 12:00", 0, wednesday_noon), 5 * kDay);
  EXPECT_EQ(at("11:59", 0, wednesday_noon), kDay - kMinute);
}

TEST(TimeTest, WhatIsNoTimeIsRefused) {
  for (const char* text : {"",
                           "Mo 10:15",
                           "Mon",
                           "Mon10",
                           "Monda 10:15",
                           "Mon 25:00",
                           "Mon 10:15 pm",
                           "noon",
                           "10",
                           "10:5",
                           "1:2:3:4",
                           "2026-01-04T23:59:59",
                           "2400-01-01",
                           "10:15Z",
                           "-7d",
                           "7d 10:15",
                           "@",
                           "Mon 10:15:05.0000000001",
                           "1.5",
                           "\x01",
                           "\xff\xfe"}) {
    EXPECT_FALSE(time_error(text).empty()) << text;
  }
  EXPECT_NE(time_error("2026-01-04T23:59:59").find("before the scene's start"), std::string::npos);
  EXPECT_NE(time_error("9999-12-31", instant("0001-01-01")).find("292 years"), std::string::npos);
  Diagnostic mistake;
  EXPECT_FALSE(parse_time("Mon 10:15", start(), kNever - 5, mistake));
  EXPECT_NE(mistake.what.find("292 years"), std::string::npos);
}

TEST(TimeTest, FractionsAreCutSoThatNoLaterInstantIsShown) {
  const SimTime t = 10 * kHour + 15 * kMinute + 5'999'999'999;
  EXPECT_EQ(format_weekday_time(start(), t), "Mon 10:15:05.999");
  EXPECT_EQ(format_weekday_time(start(), t, 0), "Mon 10:15:05");
  EXPECT_EQ(format_weekday_time(start(), t, 9), "Mon 10:15:05.999999999");
  EXPECT_EQ(format_iso(start(), 7 * kDay + 20 * kMillisecond), "2026-01-12T00:00:00.020");
  EXPECT_EQ(format_iso(start(), 20 * kMillisecond, kExactFraction), "2026-01-05T00:00:00.02");
  EXPECT_EQ(format_iso(start(), 0, kExactFraction), "2026-01-05T00:00:00");
}

TEST(TimeTest, DaysBeforeTheStartAreFormattedToo) {
  EXPECT_EQ(format_iso(start(), -1, 9), "2026-01-04T23:59:59.999999999");
  EXPECT_EQ(format_weekday_time(start(), -kDay), "Sun 00:00:00.000");
}

RC_GTEST_PROP(TimeTest, InstantsAreReadBackFromBothFormats, ()) {
  const CalendarTime begin{*rc::gen::inRange<std::int64_t>(-719'000, 2'800'000),
                           *rc::gen::inRange<SimTime>(0, kDay)};
  const SimTime t = *rc::gen::inRange<SimTime>(0, 100 * 366 * kDay);
  Diagnostic mistake;
  RC_ASSERT(parse_time(format_iso(begin, t, kExactFraction), begin, 0, mistake) == t);
  RC_ASSERT(parse_time(format_weekday_time(begin, t, 9), begin, t, mistake) == t);
  RC_ASSERT(parse_time(format_weekday_time(begin, t, 9), begin, t - kWeek + 1, mistake) == t);
}

RC_GTEST_PROP(TimeTest, AnyTextGivesATimeOrAReason, (const std::string& text)) {
  Diagnostic mistake;
  RC_ASSERT((parse_time(text, start(), 0, mistake).has_value() || !mistake.what.empty()));
}

RC_GTEST_PROP(TimeTest, AnyMixtureOfTimePiecesGivesATimeOrAReason, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "Mon", " ", "10", ":", "15", ".", "02", "2026", "-", "01", "T", "d", "h", "m", "s", "ns",
      "999999999999", "Z", "+", ",", "e", "w"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  Diagnostic mistake;
  const std::optional<SimTime> t = parse_time(text, start(), 0, mistake);
  RC_ASSERT((t.has_value() ? *t >= 0 : !mistake.what.empty()));
}

}  // namespace
}  // namespace sixty
