#include "sim/base/weekdays.hpp"

#include <gtest/gtest.h>

namespace sixty {
namespace {

int days(const char* text) {
  std::string error;
  const auto set = parse_weekdays(text, error);
  return set ? *set : -1;
}

TEST(WeekdaysTest, ReadsDaysAsPeopleWriteThem) {
  EXPECT_EQ(days("Mon"), 0b0000001);
  EXPECT_EQ(days("sunday"), 0b1000000);
  EXPECT_EQ(days("Mon, Wed"), 0b0000101);
  EXPECT_EQ(days("Mon-Fri"), 0b0011111);
  EXPECT_EQ(days("Sat-Mon,Wed"), 0b1100101);
  EXPECT_EQ(days("Sat - Sun"), 0b1100000);
  EXPECT_EQ(days("Tue-Mon"), kEveryDay);
  EXPECT_EQ(days("daily"), kEveryDay);
}

TEST(WeekdaysTest, RefusesWhatIsNoDay) {
  for (const char* text : {"", "Mo", "Mon,", "Mon-", "-Fri", "Mon-Wed-Fri", "Mon;Tue", "Mon-Fry"}) {
    EXPECT_EQ(days(text), -1) << text;
  }
  std::string error;
  EXPECT_FALSE(parse_weekdays("Mon, Fry", error));
  EXPECT_NE(error.find("\"Fry\""), std::string::npos);
}

TEST(WeekdaysTest, ReadsMinutesOfTheDay) {
  std::string error;
  EXPECT_EQ(parse_minute_of_day("00:00", error), 0);
  EXPECT_EQ(parse_minute_of_day("8:05", error), 485);
  EXPECT_EQ(parse_minute_of_day("23:59", error), 1439);
  EXPECT_EQ(parse_minute_of_day("08:05:00", error), 485);
  for (const char* text :
       {"", "8", "08.05", "24:00", "08:60", "08:05:30", "Mon 08:05", "8h", " 8:05"}) {
    EXPECT_FALSE(parse_minute_of_day(text, error)) << text;
  }
}

TEST(WeekdaysTest, WritesMinutesOfTheDay) {
  EXPECT_EQ(format_minute_of_day(0), "00:00");
  EXPECT_EQ(format_minute_of_day(485), "08:05");
  EXPECT_EQ(format_minute_of_day(1439), "23:59");
}

}  // namespace
}  // namespace sixty
