// A rectifier's volts, with and without its capacitor, and what coils make of its ripple.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "tests/models/bench_minimal.hpp"
#include "tests/models/report_rows.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

std::string rectified(const std::string& rectifier, const std::string& load,
                      const std::string& a = "a", const std::string& b = "b") {
  return fmt::format(R"(scene: Behind a rectifier
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {{type: rectifier, {}}}
  key: {{type: switch, set: {{contact_resistance: 1 mohm}}}}
  load: {}
wires:
  plus: [supply.plus, key.a]
  fed: [key.b, load.{}]
  minus: [supply.minus, load.{}]
script:
  - at 1 s: key.close
)",
                     rectifier, load, a, b);
}

struct Wave {
  double mean = 0, ac = 0, least = 1e9, most = -1e9;
};

/// Of a reading, looked at a hundred times in each half period.
Wave wave(Trial& trial, const std::string& reading, double from_s, double half_periods) {
  Wave w;
  double squares = 0;
  const int count = static_cast<int>(half_periods * 100);
  for (int k = 0; k < count; ++k) {
    trial.run_to(from_s + 1e-4 * k);
    const double value = trial.read(reading);
    w.mean += value / count;
    squares += value * value / count;
    w.least = std::min(w.least, value);
    w.most = std::max(w.most, value);
  }
  w.ac = std::sqrt(std::max(0.0, squares - w.mean * w.mean));
  return w;
}

const char* const kResistor12 = "{type: resistor, set: {resistance: 12 ohm}}";

// Starting values, section 5 (common practice, consistent by computation): 25.9 V at rest; on 12
// ohm 21.1 V with 0.35 V of ripple.
TEST(RectifierTest, HoldsTheVoltsThatItsCapacitorKeeps) {
  Trial trial(rectified("sheet: smoothed_24v", kResistor12));
  EXPECT_NEAR(wave(trial, "supply.volts", 0.8, 4).mean, 25.9, 0.1);
  const Wave loaded = wave(trial, "supply.volts", 2, 4);
  EXPECT_NEAR(loaded.mean, 21.1, 0.02 * 21.1);
  EXPECT_NEAR(loaded.ac, 0.35, 0.1 * 0.35);
}

// Section 5: made without a capacitor, 30 V rms: mean 24.2 V, 12.5 V of ripple, peak 39 V. The
// means of |sin| are 2/pi and 1/sqrt(2) (derived).
TEST(RectifierTest, WithoutACapacitorShowsHalfWavesToItsLoad) {
  Trial trial(rectified("sheet: plain_24v, set: {resistance: 1 mohm}",
                        "{type: resistor, set: {resistance: 1 kohm}}"));
  const Wave w = wave(trial, "supply.volts", 2, 4);
  const double peak = std::sqrt(2.0) * 30;
  EXPECT_NEAR(w.most, peak - 1.8, 0.02);
  EXPECT_NEAR(w.mean, 24.2, 0.05 * 24.2);
  EXPECT_NEAR(w.ac, 12.5, 0.05 * 12.5);
  EXPECT_NEAR(w.least, 0, 1e-3);
}

// Twice the half periods with the same mean: what the winding gives is what the load takes.
TEST(RectifierTest, DeliversWhatItsLoadTakesHoweverLongItHums) {
  Trial trial(rectified("sheet: plain_24v", kResistor12));
  const Wave w = wave(trial, "supply.current", 2, 2);
  trial.run_to(2);
  const double at_two = trial.read("supply.charge");
  trial.run_to(3602);
  EXPECT_NEAR((trial.read("supply.charge") - at_two) / 3600, w.mean, 2e-3 * w.mean);
}

// Section 5: the capacitor gone from a smoothed one, a relay is in after 26 to 32 ms and holds, the
// solenoid never.
TEST(RectifierTest, WhoseCapacitorIsGoneLeavesRelaysHummingAndTheRewindDead) {
  const std::string bare = "sheet: smoothed_24v, set: {smoothing: 0 F}";
  Trial relay(rectified(bare, "{type: relay, sheet: zone_relay}", "coil_a", "coil_b"));
  relay.run_to(4);
  const auto relay_in = relay.when("load", "seats");
  ASSERT_TRUE(relay_in);
  EXPECT_GT(*relay_in - 1, 0.8 * 0.026);
  EXPECT_LT(*relay_in - 1, 1.2 * 0.032);
  EXPECT_EQ(relay.count("load", "leaves"), 0U);
  Trial solenoid(rectified(bare, "{type: coil, sheet: rewind_solenoid}"));
  solenoid.run_to(4);
  EXPECT_FALSE(solenoid.when("load", "seats"));
}

/// The smallest installation on a rectifier.
std::string rectified_bench() {
  std::string yaml = bench_minimal();
  const std::string supply = "supply: {type: supply, sheet: bench_24v}";
  yaml.replace(yaml.find(supply), supply.size(), "supply: {type: rectifier, sheet: smoothed_24v}");
  return yaml;
}

TEST(RectifierTest, KeepsTheSmallestInstallationRightForTwoDays) {
  Trial trial(rectified_bench());
  trial.run_to(2 * 86400 + 30);
  EXPECT_EQ(trial.read("hall_clock.shown"), 0);
}

// The winding's own volts fall to nothing a hundred times a second; what a meter at the terminals
// shows least is the trough that the capacitor leaves.
TEST(RectifierTest, ReportsTheLeastVoltsAtItsTerminals) {
  Trial trial(rectified("sheet: smoothed_24v", kResistor12));
  trial.run_to(3);
  const Wave w = wave(trial, "supply.volts", 3, 4);
  const Report report = trial.session().report();
  EXPECT_NEAR(number_in(rows_of(report, "supply").at(0), "min_v"), w.least, 0.02);
}

/// A relay whose stop pin is so long that it lets go little below what pulls it in, on bare ripple.
std::string marginal_relay(double tap) {
  return rectified(fmt::format("sheet: plain_24v, set: {{tap: {}}}", tap),
                   "{type: relay, sheet: zone_relay, set: {residual_gap: 3 mm}}", "coil_a",
                   "coil_b");
}

TEST(RectifierTest, RippleMakesAMarginalRelayChatterAtTwiceTheMains) {
  Trial trial(marginal_relay(1.2));
  trial.run_to(3);
  EXPECT_NEAR(trial.read("load.pulls"), 2 * 100, 10);
  EXPECT_THAT(trial.session().report().warnings(),
              testing::Contains(testing::HasSubstr("load chattered")));
  Trial ample(marginal_relay(1.4));
  ample.run_to(3);
  EXPECT_EQ(ample.read("load.pulls"), 1);
}

}  // namespace
}  // namespace sixty
