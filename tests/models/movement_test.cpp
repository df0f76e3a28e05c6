// The clock in its world: what it does when it is wound, loaded, left alone. Figures without
// another source are those of common practice, consistent by computation.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/math.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kDegree = kPi / 180;

/// A clock with its three arms, at second 5, as after a stroke; hands wind it.
std::string clock(const std::string& script = "") {
  return R"(scene: Clock without electricity
start: 2026-01-05T00:00:05
spread: 0
parts:
  movement: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind.spring}}
  rewind: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 30.5 tooth}}
  arm_a:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 5 beat, dwell: 2 beat}
    connect: {mounted_on: movement.escape_arbor}
  ring_timing:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 15 beat, dwell: 5 beat}
    connect: {mounted_on: movement.escape_arbor}
  arm_b:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 35 beat, dwell: 2 beat}
    connect: {mounted_on: movement.escape_arbor}
script:
  - at 0 s: movement.start 1.75 deg
)" + script;
}

/// Winds it a little after each full minute, from one minute to another, but not each `except`th.
std::string winding(int from, int to, int except = 0) {
  std::string script;
  for (int minute = from; minute < to; ++minute) {
    if (except > 0 && minute % except == 0) continue;
    script += fmt::format("  - at {}.1 s: rewind.wind\n", 60 * minute);
  }
  return script;
}

double arc_deg(Trial& trial) { return trial.read("movement.semi_arc") / kDegree; }

TEST(MovementTest, StepsOnceASecondAndOnceAroundInAMinute) {
  // ESC-08, counting.
  Trial trial(clock());
  trial.run_to(600.5);
  EXPECT_EQ(trial.read("movement.position"), 600);
  EXPECT_EQ(trial.count("arm_b", "makes"), 10U);
}

TEST(MovementTest, HoldsItsArcWhileItIsWound) {
  Trial trial(clock(winding(1, 600)));
  trial.run_to(36030);
  EXPECT_NEAR(arc_deg(trial), 1.75, 0.01);
}

TEST(MovementTest, RunsSixAndTwentyMinutesUnwoundAndStandsOnAContact) {
  // 25.6 to 26.0 min; arc 1.50 deg.
  Trial trial(clock());
  trial.run_to(3600);
  const auto stands = trial.when("movement", "stands");
  ASSERT_TRUE(stands);
  EXPECT_GE(*stands / 60, 25.6);
  EXPECT_LE(*stands / 60, 26.05);  // to the next beat, half a second late from letting go
  EXPECT_EQ(trial.read("arm_a.closed"), 1);
}

TEST(MovementTest, StandsWithThePendulumStillSwingingWide) {
  Trial trial(clock());
  trial.run_to(26 * 60 + 10);
  EXPECT_NEAR(arc_deg(trial), 1.50, 0.01);
  const double position = trial.read("movement.position");
  trial.run_to(30 * 60);
  EXPECT_EQ(trial.read("movement.position"), position);
  EXPECT_LT(arc_deg(trial), 1.45);
}

TEST(MovementTest, RunsOnByTheDragOfItsContacts) {
  // 28 min with half the drag, 23 min with 1.6 times as much: the cause moves the result.
  const double factors[] = {0.5, 1.6};
  const double minutes[] = {28, 23};
  for (std::size_t i = 0; i < 2; ++i) {
    std::vector<std::string> set;
    for (const char* arm : {"arm_a", "ring_timing", "arm_b"}) {
      set.push_back(fmt::format("{}.friction={}", arm, 0.1 * factors[i]));
    }
    Trial trial(clock(), set);
    trial.run_to(3600);
    ASSERT_TRUE(trial.when("movement", "stands"));
    EXPECT_NEAR(*trial.when("movement", "stands") / 60, minutes[i], 0.5);
  }
}

TEST(MovementTest, RunsOnByTheEfficiencyOfItsTrain) {
  // 22, 24, 25 min with a train of 0.40, 0.50, 0.60.
  const double efficiency[] = {0.4, 0.5, 0.6};
  const double minutes[] = {22, 24, 25};
  for (std::size_t i = 0; i < 3; ++i) {
    Trial trial(clock(), {fmt::format("movement.train_efficiency={}", efficiency[i])});
    trial.run_to(3600);
    ASSERT_TRUE(trial.when("movement", "stands"));
    EXPECT_NEAR(*trial.when("movement", "stands") / 60, minutes[i], 0.7) << efficiency[i];
  }
}

TEST(MovementTest, SwingsByTheEfficiencyOfItsTrain) {
  // 1.31, 1.47, 1.62 deg, fully wound.
  const double efficiency[] = {0.4, 0.5, 0.6};
  const double arcs[] = {1.31, 1.47, 1.62};
  for (std::size_t i = 0; i < 3; ++i) {
    Trial trial(clock(winding(1, 600)),
                {fmt::format("movement.train_efficiency={}", efficiency[i])});
    trial.run_to(36030);
    EXPECT_NEAR(arc_deg(trial), arcs[i], 0.015) << efficiency[i];
  }
}

TEST(MovementTest, StopsSoonByItsArcWhenFarOutOfBeat) {
  // Crutch 0.7 deg off, no winding: 11.4 min, by arc.
  Trial trial(clock(), {"movement.crutch_offset=0.7 deg"});
  trial.run_to(3600);
  ASSERT_TRUE(trial.when("movement", "stops"));
  EXPECT_NEAR(*trial.when("movement", "stops") / 60, 11.4, 0.1);
  EXPECT_FALSE(trial.when("movement", "stands"));
}

TEST(MovementTest, SettlesLowerAfterTenMinutesWithoutWinding) {
  // 1.42 deg: the teeth missed are never made up.
  Trial trial(clock(winding(11, 900)));
  trial.run_to(900 * 60 - 30);
  EXPECT_NEAR(arc_deg(trial), 1.42, 0.01);
}

TEST(MovementTest, StopsAfterHoursWhenSomeStrokesAreMissed) {
  // One stroke in 2, 5, 10, 30, 60 missed: 0.87 (on a contact), 2.17, 3.9, 10.6, 20.8 h.
  const int one_in[] = {2, 5, 10, 30, 60};
  const double hours[] = {0.87, 2.17, 3.9, 10.6, 20.8};
  for (std::size_t i = 0; i < 5; ++i) {
    Trial trial(clock(winding(1, static_cast<int>(70 * hours[i]), one_in[i])));
    trial.run_to(1.15 * 3600 * hours[i]);
    const auto stands = trial.when("movement", "stands");
    const auto stops = trial.when("movement", "stops");
    ASSERT_TRUE(stands || stops);
    EXPECT_NEAR((stands ? *stands : *stops) / 3600, hours[i], 0.05 * hours[i]) << one_in[i];
    // Losing every second tooth the torque falls faster than the swing.
    EXPECT_TRUE(stands || one_in[i] != 2);
    EXPECT_TRUE(!stands || one_in[i] < 10);
  }
}

TEST(MovementTest, GoesOnWhenAStandingWheelIsWound) {
  Trial trial(clock("  - at 30 min: rewind.wind\n"));
  trial.run_to(29 * 60);
  const double position = trial.read("movement.position");
  trial.run_to(30 * 60 + 30.5);
  EXPECT_NEAR(trial.read("movement.position"), position + 30, 1);
}

TEST(MovementTest, StaysStoppedWhenWoundTooLate) {
  Trial trial(clock("  - at 70 min: rewind.wind\n  - at 75 min: movement.start 1.75 deg\n"));
  trial.run_to(72 * 60);
  const double position = trial.read("movement.position");
  trial.run_to(74 * 60);
  EXPECT_EQ(trial.read("movement.position"), position);
  trial.run_to(75 * 60 + 30);
  EXPECT_NEAR(trial.read("movement.position"), position + 30, 1);
}

TEST(MovementTest, SchedulesNothingOnceItHasStopped) {
  Trial trial(clock());
  trial.run_to(3600);
  const std::uint64_t events = trial.session().events();
  trial.run_to(10 * 86400);
  EXPECT_EQ(trial.session().events(), events);
}

TEST(MovementTest, NeedsAHandToStart) {
  std::string scene = clock();
  scene.resize(scene.find("script:"));
  Trial trial(scene);
  trial.run_to(600);
  EXPECT_EQ(trial.read("movement.position"), 0);
  EXPECT_EQ(trial.read("movement.semi_arc"), 0);
}

TEST(MovementTest, DoesNotStartFromTooSmallASwing) {
  std::string scene = clock();
  scene.resize(scene.find("  - at 0 s"));
  Trial trial(scene + "  - at 0 s: movement.start 0.9 deg\n");
  trial.run_to(60);
  EXPECT_EQ(trial.read("movement.position"), 0);
  EXPECT_TRUE(trial.when("movement", "stops"));
}

TEST(MovementTest, StopsWhenHeld) {
  Trial trial(clock("  - at 20.5 s: movement.stop\n"));
  trial.run_to(60);
  EXPECT_EQ(trial.read("movement.position"), 20);
}

TEST(MovementTest, WarnsOnceItsHandsAreHalfAMinuteWrong) {
  const auto warnings = [](const char* away) {
    Trial trial(clock(std::string("  - at 20.5 s: movement.stop\n  - at ") + away +
                      ": movement.start 1.75 deg\n"));
    trial.run_to(120);
    return trial.session().report().warnings();
  };
  EXPECT_EQ(warnings("45 s").size(), 0U);
  const std::vector<std::string> wrong = warnings("55 s");
  ASSERT_EQ(wrong.size(), 1U);
  EXPECT_NE(wrong[0].find("movement: shows Mon 00:01:"), std::string::npos) << wrong[0];
  EXPECT_NE(wrong[0].find(" s slow"), std::string::npos) << wrong[0];
}

TEST(MovementTest, TellsFromWhenOnItGains) {
  const auto said = [](const std::string& script) {
    Trial trial(clock(script));
    trial.run_to(120);
    const Report report = trial.session().report();
    for (const auto& [heading, sentences] : report.said()) {
      if (heading == "Time kept") return sentences.front();
    }
    return std::string();
  };
  EXPECT_NE(said("").find(" s a day over the run."), std::string::npos);
  const std::string anew =
      said("  - at 20.5 s: movement.stop\n  - at 30 s: movement.start 1.75 deg\n");
  EXPECT_NE(anew.find(" s a day since Mon 00:00:35."), std::string::npos) << anew;
}

TEST(MovementTest, GainsWhenTheNutIsTurnedUp) {
  // PEND-28: a quarter of a turn of 1 mm is 10.87 s/day.
  Trial trial(clock("  - at 60.5 s: movement.turn_nut 0.25 turn\n"));
  trial.run_to(60);
  const double before = trial.read("movement.rate");
  trial.run_to(61);
  EXPECT_NEAR(trial.read("movement.rate") - before, 43.477 * 0.25, 0.05);
}

TEST(MovementTest, TicksAndTocksUnevenlyWhenOutOfBeat) {
  Trial trial(clock(), {"movement.crutch_offset=0.25 deg"});
  trial.run_to(300);
  const double uneven = std::asin(1.25 / (arc_deg(trial))) - std::asin(0.75 / arc_deg(trial));
  EXPECT_NEAR(trial.read("movement.beat_error"), uneven / kPi, 0.003);
  EXPECT_NEAR(trial.read("movement.tick") + trial.read("movement.tock"), 2, 0.001);
  // The beats themselves are that uneven, not only the reading.
  const auto first = trial.when("movement", "beat", 200);
  const auto second = trial.when("movement", "beat", *first + 0.1);
  const auto third = trial.when("movement", "beat", *second + 0.1);
  const double halves = std::fabs((*third - *second) - (*second - *first)) / 2;
  EXPECT_NEAR(halves, trial.read("movement.beat_error"), 0.002);
}

/// When its beats dropped, and when and why it came to a stand.
std::vector<std::pair<double, std::string>> seen_of(const Trial& trial) {
  std::vector<std::pair<double, std::string>> seen;
  for (const Trial::Happened& h : trial.events()) {
    if (h.part != "movement") continue;
    if (h.kind == "beat" || h.kind == "stands" || h.kind == "stops") {
      seen.emplace_back(h.at_s, h.kind);
    }
  }
  return seen;
}

// Wound and rated between two beats, left to stand, wound again, left to stand for good.
TEST(MovementTest, ComesToTheSameAndShowsTheSameBeatsWhetherTheyAreLoopedOrQueued) {
  const std::string scene =
      clock(winding(1, 20) + "  - at 777.7 s: movement.turn_nut -1 turn\n" +
            "  - at 815.2 s: rewind.wind\n" + winding(55, 58) + "  - at 4200.9 s: movement.stop\n" +
            "  - at 4300 s: movement.start 1.5 deg\n");
  Session::Options queue;
  queue.queue_each_step = true;
  Trial queued(scene, {}, queue);
  Trial looped(scene);
  for (const double until :
       {33.0, 814.0, 1246.9, 2500.0, 3000.0, 3411.1, 4200.95, 4317.3, 9000.0}) {
    queued.run_to(until);
    looped.run_to(until);
    for (const char* reading :
         {"movement.semi_arc", "movement.rate", "movement.position", "movement.error",
          "movement.escape_torque", "movement.tick", "rewind.spring_teeth"}) {
      EXPECT_EQ(queued.read(reading), looped.read(reading)) << reading << " at " << until;
    }
    EXPECT_EQ(seen_of(queued), seen_of(looped)) << until;
  }
  EXPECT_EQ(queued.read("arm_b.closings"), looped.read("arm_b.closings"));
  EXPECT_GT(looped.count("movement", "stands"), 1u);
  EXPECT_GT(queued.session().events(), looped.session().events() + 1000);
}

TEST(MovementTest, RefusesACrutchOffsetBeyondTheEscapingArc) {
  EXPECT_NE(mistakes_of(clock(), {"movement.crutch_offset=1.2 deg"}).find("crutch_offset"),
            std::string::npos);
}

TEST(MovementTest, HasItsSecondsHandWhereTheSceneStarts) {
  Trial trial(clock());
  trial.run_to(0.5);
  EXPECT_EQ(trial.read("arm_a.closed"), 1);  // second 5: the arm rests on its contact
  trial.run_to(3);
  EXPECT_EQ(trial.read("arm_a.closed"), 0);
}

}  // namespace
}  // namespace sixty
