// How numbers are told, and times of a dial read.
#include "sim/part/told.hpp"

#include <gtest/gtest.h>

namespace sixty {
namespace {

TEST(Told, AShareIsInPerCentAndWhatIsFineHasItsLastDigits) {
  EXPECT_EQ(told_text(0.25, "1", Told::kShare), "25 %");
  EXPECT_EQ(told_text(0.9999876, "s", Told::kFine), "0.9999876 s");
  EXPECT_EQ(told_text(0.9999876, "s", Told::kPlain), "1 s");
  EXPECT_EQ(told_text(-3, "1", Told::kMinutes), "-3 min");
}

TEST(Told, ADialsTimeIsWrittenAsItShowsIt) {
  EXPECT_EQ(told_text(30600, "s", Told::kDial), "8:30");
  EXPECT_EQ(told_text(305, "s", Told::kDial), "0:05:05");
  EXPECT_EQ(told_text(43200, "s", Told::kDial), "12:00");
}

TEST(Told, ADialsTimeIsReadAsItIsWritten) {
  EXPECT_EQ(read_dial_time("8:30"), 30600);
  EXPECT_EQ(read_dial_time("08:05"), 29100);
  EXPECT_EQ(read_dial_time("12:00"), 43200);
  for (const char* wrong : {"", "8", "8:3", "8:60", "12:01", "108:30", "8.30", "8:30 ", "-1:00"})
    EXPECT_FALSE(read_dial_time(wrong)) << wrong;
}

}  // namespace
}  // namespace sixty
