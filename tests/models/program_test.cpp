// Tape, week wheel and timetable in a clock that goes: programs of a week.
#include <gmock/gmock.h>

#include "tests/models/program_scene.hpp"
#include "tests/models/report_rows.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kDay = 86400;

/// Four zones, each with a week of its own, row by row.
ProgramScene four_weeks() {
  ProgramScene s;
  s.tape =
      R"(      punched: ["08:00 1", "08:05 2", "09:00 1-2, 3", "12:15 1", "13:10 2 4", "22:15 4"]
)";
  s.pins = R"([{zone: 1, at: [Mon-Fri]}, {zone: 2, at: [Mon am, "Wed, Fri"]},
             {zone: 3, at: [Tue am, Thu am]}, {zone: 4, at: [Sat-Sun pm]}])";
  s.rings = R"(
        - {zone: 1, days: Mon-Fri, at: ["08:00", "09:00", "12:15"], for: 5 s}
        - {zone: 2, days: "Mon, Wed, Fri", at: ["08:05", "09:00"], for: 5 s}
        - {zone: 2, days: "Wed, Fri", at: ["13:10"], for: 5 s}
        - {zone: 3, days: "Tue, Thu", at: ["09:00"], for: 5 s}
        - {zone: 4, days: Sat-Sun, at: ["13:10", "22:15"], for: 5 s})";
  return s;
}

std::vector<std::int64_t> zone_row(const Report& report, std::size_t i) {
  const Row& row = rows_of(report, "zones").at(i);
  return {count_in(row, "zone"), count_in(row, "asked"), count_in(row, "rung"),
          count_in(row, "missed"), count_in(row, "unasked")};
}

TEST(WeekProgramTest, FourZonesHaveFourWeeks) {
  Trial trial(yaml_of(four_weeks()));
  trial.run_to(7 * kDay);
  const Report report = trial.session().report();
  ASSERT_EQ(rows_of(report, "zones").size(), 4U);
  EXPECT_THAT(zone_row(report, 0), ElementsAre(1, 15, 15, 0, 0));
  EXPECT_THAT(zone_row(report, 1), ElementsAre(2, 8, 8, 0, 0));
  EXPECT_THAT(zone_row(report, 2), ElementsAre(3, 2, 2, 0, 0));
  EXPECT_THAT(zone_row(report, 3), ElementsAre(4, 4, 4, 0, 0));
  EXPECT_EQ(rows_of(report, "rings").size(), 29U);
  EXPECT_THAT(report.warnings(), IsEmpty());
}

TEST(WeekProgramTest, FingersCarryNothingAsThePaperMoves) {
  Trial trial(yaml_of(four_weeks()));
  trial.run_to(kDay);
  EXPECT_EQ(trial.read("tape.spark_energy"), 0);
  EXPECT_GT(trial.read("timetable.rung"), 0);
}

TEST(WeekProgramTest, WithoutTheTimingContactABellRingsAsLongAsItsHoleLiesUnderTheFinger) {
  ProgramScene s = four_weeks();
  s.full_minute = true;
  s.tape = "      punched: [\"08:00 1\", \"08:10 1\", \"08:11 1\"]\n";
  s.rings = R"([{zone: 1, days: Mon-Fri, at: ["08:00", "08:10", "08:11"], for: 60 s}])";
  s.pins = "[{zone: 1, at: [Mon-Fri]}]";
  Trial trial(yaml_of(s));
  trial.run_to(9 * 3600);
  const Report report = trial.session().report();
  const std::vector<Row>& rings = rows_of(report, "rings");
  ASSERT_EQ(rings.size(), 2U);
  EXPECT_NEAR(number_in(rings[0], "for_s"), 60, 0.1);
  // The finger lifts between two holes for less than a bell would notice: one ring for both.
  EXPECT_NEAR(number_in(rings[1], "for_s"), 120, 0.1);
  EXPECT_THAT(zone_row(report, 0), ElementsAre(1, 3, 3, 0, 0));
  EXPECT_THAT(report.warnings(), IsEmpty());
}

TEST(WeekProgramTest, FingersBreakTheRelaysCurrentWhereNoTimingContactDoes) {
  ProgramScene s = four_weeks();
  s.full_minute = true;
  // 0.2 A through 3 kohm would be 600 V: no gap as small holds that.
  Trial trial(yaml_of(s), {"relay_1.shunt=3 kohm"});
  trial.run_to(9 * 3600);
  EXPECT_GT(trial.read("tape.spark_energy"), 1e-3);
  const Report report = trial.session().report();
  EXPECT_GT(number_in(rows_of(report, "tape").at(0), "spark_j"), 1e-3);
}

TEST(WeekProgramTest, HalfADayOfPaperComesRoundTwice) {
  ProgramScene s;
  s.tape =
      "      rows: 720\n"
      "      punched: [\"08:00 1-2\", \"16:30 1\"]\n";  // 16:30 is row 270, as 04:30
  s.pins = "[{zone: 1, at: [Mon-Fri]}, {zone: 2, at: [Mon-Fri am]}]";
  s.rings = R"([{zone: 1, days: Mon-Fri, at: ["04:30", "08:00", "16:30", "20:00"], for: 5 s},
             {zone: 2, days: Mon-Fri, at: ["08:00"], for: 5 s}])";
  Trial trial(yaml_of(s));
  trial.run_to(12 * 3600 + 60);
  EXPECT_EQ(trial.read("tape.row"), 0);
  EXPECT_EQ(trial.read("week_wheel.place"), 1);
  trial.run_to(kDay + 60);
  EXPECT_EQ(trial.read("week_wheel.place"), 2);
  EXPECT_EQ(trial.read("tape.slipped"), 0);
  trial.run_to(7 * kDay);
  const Report report = trial.session().report();
  EXPECT_THAT(zone_row(report, 0), ElementsAre(1, 20, 20, 0, 0));
  EXPECT_THAT(zone_row(report, 1), ElementsAre(2, 5, 5, 0, 0));
  EXPECT_THAT(report.warnings(), IsEmpty());
}

TEST(WeekProgramTest, TwoTapesOnOneDriveRunRowByRow) {
  ProgramScene s = four_weeks();
  s.second_tape = "      punched: [\"08:03 1\"]\n";
  s.pins.insert(s.pins.size() - 1, ", {zone: 5, at: [Sat]}");
  s.rings += "\n        - {zone: 5, days: Sat, at: [\"08:03\"], for: 5 s}";
  Trial trial(yaml_of(s));
  trial.run_to(7 * kDay);
  const Report report = trial.session().report();
  EXPECT_THAT(zone_row(report, 0), ElementsAre(1, 15, 15, 0, 0));
  EXPECT_THAT(zone_row(report, 4), ElementsAre(5, 1, 1, 0, 0));
  EXPECT_EQ(trial.read("second_tape.row"), trial.read("tape.row"));
  EXPECT_THAT(report.warnings(), IsEmpty());
}

TEST(WeekProgramTest, OneTapeIsStoppedWithoutTheOther) {
  ProgramScene s = four_weeks();
  s.second_tape = "      punched: [\"08:03 1\"]\n";
  s.script = "  - at 01:00: second_tape.stop\n";
  Trial trial(yaml_of(s));
  trial.run_to(2 * 3600);
  EXPECT_EQ(trial.read("tape.slipped"), 0);
  EXPECT_EQ(trial.read("second_tape.slipped"), 60);
}

// F35: rows lost each time the place passes, once a day.
double behind_after_days(const std::string& torn, int days) {
  ProgramScene s = four_weeks();
  s.tape += "      torn_sprocket_holes: " + torn + "\n";
  Trial trial(yaml_of(s));
  trial.run_to(days * kDay + 60);
  EXPECT_EQ(trial.read("tape.jumps"), trial.read("tape.slipped"));
  return trial.read("tape.slipped");
}

TEST(SprocketTest, LosesRowsOnceADayWhereThreeHolesOrMoreAreTorn) {
  EXPECT_EQ(behind_after_days(R"(["10:00", "10:01"])", 2), 0);
  EXPECT_EQ(behind_after_days(R"(["10:00", "10:01", "10:02"])", 2), 2);
  EXPECT_EQ(behind_after_days(R"(["10:00", "10:01", "10:02", "10:03", "10:04"])", 2), 6);
  // Six teeth are in mesh: three torn holes do not meet if seven rows lie between the outer ones.
  EXPECT_EQ(behind_after_days(R"(["10:00", "10:02", "10:05"])", 1), 1);
  EXPECT_EQ(behind_after_days(R"(["10:00", "10:02", "10:06"])", 1), 0);
}

TEST(SprocketTest, ANumberOfItsOwnMakesAnotherEdgeJump) {
  ProgramScene s = four_weeks();
  s.tape += "      jumps_at: 2\n      torn_sprocket_holes: [\"10:00\", \"10:01\"]\n";
  Trial trial(yaml_of(s));
  trial.run_to(11 * 3600);
  EXPECT_EQ(trial.read("tape.slipped"), 1);
}

TEST(SprocketTest, MendedHoldsAgain) {
  ProgramScene s = four_weeks();
  s.tape += "      torn_sprocket_holes: [\"10:00\", \"10:01\", \"10:02\"]\n";
  s.script = "  - at 12:00: tape.mend_sprocket_hole 601\n";
  Trial trial(yaml_of(s));
  trial.run_to(3 * kDay);
  EXPECT_EQ(trial.read("tape.slipped"), 1);
  const Report report = trial.session().report();
  EXPECT_THAT(report.warnings(),
              testing::Contains("tape: the sprocket rode over torn holes and lost 1 row."));
}

TEST(WeekProgramTest, RingsComeLaterFromTheSlipOn) {
  ProgramScene s = four_weeks();
  s.tape += "      torn_sprocket_holes: [\"08:30\", \"08:31\", \"08:32\"]\n";
  Trial trial(yaml_of(s));
  trial.run_to(0.5 * kDay);
  const Report report = trial.session().report();
  const std::vector<Row>& rings = rows_of(report, "rings");
  ASSERT_EQ(rings.size(), 4U);  // Monday 08:00, 08:05, and two zones at 09:00
  EXPECT_THAT(text_in(rings[1], "at"), HasSubstr("Mon 08:05:15"));
  EXPECT_THAT(text_in(rings[2], "at"), HasSubstr("Mon 09:01:15"));
  EXPECT_THAT(zone_row(report, 0), ElementsAre(1, 2, 1, 1, 1));
}

TEST(NotchTest, IsPaperLikeAnyOther) {
  ProgramScene s = four_weeks();
  s.tape += "      notches: [\"00:00\", \"03:00\"]\n";
  s.script =
      "  - at 01:00: tape.cut_notch 120\n"
      "  - at 04:00: tape.patch_notch 0\n"
      "  - at 04:00: tape.patch_notch 7\n";  // there is none
  Trial trial(yaml_of(s));
  trial.run_to(60);
  EXPECT_EQ(trial.read("week_wheel.place"), 0);
  trial.run_to(2 * 3600 + 60);
  EXPECT_EQ(trial.read("week_wheel.place"), 1);  // the cut one
  trial.run_to(3 * 3600 + 60);
  EXPECT_EQ(trial.read("week_wheel.place"), 2);
  trial.run_to(kDay + 60);
  EXPECT_EQ(trial.read("week_wheel.place"), 2);  // neither noon's nor the patched one
  const Report report = trial.session().report();
  ASSERT_EQ(rows_of(report, "repairs").size(), 2U);
  EXPECT_EQ(text_in(rows_of(report, "repairs")[0], "what"), "notch at 02:00 cut");
  EXPECT_EQ(text_in(rows_of(report, "repairs")[1], "what"), "notch at 00:00 patched");
}

}  // namespace
}  // namespace sixty
