// Pull-in and drop-out volts come out of the build: changed through --set they move by what the
// magnet's equation says, which is written here anew for the open armature (where the need is
// greatest with these values).
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/models/trial.hpp"
#include "tests/reckoning/magnet.hpp"

namespace sixty {
namespace {

const char* const kScene = R"(scene: One relay
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  key: {type: switch, sheet: bench_switch}
  relay: {type: relay, sheet: minute_relay}
wires:
  plus: [supply.plus, key.a, relay.contact_a]
  top: [key.b, relay.coil_a]
  minus: [supply.minus, relay.coil_b]
script:
  - at 0 s: key.close
  - at 1 s: key.open
)";

// The sheet's values. Common practice, no source.
constexpr OpenArmature kSound = {120, 4600, 1e-4, 2e-3, 0.45e-3, 0.12, 1.55, 0.05};

void expect_pull_in(const OpenArmature& build, const std::vector<std::string>& changes) {
  Trial trial(kScene, changes);
  EXPECT_NEAR(trial.read("relay.pull_in_volts"), build.pull_in_v(), 1e-6 * build.pull_in_v());
}

TEST(PullInTest, MovesWithEachCauseByTheComputedAmount) {
  expect_pull_in(kSound, {});
  OpenArmature b = kSound;
  b.turns = 5000;
  expect_pull_in(b, {"relay.turns=5000"});
  b = kSound;
  b.ohm = 132;
  expect_pull_in(b, {"relay.resistance=132 ohm"});
  b = kSound;
  b.area_m2 = 1.2e-4;
  expect_pull_in(b, {"relay.pole_area=1.2 cm2"});
  b = kSound;
  b.stroke_m = 2.3e-3;
  expect_pull_in(b, {"relay.stroke=2.3 mm"});
  b = kSound;
  b.preload_n = 1.8;
  expect_pull_in(b, {"relay.preload=1.8 N"});
  b = kSound;
  b.residual_m = 0.6e-3;
  b.friction_n = 0.12;
  expect_pull_in(b, {"relay.residual_gap=0.6 mm", "relay.friction=0.12 N"});
}

// WIRE-20: the winding's resistance at 60 degC is 1.1572 of that at 20 degC.
TEST(PullInTest, HotWindingNeedsMoreVolts) {
  OpenArmature b = kSound;
  b.ohm *= 1.1572;
  expect_pull_in(b, {"relay.temperature=60 degC"});
}

TEST(DropOutTest, IsWhereTheRunningRelayLetsGo) {
  Trial probe(kScene);
  const double drop_out = probe.read("relay.drop_out_volts");
  // Held through a resistor after it has been pulled in: stays or falls by a hair of the volts.
  const auto stays = [&](double share) {
    const double volts = share * drop_out;
    const double coil_ohm = 120 * 1500 / 1620.0;
    const double holding = (24 - volts) / (volts / coil_ohm) - 0.3;
    std::string scene = kScene;
    scene.insert(
        scene.find("wires:"),
        fmt::format("  hold: {{type: resistor, set: {{resistance: {:.6f} ohm}}}}\n", holding));
    scene.replace(scene.find("key.a, relay.contact_a"), 22, "key.a, relay.contact_a, hold.a");
    scene.replace(scene.find("key.b, relay.coil_a"), 19, "key.b, relay.coil_a, hold.b");
    Trial trial(scene);
    trial.run_to(20);
    return trial.read("relay.gap") == 0;
  };
  EXPECT_TRUE(stays(1.02));
  EXPECT_FALSE(stays(0.98));
}

/// Resistances that the relay's contact had in a hundred closings.
std::set<double> closings(const std::vector<std::string>& changes) {
  std::string scene = kScene;
  scene.erase(scene.find("  - at 1 s"));
  for (int k = 1; k < 200; ++k) {
    scene += fmt::format("  - at {} s: key.{}\n", k, k % 2 == 0 ? "close" : "open");
  }
  Trial trial(scene, changes);
  std::set<double> seen;
  for (int k = 0; k < 100; ++k) {
    trial.run_to(2 * k + 0.5);
    seen.insert(trial.read("relay.contact_resistance"));
  }
  EXPECT_EQ(trial.read("relay.pulls"), 100);
  return seen;
}

TEST(FilmTest, ClosingsDifferTheMoreTheMoreFilmThereIs) {
  const std::set<double> clean = closings({});
  EXPECT_EQ(clean.size(), 1u);
  // Common practice, no source: 5 to 50 mohm, about 15.
  EXPECT_GT(*clean.begin(), 0.005);
  EXPECT_LT(*clean.begin(), 0.050);
  EXPECT_EQ(closings({"relay.film=60 mohm"}).size(), 4u);
  EXPECT_EQ(closings({"relay.film=2 ohm"}).size(), 16u);
}

}  // namespace
}  // namespace sixty
