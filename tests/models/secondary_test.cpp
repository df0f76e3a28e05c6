// A secondary clock against its master: steps, missed ones, ones too many.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// A master with its rewind, contact B, a minute relay and one clock; the script can be added to.
std::string master(const std::string& script) {
  return R"(scene: Master and one clock
start: 2026-01-05T07:58:00
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  movement: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind.spring}}
  rewind: {type: rewind, sheet: solenoid_24v}
  arm_a:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 5 beat, dwell: 2 beat}
    connect: {mounted_on: movement.escape_arbor}
  arm_b:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 35 beat, dwell: 2 beat}
    connect: {mounted_on: movement.escape_arbor}
  relay: {type: relay, sheet: minute_relay}
  cut_out: {type: switch, sheet: case_key, set: {starts: closed}}
  step_key: {type: switch, sheet: case_key}
  clock:
    type: secondary
    sheet: parallel_24v
    set: {loop: hall}
    connect: {compared_with: movement.escape_arbor}
wires:
  plus: [supply.plus, arm_a.blade, arm_b.blade, step_key.a, cut_out.a]
  minus: [supply.minus, rewind.minus, relay.coil_b, clock.b]
  rewind_feed: [arm_a.anvil, rewind.plus]
  minute_feed: [arm_b.anvil, step_key.b, relay.coil_a]
  feed: [cut_out.b, relay.contact_a]
  line: [relay.contact_b, clock.a]
script:
  - at 300 ms: movement.start 1.75 deg
)" + script;
}

struct Count {
  std::int64_t steps = 0, missed = 0, extra = 0, error_min = 0;
};

Count count_of(Trial& trial) {
  const Report report = trial.session().report();
  Count count;
  for (const Report::Section& s : report.sections()) {
    if (s.name != "secondaries") continue;
    for (const Cell& c : s.rows.at(0).cells()) {
      const auto* number = std::get_if<std::int64_t>(&c.value);
      if (number == nullptr) continue;
      if (c.key == "steps") count.steps = *number;
      if (c.key == "missed") count.missed = *number;
      if (c.key == "extra") count.extra = *number;
      if (c.key == "error_min") count.error_min = *number;
    }
  }
  return count;
}

void expect_count(Trial& trial, const Count& expected) {
  const Count count = count_of(trial);
  EXPECT_EQ(count.steps, expected.steps);
  EXPECT_EQ(count.missed, expected.missed);
  EXPECT_EQ(count.extra, expected.extra);
  EXPECT_EQ(count.error_min, expected.error_min);
  EXPECT_EQ(trial.read("clock.error_min"), static_cast<double>(expected.error_min));
}

std::string remark_on(Trial& trial) {
  Figure figure;
  figure.clear();
  trial.session().draw(trial.session().installation().find_id("clock").value(), {}, figure);
  return figure.remarks().empty() ? "" : figure.remarks().front().text;
}

TEST(SecondaryTest, StepsOnceAMinuteAndIsRight) {
  Trial trial(master(""));
  trial.run_to(10 * 60);
  expect_count(trial, {10, 0, 0, 0});
  EXPECT_EQ(trial.read("clock.shown"), 60 * (7 * 60 + 58 + 10));
}

// It is looked at once a second: an impulse that is still to come has not been missed.
TEST(SecondaryTest, IsRightAtAnySecondWhateverSecondTheSceneStartsAt) {
  for (const int second : {3, 20, 36, 39, 50}) {
    std::string yaml = master("");
    yaml.replace(yaml.find("07:58:00"), 8, fmt::format("07:58:{:02}", second));
    Trial trial(yaml);
    for (int t = 1; t < 150; ++t) {
      trial.run_to(t);
      const Count count = count_of(trial);
      EXPECT_EQ(count.missed, 0) << "began at second " << second << ", after " << t << " s";
      EXPECT_EQ(count.extra, 0) << "began at second " << second << ", after " << t << " s";
      EXPECT_EQ(count.error_min, 0) << "began at second " << second << ", after " << t << " s";
    }
  }
}

TEST(SecondaryTest, ShowsTheWrongTimeItStartsWith) {
  Trial trial(master(""), {"clock.wrong_at_start=-3 min"});
  trial.run_to(5 * 60);
  expect_count(trial, {5, 0, 0, -3});
  EXPECT_EQ(trial.read("clock.shown"), 60 * (7 * 60 + 58 + 5 - 3));
}

TEST(SecondaryTest, CountsWhatItMissed) {
  Trial trial(master("  - at 190 s: cut_out.open\n  - at 310 s: cut_out.close\n"));
  trial.run_to(10 * 60);
  expect_count(trial, {8, 2, 0, -2});
}

TEST(SecondaryTest, CountsTheMinutesSinceItsLastStep) {
  Trial trial(master("  - at 190 s: cut_out.open\n"));
  trial.run_to(10 * 60);
  expect_count(trial, {3, 7, 0, -7});
}

TEST(SecondaryTest, CountsAStepTooMany) {
  Trial trial(master("  - at 230 s: step_key.close\n  - at 231 s: step_key.open\n"));
  trial.run_to(10 * 60);
  expect_count(trial, {11, 0, 1, 1});
}

TEST(SecondaryTest, IsAsSlowAsAMasterThatStoodStill) {
  Trial trial(master("  - at 190 s: movement.stop\n"));
  trial.run_to(10 * 60);
  expect_count(trial, {3, 0, 0, -6});
  EXPECT_THAT(trial.session().report().warnings(),
              testing::Contains(testing::HasSubstr(
                  "6 min slow (the master's impulses are 6 min slow); 3 steps, 0 missed")));
}

TEST(SecondaryTest, WarnsOfNothingWhileItIsRight) {
  Trial trial(master(""));
  trial.run_to(10 * 60);
  EXPECT_THAT(trial.session().report().warnings(), testing::IsEmpty());
}

TEST(SecondaryTest, WarnsHowWrongItIsAndHowManyStepsItMissed) {
  Trial slow(master("  - at 190 s: cut_out.open\n"));
  slow.run_to(10 * 60);
  EXPECT_THAT(
      slow.session().report().warnings(),
      testing::ElementsAre("clock (loop hall): 7 min slow; 3 steps, 7 missed, 0 too many."));
  Trial fast(master("  - at 230 s: step_key.close\n  - at 231 s: step_key.open\n"));
  fast.run_to(10 * 60);
  EXPECT_THAT(
      fast.session().report().warnings(),
      testing::ElementsAre("clock (loop hall): 1 min fast; 11 steps, 0 missed, 1 too many."));
}

TEST(SecondaryTest, WarnsOfStepsMissedThoughTheDialIsRightAgain) {
  Trial trial(
      master("  - at 190 s: cut_out.open\n  - at 310 s: cut_out.close\n"
             "  - at 400 s: clock.step\n  - at 401 s: clock.step\n"));
  trial.run_to(10 * 60);
  EXPECT_THAT(trial.session().report().warnings(),
              testing::ElementsAre("clock (loop hall): right; 8 steps, 2 missed, 0 too many."));
}

TEST(SecondaryTest, IsSlowByAllThatItLostUpToATurnOfTheDial) {
  Trial trial(master("  - at 190 s: cut_out.open\n"));
  trial.run_to(485 * 60 + 190);
  expect_count(trial, {3, 485, 0, -485});
  EXPECT_THAT(
      trial.session().report().warnings(),
      testing::ElementsAre("clock (loop hall): 485 min slow; 3 steps, 485 missed, 0 too many."));
  EXPECT_EQ(remark_on(trial), "485 min slow");
}

TEST(SecondaryTest, IsFastByAllThatItWasPutAhead) {
  Trial trial(master(""), {"clock.wrong_at_start=210 min"});
  trial.run_to(5 * 60);
  expect_count(trial, {5, 0, 0, 210});
  EXPECT_EQ(remark_on(trial), "210 min fast");
}

TEST(SecondaryTest, TellsWhatItLostBeyondATurnOfTheDialAndWhatTheDialReads) {
  Trial more(master("  - at 190 s: cut_out.open\n"));
  more.run_to(1205 * 60 + 190);
  EXPECT_THAT(more.session().report().warnings(),
              testing::ElementsAre("clock (loop hall): 1205 min behind (its dial reads 485 min "
                                   "slow); 3 steps, 1205 missed, 0 too many."));
  Trial whole(master("  - at 190 s: cut_out.open\n"));
  whole.run_to(720 * 60 + 190);
  EXPECT_THAT(whole.session().report().warnings(),
              testing::ElementsAre("clock (loop hall): 720 min behind (its dial reads right); 3 "
                                   "steps, 720 missed, 0 too many."));
  EXPECT_EQ(whole.read("clock.error_min"), 0);
}

TEST(SecondaryTest, IsNoLongerBehindOnceItsDialIsSet) {
  Trial trial(master("  - at 190 s: cut_out.open\n  - at 720 min: clock.set 478 min\n"));
  trial.run_to(721 * 60);
  EXPECT_THAT(trial.session().report().warnings(),
              testing::Contains(testing::HasSubstr("clock (loop hall): 1 min slow; 3 steps")));
}

TEST(SecondaryTest, IsSetByTheShorterWayRoundWhateverItLost) {
  Trial trial(master("  - at 190 s: cut_out.open\n  - at 700 min: clock.set 468 min\n"));
  trial.run_to(700 * 60 + 10);
  EXPECT_EQ(trial.read("clock.error_min"), 10);
}

TEST(SecondaryTest, SteppedByHandOverTwelveItHasGainedAMinute) {
  Trial trial(master("  - at 100 s: clock.set 719 min\n  - at 101 s: clock.step\n"));
  trial.run_to(100.5);
  const double before = trial.read("clock.error_min");
  trial.run_to(102);
  EXPECT_EQ(trial.read("clock.shown"), 0);
  EXPECT_EQ(trial.read("clock.error_min"), before + 1);
}

TEST(SecondaryTest, IsSteppedAndSetByHand) {
  Trial trial(master("  - at 100 s: clock.step\n  - at 200 s: clock.set 0:30\n"));
  trial.run_to(150);
  EXPECT_EQ(trial.read("clock.error_min"), 1);
  trial.run_to(201);
  EXPECT_EQ(trial.read("clock.shown"), 60 * 30);
  // Shown 0:30, due 8:01: seven hours and 31 minutes slow are four hours and 29 minutes fast.
  EXPECT_EQ(trial.read("clock.error_min"), 269);
}

TEST(SecondaryTest, HalfAnImpulseLeavesThePawlGathered) {
  Trial trial(master("  - at 50 s: step_key.close\n"));
  trial.run_to(59);
  EXPECT_EQ(trial.read("clock.gap"), 0);
  expect_count(trial, {1, 0, 0, 0});
  // Held in by the key, the relay cannot part: no further step, however often contact B closes.
  trial.run_to(10 * 60);
  EXPECT_EQ(trial.read("clock.steps"), 1);
}

TEST(SecondaryTest, WithoutMasterItOnlyCounts) {
  std::string scene = master("");
  const std::string link = "    connect: {compared_with: movement.escape_arbor}\nwires";
  scene.replace(scene.find(link), link.size(), "wires");
  Trial trial(scene);
  trial.run_to(3 * 60);
  EXPECT_EQ(trial.read("clock.steps"), 3);
  EXPECT_EQ(trial.read("clock.error_min"), 0);
}

}  // namespace
}  // namespace sixty
