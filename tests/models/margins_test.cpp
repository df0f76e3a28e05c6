// The weakest point of each loop and zone, against Ohm's law reckoned here, and when things were
// missed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/keyed_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::HasSubstr;

struct Weakest {
  std::string part, at;
  double arrived_v = 0, needed_v = 0, margin = 0;
};

Weakest weakest_of(Trial& trial, const std::string& group) {
  const Report report = trial.session().report();
  for (const Report::Section& section : report.sections()) {
    if (section.name != kMarginsSection) continue;
    for (const Row& row : section.rows) {
      const std::vector<Cell>& c = row.cells();
      if (std::get<std::string>(c[0].value) != group) continue;
      return {std::get<std::string>(c[1].value), std::get<std::string>(c[5].value),
              std::get<double>(c[2].value), std::get<double>(c[3].value),
              std::get<double>(c[4].value)};
    }
  }
  ADD_FAILURE() << "no margin of " << group;
  return {};
}

std::string missed_text(Trial& trial) {
  std::string text;
  const Report report = trial.session().report();
  for (const auto& [heading, sentences] : report.said()) {
    if (heading != kMissedHeading) continue;
    for (const std::string& sentence : sentences) text += sentence + "\n";
  }
  return text;
}

double parallel(double a, double b) { return a * b / (a + b); }

/// Two clocks of 500 ohm, each with 6 kohm across it, on a line of 30 ohm; the far one behind 40
/// ohm more.
KeyedScene two_clocks() {
  KeyedScene s;
  s.parts = R"(  line: {type: resistor, set: {resistance: 30 ohm}}
  rest: {type: resistor, set: {resistance: 40 ohm}}
  far: {type: secondary, sheet: parallel_24v, set: {loop: stairs}}
  near: {type: secondary, sheet: parallel_24v, set: {loop: stairs}}
)";
  s.fed = ", line.a";
  s.minus = ", near.b, far.b";
  s.wires = "  near_in: [line.b, near.a, rest.a]\n  far_in: [rest.b, far.a]\n";
  s.script = "  - at 3 s: key.open\n";
  return s;
}

TEST(MarginsTest, OfALoopIsItsLastClockByOhmsLaw) {
  Trial trial(yaml_of(two_clocks()), {"supply.emf=24 V", "supply.resistance=1 ohm"});
  trial.run_to(4);
  const double clock = parallel(500, 6000);
  const double at_near = parallel(clock, 40 + clock);
  const double far_v = 24 * at_near / (at_near + 31.001) * clock / (clock + 40);
  const Weakest weakest = weakest_of(trial, "loop stairs");
  EXPECT_EQ(weakest.part, "far");
  EXPECT_NEAR(weakest.arrived_v, far_v, 1e-6 * far_v);
  EXPECT_NEAR(weakest.needed_v, trial.read("far.pull_in_volts"), 1e-9);
  EXPECT_NEAR(weakest.margin, 100 * (far_v / weakest.needed_v - 1), 1e-4);
  EXPECT_EQ(weakest.at, "Mon 00:00");
}

TEST(MarginsTest, OfAClockDrivenInVainIsWhatItStoodAt) {
  Trial trial(yaml_of(two_clocks()), {"supply.emf=16.8 V", "supply.resistance=1 ohm"});
  trial.run_to(4);
  const double clock = parallel(500, 6000);
  const double at_near = parallel(clock, 40 + clock);
  const double far_v = 16.8 * at_near / (at_near + 31.001) * clock / (clock + 40);
  ASSERT_EQ(trial.count("far", "seats"), 0U);
  const Weakest weakest = weakest_of(trial, "loop stairs");
  EXPECT_EQ(weakest.part, "far");
  EXPECT_NEAR(weakest.arrived_v, far_v, 1e-4 * far_v);
  EXPECT_LT(weakest.margin, 0);
}

TEST(MarginsTest, AnImpulseTooShortSaysNothingOfVolts) {
  KeyedScene s = two_clocks();
  s.script = "  - at 1.004 s: key.open\n";
  Trial trial(yaml_of(s));
  trial.run_to(4);
  ASSERT_EQ(trial.count("far", "starts"), 0U);
  const Report report = trial.session().report();
  for (const Report::Section& section : report.sections()) {
    EXPECT_NE(section.name, kMarginsSection);
  }
}

TEST(MarginsTest, OfASeriesLoopIsItsShareOfTheVolts) {
  KeyedScene s;
  s.parts = R"(  ballast: {type: resistor, set: {resistance: 80 ohm}}
  one: {type: secondary, sheet: series_220ma, set: {loop: hall, shunt: 0 ohm}}
  two: {type: secondary, sheet: series_220ma, set: {loop: hall, shunt: 0 ohm, preload: 0.17 N}}
  dampers: {type: resistor, set: {resistance: 100 kohm}}
  damper: {type: resistor, set: {resistance: 100 kohm}}
)";
  s.fed = ", ballast.a";
  s.minus = ", two.b, damper.b";
  s.wires =
      "  first: [ballast.b, one.a, dampers.a]\n  second: [one.b, two.a, dampers.b, damper.a]\n";
  Trial trial(yaml_of(s), {"supply.emf=24 V", "supply.resistance=1 ohm"});
  trial.run_to(3);
  const Weakest weakest = weakest_of(trial, "loop hall");
  EXPECT_EQ(weakest.part, "two");
  EXPECT_NEAR(weakest.arrived_v, 24 * 6 / (80 + 12 + 1.001), 2e-4);
}

TEST(MarginsTest, FollowASpringThatIsSet) {
  KeyedScene s = two_clocks();
  s.script = "  - at 3 s: key.open\n  - at 4 s: near.set_spring 0.45 N\n  - at 5 s: key.close\n";
  Trial trial(yaml_of(s));
  trial.run_to(4.5);
  EXPECT_EQ(weakest_of(trial, "loop stairs").part, "far");
  trial.run_to(6);
  EXPECT_EQ(weakest_of(trial, "loop stairs").part, "near");
  trial.session().seek(from_seconds(4.5));
  EXPECT_EQ(weakest_of(trial, "loop stairs").part, "far");
}

TEST(MarginsTest, ARelayCountsWithTheZoneThatItServes) {
  const std::string yaml = bench_minimal() + "  - at 2 s: ring_key.hold 2 s\n";
  Trial sound(yaml);
  sound.run_to(6);
  EXPECT_EQ(weakest_of(sound, "zone 1").part, "zone_relay");
  Trial stiff_bell(yaml, {"bell.preload=0.8 N", "bell.resistance=25 ohm"});
  stiff_bell.run_to(6);
  EXPECT_EQ(weakest_of(stiff_bell, "zone 1").part, "bell");
}

TEST(MissedTest, IsGroupedIntoASpanOfMinutes) {
  Trial trial(bench_minimal() + "  - at 3m10s: clock_switch.open\n" +
              "  - at 6m10s: clock_switch.close\n");
  trial.run_to(600);
  EXPECT_THAT(missed_text(trial),
              HasSubstr("hall_clock (loop corridor): missed its minute Mon 00:03 - Mon 00:05, 3 "
                        "minutes.\n"));
}

TEST(MissedTest, StaysWhereItWasWhenTheMasterStands) {
  Trial trial(bench_minimal() + "  - at 3m10s: clock_switch.open\n  - at 6m10s: movement.stop\n");
  trial.run_to(3600);
  const std::string text = missed_text(trial);
  EXPECT_THAT(text, HasSubstr("missed its minute Mon 00:03 - Mon 00:05, 3 minutes.\n"));
  EXPECT_THAT(text, HasSubstr("movement: the hands stood Mon 00:07 - Mon 00:59, 53 minutes.\n"));
}

TEST(MissedTest, OfManySpansTheNearestBecomeOne) {
  std::string script;
  for (int i = 0; i < 9; ++i) {
    const int from = 2 + 4 * i + (i > 4 ? 10 : 0);
    script += fmt::format("  - at {}m10s: clock_switch.open\n", from);
    script += fmt::format("  - at {}m10s: clock_switch.close\n", from + 1);
  }
  Trial trial(bench_minimal() + script);
  trial.run_to(3600);
  EXPECT_THAT(missed_text(trial),
              HasSubstr("missed its minute Mon 00:02 - Mon 00:14, 4 of 13 minutes; Mon 00:18, 1 "
                        "minute; Mon 00:32, 1 minute; Mon 00:36, 1 minute; Mon 00:40, 1 minute; "
                        "Mon 00:44, 1 minute.\n"));
}

}  // namespace
}  // namespace sixty
