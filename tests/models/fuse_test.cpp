// A fuse melts when its law says, whatever else happens on its line meanwhile.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/models/keyed_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kTau = 4.5;
constexpr double kLeastA = 3;  // of the fuse of 2 A

/// A fuse of 2 A between the key and a resistor that lets `current` through.
KeyedScene loaded(double current_a, const std::string& script = "") {
  KeyedScene s;
  s.parts = fmt::format(
      "  fuse: {{type: fuse, sheet: clock_line_2a, set: {{resistance: 1 mohm}}}}\n"
      "  load: {{type: resistor, set: {{resistance: {:.6f} ohm}}}}\n",
      24 / current_a - 0.3 - 0.002);
  s.fed = ", fuse.a";
  s.minus = ", load.b";
  s.wires = "  line: [fuse.b, load.a]\n";
  s.script = script;
  return s;
}

double blows_after_s(double current_a) {
  Trial trial(yaml_of(loaded(current_a)));
  trial.run_to(200);
  const auto at = trial.when("fuse", "melts");
  return at ? *at - 1 : -1;
}

// Derived: d(heat)/dt = (x - heat)/tau from 0 reaches 1 after tau ln(x/(x - 1)), x = (I/Im)^2.
TEST(FuseTest, MeltsWhenOneWarmBodyWould) {
  for (const double current_a : {3.2, 4.2, 5.5, 8.0, 20.0}) {
    const double x = current_a / kLeastA * current_a / kLeastA;
    const double expected = kTau * std::log(x / (x - 1));
    EXPECT_NEAR(blows_after_s(current_a), expected, 2e-4 * expected) << current_a << " A";
  }
}

TEST(FuseTest, CarriesLessThanItsLeastMeltingCurrentForEver) { EXPECT_LT(blows_after_s(2.95), 0); }

// IEC 60127-2, time-lag cartridge fuse, from memory: at most 2 min at 2.1 times its rated current,
// 0.6 to 10 s at 2.75 times, 0.15 to 3 s at 4 times, 20 to 300 ms at 10 times.
TEST(FuseTest, LiesBetweenTheGatesOfATimeLagFuse) {
  EXPECT_LT(blows_after_s(4.2), 120);
  EXPECT_GT(blows_after_s(5.5), 0.6);
  EXPECT_LT(blows_after_s(5.5), 10);
  EXPECT_GT(blows_after_s(8), 0.15);
  EXPECT_LT(blows_after_s(8), 3);
  EXPECT_GT(blows_after_s(20), 0.02);
  EXPECT_LT(blows_after_s(20), 0.3);
}

// Each second of 5 A warms it, and in the pause it cools: the sum of the decayed pulses.
TEST(FuseTest, WarmsFromPulseToPulse) {
  std::string script;
  for (int k = 0; k < 12; ++k) {
    if (k > 0) script += fmt::format("  - at {} s: key.close\n", 1 + 3 * k);
    script += fmt::format("  - at {} s: key.open\n", 2 + 3 * k);
  }
  Trial trial(yaml_of(loaded(5, script)));
  const double x = 25.0 / 9;
  double heat = 0;
  int pulse = 0;
  for (;; ++pulse) {
    const double end = x + (heat - x) * std::exp(-1 / kTau);
    if (end >= 1) break;
    trial.run_to(2 + 3 * pulse);
    EXPECT_NEAR(trial.read("fuse.heat"), end, 2e-4) << "pulse " << pulse;
    heat = end * std::exp(-2 / kTau);
  }
  const double expected = 1 + 3 * pulse + kTau * std::log((x - heat) / (x - 1));
  trial.run_to(40);
  EXPECT_GT(pulse, 0);
  EXPECT_NEAR(trial.when("fuse", "melts").value_or(0), expected, 1e-3);
}

TEST(FuseTest, CutsItsLineOffUntilItIsReplaced) {
  Trial trial(yaml_of(loaded(8, "  - at 20 s: fuse.replace\n")));
  trial.run_to(19);
  EXPECT_EQ(trial.read("fuse.whole"), 0);
  EXPECT_EQ(trial.read("fuse.current"), 0);
  trial.run_to(20.1);
  EXPECT_EQ(trial.read("fuse.whole"), 1);
  EXPECT_NEAR(trial.read("fuse.current"), 8, 0.01);
  trial.run_to(30);
  ASSERT_EQ(trial.count("fuse", "melts"), 2U);
  const double first = *trial.when("fuse", "melts") - 1;
  EXPECT_NEAR(*trial.when("fuse", "melts", 19) - 20, first, 1e-6);
}

TEST(FuseTest, CarriesInItsArcWhatItsSupplyGives) {
  Trial trial(yaml_of(loaded(20)));
  trial.run_to(3);
  const double arc_s = *trial.when("fuse", "melts") + 1e-4;
  ASSERT_LT(arc_s, trial.when("fuse", "spark_ends").value_or(0));
  Trial again(yaml_of(loaded(20)));
  again.run_to(arc_s);
  EXPECT_GT(again.read("supply.current"), 1);
  EXPECT_NEAR(again.read("fuse.current"), again.read("supply.current"), 1e-6);
}

TEST(FuseTest, WarnsHowOftenItBlew) {
  Trial trial(yaml_of(loaded(8, "  - at 20 s: fuse.replace\n  - at 40 s: fuse.replace\n")));
  trial.run_to(10);
  EXPECT_THAT(trial.session().report().warnings(),
              ElementsAre(HasSubstr(" blew at Mon 00:00:01.")));
  trial.run_to(60);
  EXPECT_THAT(trial.session().report().warnings(),
              ElementsAre(HasSubstr(" blew 3 times, the last at Mon 00:00:40.")));
}

/// A bell, whose current never comes to rest, behind a fuse far too small for it.
KeyedScene bell_behind_fuse() {
  KeyedScene s;
  s.parts =
      "  fuse: {type: fuse, set: {rated_current: 0.4 A, resistance: 0.5 ohm, time_constant: 2 s}}\n"
      "  bell: {type: bell, sheet: bell_24v}\n";
  s.fed = ", fuse.a";
  s.minus = ", bell.minus";
  s.wires = "  line: [fuse.b, bell.plus]\n";
  return s;
}

TEST(FuseTest, MeltsAmidWhatNeverComesToRest) {
  Trial trial(yaml_of(bell_behind_fuse()));
  trial.run_to(1);
  double heat = 0;
  double melts_s = 0;
  constexpr double kStep = 2e-5;
  // Euler sums of the current that is read at the fuse; it is the bell's until the fuse melts.
  for (double t = 1; t < 6 && melts_s == 0; t += kStep) {
    trial.run_to(t + kStep / 2);
    const double share = trial.read("fuse.current") / (0.4 * 1.5);
    heat += kStep / 2.0 * (share * share - heat);
    if (heat >= 1) melts_s = t + kStep;
    if (trial.read("fuse.whole") == 0) break;
  }
  trial.run_to(8);
  ASSERT_TRUE(trial.when("fuse", "melts"));
  EXPECT_NEAR(*trial.when("fuse", "melts"), melts_s > 0 ? melts_s : 1, 0.02);
  EXPECT_GT(trial.count("bell", "strikes"), 0U);
}

}  // namespace
}  // namespace sixty
