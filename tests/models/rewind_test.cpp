// The rewind: what a stroke gathers, and when none comes. Figures without another source are those
// of common practice, consistent by computation.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// The solenoid alone on a supply, a stroke at 1 s; a movement that is not started takes nothing.
std::string bench(const std::string& set = "", const std::string& script = "") {
  return R"(scene: Rewind on the bench
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 1 mohm}}
  key: {type: switch, sheet: bench_switch, set: {contact_resistance: 1 mohm}}
  rewind: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 20 tooth}}
  tape: {type: tape, sheet: paper_day, connect: {step: rewind.tape_row}}
wires:
  plus: [supply.plus, key.a]
  feed: [key.b, rewind.plus]
  minus: [supply.minus, rewind.minus]
script:
  - at 1 s: key.close
  - at 3 s: key.open
)" + set +
         script;
}

double teeth_after_stroke(const std::vector<std::string>& set) {
  Trial trial(bench(), set);
  trial.run_to(5);
  return trial.read("rewind.spring_teeth");
}

TEST(RewindTest, PutsInAToothAndMovesTheTapeARow) {
  Trial trial(bench());
  trial.run_to(5);
  EXPECT_EQ(trial.read("rewind.spring_teeth"), 21);
  EXPECT_EQ(trial.read("tape.row"), 0);  // from 1439
  EXPECT_EQ(trial.read("rewind.missed"), 0);
}

TEST(RewindTest, StrokesAsFastAsItsSupplyAllows) {
  // Home after 72 ms at 24 V, 83 at 22.2, 105 at 20, 168 at 18; 10 % in time.
  const double volts[] = {24, 22.2, 20, 18};
  const double millis[] = {72, 83, 105, 168};
  for (std::size_t i = 0; i < 4; ++i) {
    Trial trial(bench(), {fmt::format("supply.emf={} V", volts[i])});
    trial.run_to(5);
    ASSERT_TRUE(trial.when("rewind", "seats")) << volts[i];
    EXPECT_NEAR(*trial.when("rewind", "seats") - 1, millis[i] * 1e-3, millis[i] * 1e-4) << volts[i];
  }
}

TEST(RewindTest, TellsTheVoltsWithWhichItPassesItsMarks) {
  Trial trial(bench());
  trial.run_to(2);
  for (const Trial::Happened& h : trial.events()) {
    if (h.kind != "gathers_row" && h.kind != "gathers_tooth") continue;
    EXPECT_NEAR(h.volts, 24, 0.01) << h.kind;
  }
  EXPECT_TRUE(trial.when("rewind", "gathers_row"));
  EXPECT_TRUE(trial.when("rewind", "gathers_tooth"));
}

TEST(RewindTest, IsBackAfterASeventhOfASecond) {
  // 144 ms after opening holds for iron without remanence; with it the plunger stays longer.
  Trial trial(bench(), {"rewind.coercive_force=0 A"});
  trial.run_to(5);
  ASSERT_TRUE(trial.when("rewind", "returns"));
  EXPECT_NEAR(*trial.when("rewind", "returns") - 3, 0.144, 0.0144);
}

TEST(RewindTest, MissesUnderItsPullIn) {
  // Pull-in 17.5 V.
  Trial trial(bench(), {"supply.emf=17 V"});
  trial.run_to(5);
  EXPECT_EQ(trial.read("rewind.spring_teeth"), 20);
  EXPECT_EQ(trial.read("rewind.strokes"), 0);
  EXPECT_EQ(trial.read("rewind.missed"), 1);
  EXPECT_EQ(trial.read("tape.row"), 1439);
  EXPECT_EQ(teeth_after_stroke({"supply.emf=18 V"}), 21);
}

TEST(RewindTest, MissesBehindTooMuchResistance) {
  // The series resistance that just stops the solenoid at 24 V is 7.4 ohm.
  EXPECT_EQ(teeth_after_stroke({"supply.resistance=7 ohm"}), 21);
  EXPECT_EQ(teeth_after_stroke({"supply.resistance=7.8 ohm"}), 20);
}

TEST(RewindTest, BindsByTheFrictionOfItsPlunger) {
  // 4 N: 174 ms at 24 V; 5 N: none.
  EXPECT_EQ(teeth_after_stroke({"rewind.friction=4 N"}), 21);
  EXPECT_EQ(teeth_after_stroke({"rewind.friction=5 N"}), 20);
}

TEST(RewindTest, GathersByHowFarItTravels) {
  // Tape at 15.0 mm, tooth at 15.5, second tooth at 21.75.
  const double stroke_mm[] = {14.8, 15.2, 18, 22.5};
  const double teeth[] = {20, 20, 21, 22};
  const double row[] = {1439, 0, 0, 0};
  const double missed[] = {1, 1, 0, 0};
  for (std::size_t i = 0; i < 4; ++i) {
    Trial trial(bench(), {fmt::format("rewind.stroke={} mm", stroke_mm[i]), "supply.emf=26 V"});
    trial.run_to(5);
    EXPECT_EQ(trial.read("rewind.spring_teeth"), teeth[i]) << stroke_mm[i];
    EXPECT_EQ(trial.read("tape.row"), row[i]) << stroke_mm[i];
    EXPECT_EQ(trial.read("rewind.missed"), missed[i]) << stroke_mm[i];
  }
}

TEST(RewindTest, HoldsThePawlClearOfAFullSpring) {
  // With less than a tooth free before 31 the stroke is full, moves the tape and winds nothing.
  Trial trial(bench(), {"rewind.initial_teeth=30.5 tooth"});
  trial.run_to(5);
  EXPECT_EQ(trial.read("rewind.spring_teeth"), 30.5);
  EXPECT_EQ(trial.read("tape.row"), 0);
  EXPECT_EQ(trial.read("rewind.missed"), 0);
  EXPECT_EQ(teeth_after_stroke({"rewind.initial_teeth=29.9 tooth"}), 30.9);
}

TEST(RewindTest, WindsByHandWithoutTheTape) {
  Trial trial(bench("", "  - at 4 s: rewind.wind\n"));
  trial.run_to(3.9);
  const double row = trial.read("tape.row");
  trial.run_to(5);
  EXPECT_EQ(trial.read("rewind.spring_teeth"), 22);
  EXPECT_EQ(trial.read("tape.row"), row);
}

TEST(RewindTest, TurnsItsSpringByStiffnessAndTeeth) {
  // 10 mN m/rad, 6 deg a tooth: 1.047 mN m a tooth, 31.9 mN m full.
  Trial trial(bench(), {"rewind.initial_teeth=30.5 tooth"});
  trial.run_to(0.5);
  EXPECT_NEAR(trial.read("rewind.spring_torque"), 31.94e-3, 0.01e-3);
}

TEST(RewindTest, TellsHowFastItsPlungerMetTheSeat) {
  Trial plain(bench()), heavy(bench(), {"rewind.tape_load=12 N", "supply.emf=26 V"});
  plain.run_to(0.5);
  EXPECT_EQ(plain.read("rewind.seat_speed"), 0);
  plain.run_to(5);
  heavy.run_to(5);
  EXPECT_GT(plain.read("rewind.seat_speed"), 0.3);
  EXPECT_LT(heavy.read("rewind.seat_speed"), 0.9 * plain.read("rewind.seat_speed"));
}

TEST(RewindTest, CountsStrokesThatNeverCame) {
  // A clock whose rewind is not even connected: ten minutes, ten windings due.
  Trial trial(R"(scene: Unwound
start: 2026-01-05T00:00:00
spread: 0
parts:
  movement: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind.spring}}
  rewind:
    type: rewind
    sheet: solenoid_24v
    connect: {compared_with: movement.escape_arbor}
  arm: {type: contact_arm, sheet: silver_arm, set: {makes_at: 5 beat, dwell: 2 beat},
    connect: {mounted_on: movement.escape_arbor}}
script:
  - at 0 s: movement.start 1.75 deg
)");
  trial.run_to(607.5);
  EXPECT_EQ(trial.read("rewind.missed"), 10);
}

TEST(RewindTest, RefusesAToothGatheredBeforeThePawlsMeet) {
  EXPECT_NE(mistakes_of(bench(), {"rewind.tooth_at=9 mm"}).find("tooth_at"), std::string::npos);
}

}  // namespace
}  // namespace sixty
