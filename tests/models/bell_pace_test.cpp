// Strokes a second come out of the bell's build: each cause, changed as by --set, moves them by
// what an integration of our own, made apart from the program, says.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/models/trial.hpp"
#include "tests/reckoning/bell.hpp"

namespace sixty {
namespace {

constexpr double kSeconds = 20;
// A second's strokes are counted over 20 s, so one stroke more or less is 0.05. Beyond that the
// two integrations must agree to a quarter of a per cent: theirs steps 20 us, and each of the four
// turns of a stroke of 70 ms may come a step late.
constexpr double kCount = 0.05;
constexpr double kShare = 0.0025;
constexpr double kSpeed = 0.01;  // of the clapper's, likewise
// A change must move the pace by more than five times what two agreeing reckonings may differ by.
constexpr double kMoved = 0.035;

const char* const kScene = R"(scene: Bell on the bench
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 1 mohm}}
  key: {type: switch, set: {contact_resistance: 1 mohm}}
  bell: {type: bell, sheet: bell_24v, set: {film: 0 ohm}}
wires:
  plus: [supply.plus, key.a]
  feed: [key.b, bell.plus]
  minus: [supply.minus, bell.minus]
script:
  - at 1 s: key.close
)";

double strokes_per_s(Trial& trial) {
  trial.run_to(1 + kSeconds);
  return (trial.read("bell.strokes") + trial.read("bell.buzzes")) / kSeconds;
}

void expect_pace(const BellReckoning& bell, const std::vector<std::string>& set) {
  SCOPED_TRACE(set.empty() ? "unchanged" : set.front());
  const BellReckoning::Rung rung = bell.ring(kSeconds);
  Trial trial(kScene, set);
  EXPECT_NEAR(strokes_per_s(trial), rung.strokes_per_s, kCount + kShare * rung.strokes_per_s);
  EXPECT_NEAR(trial.read("bell.stroke_speed"), rung.speed, kSpeed * rung.speed);
  if (set.empty()) return;
  static const double unchanged = BellReckoning{}.ring(kSeconds).strokes_per_s;
  EXPECT_GT(std::fabs(rung.strokes_per_s / unchanged - 1), kMoved) << "too small a change to prove";
}

TEST(BellPaceTest, IsWhatAnIntegrationOfItsOwnGives) { expect_pace({}, {}); }

TEST(BellPaceTest, MovesWithTheMassOfItsClapper) {
  for (const double kg : {0.2, 0.3, 0.6}) {
    BellReckoning b;
    b.mass_kg = kg;
    expect_pace(b, {fmt::format("bell.moving_mass={} kg", kg)});
  }
}

TEST(BellPaceTest, MovesWithTheRateOfItsSpring) {
  for (const double rate : {90.0, 250.0}) {
    BellReckoning b;
    b.rate_n_per_m = rate;
    expect_pace(b, {fmt::format("bell.rate={} N/m", rate)});
  }
}

TEST(BellPaceTest, MovesWithTheLoadOfItsSpring) {
  for (const double newton : {0.05, 0.8}) {
    BellReckoning b;
    b.preload_n = newton;
    expect_pace(b, {fmt::format("bell.preload={} N", newton)});
  }
}

TEST(BellPaceTest, MovesWithTheVoltsOfItsSupply) {
  for (const double volts : {14.0, 18.0, 30.0}) {
    BellReckoning b;
    b.emf_v = volts;
    expect_pace(b, {fmt::format("supply.emf={} V", volts)});
  }
}

TEST(BellPaceTest, MovesWithTheTravelOfItsHammer) {
  BellReckoning b;
  b.rest_m = 4.5e-3;
  b.makes_m = 3.8e-3;
  expect_pace(b, {"bell.stroke=4.5 mm", "bell.makes_at=3.8 mm"});
  b = {};
  b.rest_m = 7.5e-3;
  b.makes_m = 6.5e-3;
  expect_pace(b, {"bell.stroke=7.5 mm", "bell.makes_at=6.5 mm"});
  b = {};
  b.makes_m = 3e-3;
  expect_pace(b, {"bell.makes_at=3 mm"});
}

TEST(BellPaceTest, MovesWithTheResistanceBeforeIt) {
  BellReckoning b;
  b.feed_ohm += 6;
  expect_pace(b, {"supply.resistance=6.001 ohm"});
}

TEST(BellPaceTest, MovesWithTheTurnsOfItsCoil) {
  BellReckoning b;
  b.turns = 1800;
  expect_pace(b, {"bell.turns=1800"});
}

}  // namespace
}  // namespace sixty
