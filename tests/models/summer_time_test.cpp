// Clocks on the wall go forward; master, secondaries and tape do not, until a hand sets them.
#include <gtest/gtest.h>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kHour_s = 3600;

/// From the noon before clocks go forward (2026-03-29) or back (2026-10-25), in central Europe.
std::string bench_on(const std::string& day, const std::string& script = "") {
  std::string yaml = bench_minimal();
  const std::string start = "start: 2026-01-05T00:00:00";
  yaml.replace(yaml.find(start), start.size(),
               "start: " + day + "T12:00:00\ntime_zone: CET-1CEST,M3.5.0,M10.5.0/3");
  return yaml + script;
}

TEST(SummerTimeTest, MasterSecondariesAndTapeStayWhereTheyWere) {
  Trial trial(bench_on("2026-03-28"));
  trial.run_to(13.9 * kHour_s);
  EXPECT_NEAR(trial.read("movement.error"), 0, 1);
  EXPECT_EQ(trial.read("hall_clock.error_min"), 0);
  EXPECT_EQ(trial.read("tape.slipped"), 0);
  trial.run_to(14.1 * kHour_s);
  EXPECT_NEAR(trial.read("movement.error"), -3600, 1);
  EXPECT_EQ(trial.read("hall_clock.error_min"), -60);
  EXPECT_EQ(trial.read("tape.slipped"), 60);
}

TEST(SummerTimeTest, InAutumnTheyAreAnHourFast) {
  Trial trial(bench_on("2026-10-24"));
  trial.run_to(15.1 * kHour_s);
  EXPECT_NEAR(trial.read("movement.error"), 3600, 1);
  EXPECT_EQ(trial.read("workshop_clock.error_min"), 60);
  EXPECT_EQ(trial.read("tape.slipped"), -60);
}

// On Monday at eight by the wall the tape has seven o'clock under its fingers; set on by an hour
// like all else, it rings again when people expect it.
TEST(SummerTimeTest, RingsComeWhenPeopleExpectThemOnceTheTapeIsSet) {
  Trial left(bench_on("2026-03-28"));
  left.run_to(46 * kHour_s);  // Monday 11:00
  EXPECT_EQ(left.read("timetable.rung"), 0);
  EXPECT_EQ(left.read("timetable.missed"), 5);
  EXPECT_EQ(left.read("timetable.unasked"), 3);  // those of 08:00, 08:45, 09:35
  Trial set(bench_on("2026-03-28",
                     "  - at 2026-03-29T10:00:30: tape.set_row 600 row\n"
                     "  - at 2026-03-29T10:00:30: movement.set_hands 10 h\n"
                     "  - at 2026-03-29T10:00:30: hall_clock.set 10 h\n"));
  set.run_to(46 * kHour_s);
  EXPECT_EQ(set.read("timetable.rung"), 5);
  EXPECT_EQ(set.read("timetable.missed"), 0);
  EXPECT_EQ(set.read("tape.slipped"), 0);
  EXPECT_EQ(set.read("hall_clock.error_min"), 0);
  EXPECT_NEAR(set.read("movement.error"), 0, 1);
  EXPECT_EQ(set.read("workshop_clock.error_min"), -60);
}

TEST(SummerTimeTest, ARuleThatIsNoneIsAMistakeWithItsPlace) {
  std::string yaml = bench_on("2026-03-28");
  yaml.replace(yaml.find("M10.5.0/3"), 9, "M10.9.0/3");
  EXPECT_NE(mistakes_of(yaml).find("time_zone: no rule for civil time"), std::string::npos);
}

}  // namespace
}  // namespace sixty
