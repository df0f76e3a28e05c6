// Numbers of runs that lessons state.
#include "sim/lesson/fact.hpp"

#include <cmath>

#include "sim/lesson/condition.hpp"
#include "tests/lesson/written.hpp"

namespace sixty::lesson {
namespace {

/// Two facts or conditions of the minute from 08:00 on, as the YAML of each says.
class OfTheMinute {
 public:
  double fact(const std::string& yaml) {
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    TreeReader reader("test", mistakes);
    const auto node = parse_yaml(yaml, "test", diagnostics);
    const auto read = read_fact(*node, *scene_, reader);
    EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
    return values_of({*read}, session_, kMinuteFromEight).front();
  }
  Held condition(const std::string& yaml) {
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    TreeReader reader("test", mistakes);
    const auto node = parse_yaml(yaml, "test", diagnostics);
    const auto read = read_condition(*node, *scene_, reader);
    EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
    return held({*read}, session_, kMinuteFromEight).front();
  }

 private:
  static constexpr Span kMinuteFromEight{8 * kHour, 8 * kHour + kMinute};
  std::shared_ptr<const Installation> scene_ = bench_scene();
  Session session_{scene_};
};

TEST(Fact, EventsAreCountedAndTimedFromTheSpansBeginning) {
  OfTheMinute run;
  EXPECT_EQ(run.fact("{event: arm_b.makes}"), 1);
  EXPECT_NEAR(run.fact("{event: arm_b.makes, take: first}"), 35, 0.1);
  EXPECT_NEAR(run.fact("{from: arm_b.makes, to: arm_b.breaks}"), 2, 0.1);
  EXPECT_EQ(run.fact("{event: minute_relay.held}"), 0);
  EXPECT_TRUE(std::isnan(run.fact("{event: minute_relay.held, take: first}")));
}

TEST(Fact, OfReadingsLeastMostMeanAndChangeAreTaken) {
  OfTheMinute run;
  const double most = run.fact("{reading: minute_relay.current, take: most}");
  // 24 V at some 120 ohm, common practice.
  EXPECT_NEAR(most, 0.2, 0.04);
  EXPECT_NEAR(run.fact("{reading: minute_relay.current, take: least}"), 0, 1e-3);
  // It flows for two seconds of the minute.
  EXPECT_NEAR(run.fact("{reading: minute_relay.current, take: mean}"), most / 30, most / 150);
  EXPECT_EQ(run.fact("{reading: hall_clock.steps, take: change}"), 1);
  EXPECT_EQ(run.fact("{reading: hall_clock.steps, take: last}"),
            run.fact("{reading: hall_clock.steps, take: first}") + 1);
}

TEST(Fact, AMeterShowsWhatItWouldShow) {
  OfTheMinute run;
  EXPECT_NEAR(run.fact("{meter: 'V:hall_clock', take: most}"), 24, 2);
  EXPECT_EQ(run.fact("{reading: hall_clock.steps, take: change}"), 1);  // it is taken off again
}

TEST(Condition, ItHoldsWhereAllOfAPlaceLieBetween) {
  OfTheMinute run;
  EXPECT_TRUE(run.condition("{at: all secondary, reading: steps, take: change, is: 1}").holds);
  EXPECT_EQ(run.condition("{at: all secondary, reading: steps, is: 1}").values.size(), 2U);
  EXPECT_FALSE(run.condition("{at: all secondary, reading: steps, take: change, above: 2}").holds);
  EXPECT_TRUE(run.condition("{event: minute_relay.held, never: yes}").holds);
  EXPECT_FALSE(run.condition("{event: minute_relay.makes, never: yes}").holds);
  EXPECT_TRUE(
      run.condition("{reading: minute_relay.current, take: most, is: 0.2 A, within: 40 mA}").holds);
}

TEST(Condition, OfTheEndOfTheSpanAloneWhereItSaysSo) {
  OfTheMinute run;
  EXPECT_TRUE(run.condition("{event: minute_relay.makes, in: 30 s, is: 1}").holds);
  EXPECT_TRUE(run.condition("{event: minute_relay.makes, in: 20 s, never: yes}").holds);
  const Held early = run.condition("{event: minute_relay.held, in: 2 min, never: yes}");
  EXPECT_TRUE(early.early);
  EXPECT_FALSE(early.holds);
}

std::string refusal_of(const std::string& yaml) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  TreeReader reader("test", mistakes);
  const auto scene = bench_scene();
  const auto node = parse_yaml(yaml, "test", diagnostics);
  EXPECT_FALSE(read_condition(*node, *scene, reader).has_value() && diagnostics.empty());
  return diagnostics.to_text();
}

TEST(Condition, WhatCannotBeMeantIsRefusedWithWhatThereIs) {
  const std::pair<const char*, const char*> wrong[] = {
      {"{reading: hall_clock.volt, above: 1 V}", "volts"},
      {"{reading: hal_clock.volts, above: 1 V}", "hall_clock"},
      {"{event: hall_clock.jumps, is: 1}", "kind of event"},
      {"{event: hall_clock.seats, take: mean, is: 1}", "cannot be taken"},
      {"{reading: hall_clock.volts}", "does not say what is to be so"},
      {"{above: 1}", "tells no number of a run"},
      {"{at: nowhere, reading: steps, is: 1}", "place"},
      {"{at: all relay, reading: steps, is: 1}", "no part there"},
      {"{reading: hall_clock.volts, above: 1 A}", "V"},
      {"{meter: 'beat:movement', above: 1}", "no single number"}};
  for (const auto& [yaml, told] : wrong)
    EXPECT_NE(refusal_of(yaml).find(told), std::string::npos) << yaml << "\n" << refusal_of(yaml);
}

}  // namespace
}  // namespace sixty::lesson
