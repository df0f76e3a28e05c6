// Civil time with its changes.
#include "sim/base/civil.hpp"

#include <gtest/gtest.h>

namespace sixty {
namespace {

CivilClock clock_from(const std::string& start, const std::string& rule) {
  std::string error;
  CivilClock clock(parse_calendar_time(start, error).value());
  const auto changes = civil_changes(rule, clock.start, error);
  EXPECT_TRUE(changes.has_value()) << rule << ": " << error;
  if (changes) clock.changes = *changes;
  return clock;
}

constexpr const char* kCentral = "CET-1CEST,M3.5.0,M10.5.0/3";

SimTime when(const CivilClock& clock, const std::string& text, SimTime from = 0) {
  Diagnostic mistake;
  return parse_time(text, clock, from, mistake).value_or(-1);
}

// Directive 2000/84/EC: from the last Sunday in March to the last one in October, at 01:00 UTC.
// In 2026 these are 29 March and 25 October, in 2027 28 March and 31 October (published).
TEST(CivilTimeTest, ClocksGoForwardAndBackOnTheDaysOfTheDirective) {
  const CivilClock clock = clock_from("2026-01-05T00:00:00", kCentral);
  ASSERT_GE(clock.changes.size(), 4U);
  EXPECT_EQ(format_iso(clock, clock.changes[0].at - kSecond, 0), "2026-03-29T01:59:59");
  EXPECT_EQ(format_iso(clock, clock.changes[0].at, 0), "2026-03-29T03:00:00");
  EXPECT_EQ(format_iso(clock, clock.changes[1].at - kSecond, 0), "2026-10-25T02:59:59");
  EXPECT_EQ(format_iso(clock, clock.changes[1].at, 0), "2026-10-25T02:00:00");
  EXPECT_EQ(format_iso(clock, clock.changes[2].at, 0), "2027-03-28T03:00:00");
  EXPECT_EQ(format_iso(clock, clock.changes[3].at, 0), "2027-10-31T02:00:00");
}

// United States, Energy Policy Act of 2005: second Sunday in March, first in November, at 02:00.
// In 2026: 8 March, 1 November (published).
TEST(CivilTimeTest, ARuleOfTheOtherSideOfTheOceanHoldsToo) {
  const CivilClock clock = clock_from("2026-06-01T12:00:00", "EST5EDT,M3.2.0,M11.1.0");
  EXPECT_EQ(clock.shift(0), 0);  // dials are right at the start, in summer
  EXPECT_EQ(format_iso(clock, clock.changes[0].at, 0), "2026-11-01T01:00:00");
  EXPECT_EQ(clock.changes[0].shift, -kHour);
  EXPECT_EQ(format_iso(clock, clock.changes[1].at, 0), "2027-03-14T03:00:00");
  EXPECT_EQ(clock.changes[1].shift, 0);
}

TEST(CivilTimeTest, NothingChangesWhereNoSummerTimeIsKept) {
  EXPECT_TRUE(clock_from("2026-01-05T00:00:00", "<+0530>-5:30").changes.empty());
  EXPECT_TRUE(clock_from("2026-01-05T00:00:00", "UTC0").changes.empty());
}

TEST(CivilTimeTest, ChangesReachAsFarAsAnyRun) {
  const CivilClock clock = clock_from("2026-01-05T00:00:00", kCentral);
  EXPECT_GT(clock.changes.size(), 2 * 290U);
  EXPECT_GT(clock.changes.back().at, 291 * 365 * kDay);
}

TEST(CivilTimeTest, WhatIsWrittenIsTheInstantAtWhichClocksShowIt) {
  const CivilClock clock = clock_from("2026-01-05T00:00:00", kCentral);
  for (const char* text : {"2026-03-29T01:59:59", "2026-03-29T03:00:00", "2026-07-01T08:00:00",
                           "2026-10-25T02:30:00", "2026-12-24T18:00:00"}) {
    EXPECT_EQ(format_iso(clock, when(clock, text), 0), text);
  }
  EXPECT_EQ(when(clock, "2026-07-01T08:00:00"), 177 * kDay + 7 * kHour);
  EXPECT_EQ(when(clock, "2026-03-29T02:30"), -1);  // never shown
}

TEST(CivilTimeTest, WhatIsShownTwiceIsFirstTheFirstThenTheSecond) {
  const CivilClock clock = clock_from("2026-10-24T12:00:00", kCentral);
  const SimTime first = 14 * kHour + 30 * kMinute;
  EXPECT_EQ(when(clock, "2026-10-25T02:30"), first);
  EXPECT_EQ(when(clock, "Sun 02:30"), first);
  EXPECT_EQ(when(clock, "Sun 02:30", first + 1), first + kHour);
  EXPECT_EQ(when(clock, "02:30", first + kHour + 1), first + 25 * kHour);
}

TEST(CivilTimeTest, ATimeOfDayThatIsSkippedComesOnTheNextDay) {
  const CivilClock clock = clock_from("2026-03-28T12:00:00", kCentral);
  EXPECT_EQ(format_iso(clock, when(clock, "02:30", 13 * kHour), 0), "2026-03-30T02:30:00");
}

TEST(CivilTimeTest, WhatIsNoRuleIsRefused) {
  const CalendarTime start{20000, 0};
  for (const char* rule : {"", "A", "Nowhere", "Europe/Somewhere", "CET-1CEST", "CET-1CEST,M3.5.0",
                           "CET-1CEST,M13.5.0,M10.5.0", "CET-1CEST,M3.6.0,M10.5.0",
                           "CET-1CEST,M3.5.7,M10.5.0", "CET-1CEST,M3.5.0/99,M10.5.0", "CET+99",
                           "CET-1CEST,J366,J10", "CET-1CEST,J0,J10", "CET -1", "CET-1\n"}) {
    std::string error;
    EXPECT_FALSE(civil_changes(rule, start, error).has_value()) << rule;
    EXPECT_FALSE(error.empty());
  }
  std::string error;
  const CalendarTime skipped{parse_calendar_time("2026-03-29T02:30:00", error).value()};
  EXPECT_FALSE(civil_changes(kCentral, skipped, error).has_value());
}

}  // namespace
}  // namespace sixty
