// Controls at the case and care of the parts, as commands of a script: each acts in the physics,
// and what it set is part of the moment that one goes back to.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/keyed_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// Goes back before a command and on again, and finds everything as it was.
void expect_replay(Trial& trial, double before_s, double end_s) {
  trial.run_to(end_s);
  const std::uint64_t straight = trial.session().state_hash();
  trial.session().seek(from_seconds(before_s));
  trial.session().seek(from_seconds(end_s));
  EXPECT_EQ(trial.session().state_hash(), straight);
}

KeyedScene one_relay(const std::string& script, const std::string& set = "") {
  KeyedScene s;
  s.parts = "  relay: {type: relay, sheet: minute_relay, set: {" + set + "}}\n";
  s.fed = ", relay.coil_a, relay.contact_a";
  s.minus = ", relay.coil_b, load.b";
  s.parts += "  load: {type: resistor, set: {resistance: 24 ohm}}\n";
  s.wires = "  out: [relay.contact_b, load.a]\n";
  s.script = script;
  return s;
}

TEST(ControlsTest, AKeyIsHeldAsLongAsItIsHeld) {
  Trial trial(bench_minimal() + "  - at 2 s: ring_key.hold 3 s\n  - at 8 s: ring_key.press\n" +
              "  - at 9 s: ring_key.release\n");
  trial.run_to(4.9);
  EXPECT_EQ(trial.read("zone_relay.closed"), 1);
  EXPECT_GT(trial.read("bell.strokes"), 20);
  trial.run_to(5.1);
  EXPECT_EQ(trial.read("zone_relay.closed"), 0);
  trial.run_to(8.9);
  EXPECT_EQ(trial.read("zone_relay.closed"), 1);
  trial.run_to(9.1);
  EXPECT_EQ(trial.read("zone_relay.closed"), 0);
  expect_replay(trial, 3, 10);
}

TEST(ControlsTest, AHandThatLetsGoEarlierDoesNotLetGoAgain) {
  Trial trial(bench_minimal() + "  - at 2 s: ring_key.hold 3 s\n  - at 3 s: ring_key.release\n" +
              "  - at 4 s: ring_key.press\n");
  trial.run_to(6);
  EXPECT_EQ(trial.read("ring_key.closed"), 1);
}

TEST(ControlsTest, TheStepAllKeyMovesEveryClockByAMinute) {
  Trial trial(bench_minimal() + "  - at 10 s: step_all_key.hold 1 s\n");
  trial.run_to(20);
  EXPECT_EQ(trial.read("hall_clock.shown"), 60 * 1);
  EXPECT_EQ(trial.read("workshop_clock.shown"), 60 * 1);
}

TEST(ControlsTest, TheHandLeverWindsAToothAndLeavesTheTape) {
  Trial trial(bench_minimal() + "  - at 10 s: rewind.wind\n", {"rewind.initial_teeth=20 tooth"});
  trial.run_to(9);
  const double row = trial.read("tape.row");
  const double teeth = trial.read("rewind.spring_teeth");
  trial.run_to(11);
  EXPECT_NEAR(trial.read("rewind.spring_teeth") - teeth, 1 - 2.0 / 60, 1e-9);  // two beats used
  EXPECT_EQ(trial.read("tape.row"), row);
}

TEST(ControlsTest, ATighterSpringNeedsMoreVolts) {
  Trial trial(yaml_of(one_relay("  - at 2 s: key.open\n  - at 3 s: relay.set_spring 3.5 N\n"
                                "  - at 4 s: key.close\n")),
              {"supply.emf=18 V"});
  trial.run_to(1.5);
  EXPECT_EQ(trial.read("relay.closed"), 1);
  const double before_v = trial.read("relay.pull_in_volts");
  trial.run_to(5);
  EXPECT_GT(trial.read("relay.pull_in_volts"), 1.2 * before_v);
  EXPECT_EQ(trial.read("relay.closed"), 0);
  expect_replay(trial, 2.5, 5);
  trial.session().seek(from_seconds(2.5));
  EXPECT_EQ(trial.read("relay.pull_in_volts"), before_v);
}

TEST(ControlsTest, AWiderGapIsThereAtOnceAndNeedsMoreVolts) {
  Trial trial(yaml_of(one_relay("  - at 3 s: relay.set_gap 2.9 mm\n")));
  trial.run_to(0.5);
  const double before_v = trial.read("relay.pull_in_volts");
  EXPECT_NEAR(trial.read("relay.gap"), 2e-3, 1e-9);
  trial.run_to(3.5);  // seated all the while
  EXPECT_EQ(trial.read("relay.gap"), 0);
  EXPECT_GT(trial.read("relay.pull_in_volts"), 1.2 * before_v);
  Trial open(yaml_of(one_relay("  - at 500 ms: relay.set_gap 2.9 mm\n")));
  open.run_to(0.6);
  EXPECT_NEAR(open.read("relay.gap"), 2.9e-3, 1e-9);
  open.run_to(2);
  EXPECT_EQ(open.read("relay.gap"), 0);
  expect_replay(open, 0.2, 2);
}

TEST(ControlsTest, AGapThatLeavesNoWayToTheContactIsRefused) {
  Trial trial(yaml_of(one_relay("  - at 500 ms: relay.set_gap 1 mm\n", "makes_at: 1.5 mm")));
  trial.run_to(0.6);
  EXPECT_NEAR(trial.read("relay.gap"), 2e-3, 1e-9);
}

TEST(ControlsTest, ACleanedRelayContactLosesItsFilm) {
  const std::string script =
      "  - at 2 s: key.open\n  - at 3 s: relay.clean\n  - at 4 s: key.close\n";
  Trial trial(yaml_of(one_relay(script, "film: 5 ohm, film_spread: 0")));
  trial.run_to(1.5);
  EXPECT_NEAR(trial.read("relay.contact_resistance"), 5, 0.01);
  trial.run_to(5);
  EXPECT_LT(trial.read("relay.contact_resistance"), 0.1);
  expect_replay(trial, 2.5, 5);
}

TEST(ControlsTest, ACleanedSwitchLosesItsFilm) {
  KeyedScene s;
  s.parts = "  load: {type: resistor, set: {resistance: 24 ohm}}\n";
  s.fed = ", load.a";
  s.minus = ", load.b";
  s.script = "  - at 2 s: key.open\n  - at 3 s: key.clean\n  - at 4 s: key.close\n";
  Trial trial(yaml_of(s), {"key.film=8 ohm", "key.film_spread=0"});
  trial.run_to(1.5);
  EXPECT_GT(trial.read("key.volts"), 5);
  trial.run_to(4.5);
  EXPECT_LT(trial.read("key.volts"), 0.1);
  expect_replay(trial, 2.5, 5);
}

/// A cut-out of two poles before two lamps.
KeyedScene two_lamps() {
  KeyedScene s;
  s.parts =
      "  pair: {type: switch, set: {poles: 2}}\n"
      "  one: {type: resistor, set: {resistance: 24 ohm}}\n"
      "  two: {type: resistor, set: {resistance: 48 ohm}}\n";
  s.fed = ", pair.a, pair.a_2";
  s.minus = ", one.b, two.b";
  s.wires = "  first: [pair.b, one.a]\n  second: [pair.b_2, two.a]\n";
  s.script = "  - at 2 s: pair.hold 2 s\n";
  return s;
}

TEST(ControlsTest, ACutOutWorksAllItsPolesTogether) {
  Trial trial(yaml_of(two_lamps()));
  trial.run_to(1.5);
  EXPECT_EQ(trial.read("one.current"), 0);
  EXPECT_EQ(trial.read("two.current"), 0);
  trial.run_to(3);
  EXPECT_NEAR(trial.read("one.current"), 1, 0.03);
  EXPECT_NEAR(trial.read("two.current"), 0.5, 0.015);
  EXPECT_EQ(trial.read("pair.closed"), 1);
  EXPECT_NEAR(trial.read("pair.current"), trial.read("one.current"), 1e-9);
  trial.run_to(5);
  EXPECT_EQ(trial.read("one.current"), 0);
  EXPECT_EQ(trial.read("two.current"), 0);
  expect_replay(trial, 2.5, 6);
}

TEST(ControlsTest, APoleThatIsNotThereTakesNoWire) {
  EXPECT_THAT(mistakes_of(yaml_of(two_lamps()), {"pair.poles=1"}),
              testing::AllOf(testing::HasSubstr("nothing is behind this\n  found:    pair.a_2"),
                             testing::HasSubstr("found:    pair.b_2")));
  EXPECT_THAT(mistakes_of(yaml_of(two_lamps()), {"pair.poles=9"}),
              testing::HasSubstr("pair.poles: out of range"));
}

TEST(ControlsTest, AClockWithTooTightASpringMissesItsMinutes) {
  Trial trial(bench_minimal() + "  - at 60 s: workshop_clock.set_spring 0.8 N\n");
  trial.run_to(180);
  EXPECT_EQ(trial.read("hall_clock.error_min"), 0);
  EXPECT_EQ(trial.read("workshop_clock.error_min"), -2);
  expect_replay(trial, 50, 180);
}

TEST(ControlsTest, AWiderGapMakesAClockSlowerToComeIn) {
  Trial trial(bench_minimal() + "  - at 60 s: workshop_clock.set_gap 2.9 mm\n");
  trial.run_to(180);
  ASSERT_TRUE(trial.when("workshop_clock", "seats", 90));
  const double first =
      *trial.when("workshop_clock", "seats", 30) - *trial.when("hall_clock", "seats", 30);
  const double later =
      *trial.when("workshop_clock", "seats", 90) - *trial.when("hall_clock", "seats", 90);
  EXPECT_GT(later, first + 0.002);
}

TEST(ControlsTest, ABellsSpringAndInterrupterAreSet) {
  KeyedScene s;
  s.parts = "  bell: {type: bell, sheet: bell_24v, set: {film: 6 ohm, film_spread: 0}}\n";
  s.fed = ", bell.plus";
  s.minus = ", bell.minus";
  s.script =
      "  - at 3 s: key.open\n  - at 5 s: bell.clean\n  - at 6 s: key.close\n"
      "  - at 8 s: key.open\n  - at 10 s: bell.set_spring 1.2 N\n  - at 11 s: key.close\n";
  Trial trial(yaml_of(s));
  trial.run_to(3);
  const double foul = trial.read("bell.strokes");
  trial.run_to(8);
  const double clean = trial.read("bell.strokes") - foul;
  EXPECT_GT(clean, foul + 1);  // 18 ohm in place of 12 took a third of its volts
  trial.run_to(13);
  EXPECT_NE(trial.read("bell.strokes") + trial.read("bell.buzzes") - foul - clean, clean);
  expect_replay(trial, 4, 13);
}

TEST(ControlsTest, AnArmPressedTooHardStopsTheClockAtItsOwnSecond) {
  Trial trial(bench_minimal() + "  - at 16 s: ring_timing.set_force 0.5 N\n");
  trial.run_to(60);  // it was closed when it was set: from the next minute on
  EXPECT_EQ(trial.count("movement", "stands"), 0U);
  trial.run_to(90);
  ASSERT_TRUE(trial.when("movement", "stands"));
  EXPECT_NEAR(*trial.when("movement", "stands"), 76, 1.5);
  expect_replay(trial, 10, 90);
}

TEST(ControlsTest, ADwellIsSetInBeats) {
  Trial trial(bench_minimal() + "  - at 30 s: ring_timing.set_dwell 9 beat\n" +
              "  - at 2m17s: ring_timing.set_dwell 3 beat\n");
  trial.run_to(240);
  const auto length = [&](double from_s) {
    const double makes = *trial.when("ring_timing", "makes", from_s);
    return *trial.when("ring_timing", "breaks", makes + 0.1) - makes;
  };
  EXPECT_NEAR(length(10), 5, 0.1);
  EXPECT_NEAR(length(70), 9, 0.1);
  EXPECT_NEAR(length(130), 9, 0.1);  // closed when it was set
  EXPECT_NEAR(length(190), 3, 0.1);
  expect_replay(trial, 20, 240);
}

TEST(ControlsTest, ALeadAcrossADirtyContactDoesItsWorkAsLongAsItIsHeldThere) {
  Trial trial(bench_minimal() + "  - at 90 s: arm_b.clip_lead\n  - at 150 s: arm_b.take_lead_off\n",
              {"arm_b.film=1e5 ohm"});
  trial.run_to(90);
  EXPECT_EQ(trial.read("hall_clock.steps"), 0);
  trial.run_to(96);
  EXPECT_NEAR(trial.read("arm_b.resistance"), 0.02, 1e-9);
  trial.run_to(150);
  EXPECT_EQ(trial.read("hall_clock.steps"), 1);
  trial.run_to(300);
  EXPECT_EQ(trial.read("hall_clock.steps"), 1);
  expect_replay(trial, 20, 300);
}

TEST(ControlsTest, StepByStepAnArmSetOtherwiseActsTheSame) {
  const std::string yaml = bench_minimal() + "  - at 30 s: ring_timing.set_dwell 9 beat\n" +
                           "  - at 77 s: arm_b.set_force 0.1 N\n";
  Session::Options steps;
  steps.queue_each_step = true;
  Trial all(yaml), each(yaml, {}, steps);
  all.run_to(300);
  each.run_to(300);
  for (const char* what : {"movement.semi_arc", "movement.error", "rewind.spring_teeth"}) {
    EXPECT_EQ(all.read(what), each.read(what)) << what;
  }
}

TEST(ControlsTest, TheHandsAreSetAndWhatTheyDriveStays) {
  Trial trial(bench_minimal() + "  - at 63.2 s: movement.set_hands 715 min\n");
  trial.run_to(63);
  const double before_s = trial.read("movement.error");
  trial.run_to(64);
  EXPECT_NEAR(trial.read("movement.error") - before_s, -360, 0.1);  // 00:01 to 11:55: 6 min back
  EXPECT_NEAR(trial.read("movement.position"), 64, 1);
  trial.run_to(240);
  EXPECT_EQ(trial.read("hall_clock.error_min"), 0);
  expect_replay(trial, 50, 240);
}

TEST(ControlsTest, ACrutchOffCentreIsOutOfBeat) {
  Trial trial(bench_minimal() + "  - at 60 s: movement.set_crutch 0.2 deg\n" +
              "  - at 90 s: movement.set_crutch 1.5 deg\n");
  trial.run_to(59);
  EXPECT_LT(trial.read("movement.beat_error"), 1e-3);
  trial.run_to(80);
  const double error = trial.read("movement.beat_error");
  EXPECT_GT(error, 0.02);
  trial.run_to(100);  // more than the escaping semi-arc: refused
  EXPECT_NEAR(trial.read("movement.beat_error"), error, 0.01);
  expect_replay(trial, 50, 100);
}

// Copper of clock_line, 1.0 mm2: 2 x 60 m / (58 MS/m x 1 mm2), IEC 60028, published.
TEST(ControlsTest, TightenedJointsAreSoundAgain) {
  const double copper_ohm = 2 * 60 / 58.0;
  for (const char* leak : {"0 ohm", "1 kohm"}) {
    Trial trial(bench_minimal() + "  - at 40 s: line_far.tighten\n",
                {"line_far.joints=4", "line_far.joint_resistance=400 ohm",
                 std::string("line_far.leakage=") + leak});
    trial.run_to(39);
    EXPECT_NEAR(trial.read("line_far.resistance"), copper_ohm + 1600, 1e-9);
    EXPECT_EQ(trial.count("workshop_clock", "seats"), 0U);
    trial.run_to(41);
    EXPECT_NEAR(trial.read("line_far.resistance"), copper_ohm + 4 * 5e-3, 1e-9);
    trial.run_to(100);
    EXPECT_EQ(trial.count("workshop_clock", "seats"), 1U);
    expect_replay(trial, 30, 110);
  }
}

TEST(ControlsTest, AHeavierPlungerNeedsMoreVolts) {
  Trial trial(bench_minimal() + "  - at 30 s: rewind.set_spring 8 N\n");
  trial.run_to(140);
  EXPECT_EQ(trial.read("rewind.strokes"), 1);
  EXPECT_EQ(trial.read("rewind.missed"), 2);
  expect_replay(trial, 20, 140);
}

}  // namespace
}  // namespace sixty
