// Tape and week wheel.
#include <gtest/gtest.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// A tape stepped by strokes that a hand's key makes, with a week wheel behind it.
std::string scene(const std::string& start, const std::string& script) {
  return "scene: Tape\nstart: " + start + R"(
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  key: {type: switch, sheet: bench_switch}
  rewind: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 5 tooth}}
  tape:
    type: tape
    sheet: paper_day
    set:
      holes:
        - {column: 1, at: ["08:00", "08:01"]}
        - {column: 2, at: ["08:01"]}
    connect: {step: rewind.tape_row}
  week_wheel:
    type: week_wheel
    sheet: fourteen_places
    set:
      pins:
        - {zone: 1, at: ["Mon-Fri am"]}
        - {zone: 2, at: [Sat, "Sun pm"]}
    connect: {step: tape.half_day}
wires:
  plus: [supply.plus, key.a]
  feed: [key.b, rewind.plus]
  minus: [supply.minus, rewind.minus]
script:
)" + script;
}

std::string strokes(int count) {
  std::string script;
  for (int i = 0; i < count; ++i) {
    script += "  - at " + std::to_string(60 * i + 5) + " s: key.close\n";
    script += "  - at " + std::to_string(60 * i + 7) + " s: key.open\n";
  }
  return script;
}

TEST(TapeTest, LiesAtTheStartAsTheSceneAsks) {
  // Row n is minute n after midnight, in place from :05.2 to the next :05.
  Trial midnight(scene("2026-01-05T00:00:00", "  - at 1 s: key.open\n"));
  EXPECT_EQ(midnight.read("tape.row"), 1439);
  Trial later(scene("2026-01-05T08:01:30", "  - at 1 s: key.open\n"));
  EXPECT_EQ(later.read("tape.row"), 481);
  later.run_to(0.1);
  EXPECT_EQ(later.read("tape.holes"), 3);
}

TEST(TapeTest, DropsItsFingersThroughTheHolesOfEachRow) {
  Trial trial(scene("2026-01-05T07:59:55", strokes(3)));
  trial.run_to(8);
  EXPECT_EQ(trial.read("tape.row"), 480);
  EXPECT_EQ(trial.read("tape.holes"), 1);
  EXPECT_EQ(trial.count("tape", "makes"), 1U);
  trial.run_to(70);
  EXPECT_EQ(trial.read("tape.holes"), 3);
  EXPECT_EQ(trial.count("tape", "breaks"), 1U);  // the finger lifts even if the next row has a hole
  EXPECT_EQ(trial.count("tape", "makes"), 3U);
  trial.run_to(130);
  EXPECT_EQ(trial.count("tape", "breaks"), 3U);
  EXPECT_EQ(trial.count("tape", "makes"), 3U);
}

TEST(TapeTest, KeepsStillWhileStopped) {
  Trial trial(scene("2026-01-05T08:00:00",
                    "  - at 1 s: tape.stop\n" + strokes(2) + "  - at 100 s: tape.run\n"));
  trial.run_to(99);
  EXPECT_EQ(trial.read("tape.row"), 479);
  EXPECT_EQ(trial.read("tape.slipped"), 2);
}

/// What the report says of a tape that stands still for so many hours.
std::string stood(int hours) {
  Trial trial(scene("2026-01-05T08:00:00", "  - at 1 s: tape.stop\n"));
  trial.run_to(hours * 3600.0 + 30);
  const std::vector<std::string> warnings = trial.session().report().warnings();
  EXPECT_EQ(warnings.size(), 2U);  // and of the week wheel that it has not stepped
  EXPECT_TRUE(warnings.back().starts_with("week_wheel: at place 0, Mon a.m., where "));
  return warnings.empty() ? "" : warnings.front();
}

TEST(TapeTest, IsSaidToBeApartTheNearestWayRound) {
  EXPECT_EQ(stood(8), "tape: row 479 (07:59) under the fingers, 481 rows behind time.");
  // A tape that stood has not run ahead, however near that way is.
  EXPECT_EQ(stood(16),
            "tape: row 479 (07:59) under the fingers, 479 rows ahead of time, or 961 behind round "
            "the loop.");
}

TEST(TapeTest, IsSetByHandWithinItsLoop) {
  Trial trial(scene("2026-01-05T08:00:00", "  - at 1 s: tape.set_row 1439 row\n"));
  trial.run_to(2);
  EXPECT_EQ(trial.read("tape.row"), 1439);
}

TEST(TapeTest, StepsTheWeekWheelAtNoonAndMidnight) {
  Trial noon(scene("2026-01-05T12:00:00", strokes(1)));
  EXPECT_EQ(noon.read("week_wheel.place"), 0);
  noon.run_to(6);
  EXPECT_EQ(noon.read("week_wheel.place"), 1);
  Trial monday(scene("2026-01-05T00:00:00", strokes(1)));
  EXPECT_EQ(monday.read("week_wheel.place"), 13);
  monday.run_to(6);
  EXPECT_EQ(monday.read("week_wheel.place"), 0);
}

TEST(WeekWheelTest, ClosesAZoneByItsPins) {
  Trial trial(scene("2026-01-05T00:00:00",
                    "  - at 1 s: week_wheel.set_place 0\n"
                    "  - at 2 s: week_wheel.advance\n"
                    "  - at 3 s: week_wheel.set_place 10\n"
                    "  - at 4 s: week_wheel.advance\n"
                    "  - at 5 s: week_wheel.advance\n"
                    "  - at 6 s: week_wheel.set_place 13\n"));
  // Monday a.m., Monday p.m., Saturday a.m. and p.m., Sunday a.m., Sunday p.m.
  const double pins[] = {1, 0, 2, 2, 0, 2};
  for (int k = 0; k < 6; ++k) {
    trial.run_to(k + 1.5);
    EXPECT_EQ(trial.read("week_wheel.pins"), pins[k]) << k;
  }
  EXPECT_EQ(trial.count("week_wheel", "makes"), 4U);   // also on Sunday p.m., before the start
  EXPECT_EQ(trial.count("week_wheel", "breaks"), 3U);  // zone 2 stays closed all through Saturday
}

TEST(TapeTest, RefusesHolesThatAreNotOnThePaper) {
  const std::string good = scene("2026-01-05T08:00:00", "  - at 1 s: key.open\n");
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    text.replace(text.find(from), from.size(), to);
    return mistakes_of(text);
  };
  EXPECT_EQ(with("08:00", "09:00"), "");
  EXPECT_NE(with("\"08:00\"", "\"8 o'clock\"").find("time of day"), std::string::npos);
  EXPECT_NE(with("\"08:00\"", "\"08:00:30\"").find("whole minute"), std::string::npos);
  EXPECT_NE(with("{column: 2", "{column: 5").find("column 5"), std::string::npos);
  const std::string both = with("{column: 2, at: [", "{column: 5, at: [\"25:00\", ");
  EXPECT_NE(both.find("column 5"), std::string::npos);
  EXPECT_NE(both.find("25:00"), std::string::npos);
  EXPECT_NE(with("Mon-Fri am", "Mon-Fry am").find("weekday"), std::string::npos);
  EXPECT_NE(with("{zone: 2", "{zone: 6").find("zone 6"), std::string::npos);
}

}  // namespace
}  // namespace sixty
