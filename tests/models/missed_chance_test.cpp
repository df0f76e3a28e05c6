// What a full trace tells of chances that were missed: only true ones.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/keyed_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// A coil behind the key and another one behind a key of its own; a third key bridges the first.
/// All hang behind a resistor, so that they meet away from the supply's terminal.
KeyedScene two_coils() {
  const std::string coil =
      "{type: coil, set: {resistance: 150 ohm, turns: 5200, pole_area: 0.9 cm2, stroke: 2 mm, "
      "residual_gap: 0.3 mm, moving_mass: 9 g, preload: 2 N, rate: 1500 N/m, shunt: 1500 ohm}}";
  KeyedScene s;
  s.parts = "  feed: {type: resistor, set: {resistance: 1 ohm}}\n  near: " + coil +
            "\n  far: " + coil + "\n  bridge: {type: switch}\n  other: {type: switch}\n";
  s.fed = ", feed.a";
  s.minus = ", near.b, far.b";
  s.wires =
      "  bus: [feed.b, main.a, bridge.a, other.a]\n  top: [main.b, bridge.b, near.a]\n"
      "  next: [other.b, far.a]\n";
  s.parts += "  main: {type: switch}\n";
  return s;
}

TEST(MissedChanceTest, AContactThatBridgesAnotherIsNoChanceForWhatNeitherFeeds) {
  KeyedScene s = two_coils();
  s.script = "  - at 2 s: main.close\n";
  Trial trial(yaml_of(s));
  trial.run_to(3);
  EXPECT_EQ(trial.count("near", "starts"), 1U);
  EXPECT_FALSE(trial.when("far", "held", 1.5));
}

TEST(MissedChanceTest, AnOpenContactBehindTheOneThatClosedIsTold) {
  KeyedScene s = two_coils();
  s.parts += "  door: {type: switch}\n";
  s.wires.replace(s.wires.find("near.a"), 6, "door.a");
  s.wires += "  behind: [door.b, near.a]\n";
  s.script = "  - at 2 s: main.close\n";
  Trial trial(yaml_of(s));
  trial.run_to(3);
  EXPECT_EQ(trial.count("near", "starts"), 0U);
  EXPECT_TRUE(trial.when("near", "held", 1.5));
  EXPECT_FALSE(trial.when("far", "held", 1.5));
}

// In three sound minutes, of which the second has a hole, only the zone's relay is driven in vain:
// the pin is there at the start and the hole comes in before the timing contact closes, and that
// closes twice where no hole is.
TEST(MissedChanceTest, SoundMinutesHaveNoneButOnTheWayToARing) {
  std::string yaml = bench_minimal();
  yaml.replace(yaml.find("2026-01-05T00:00:00"), 19, "2026-01-05T07:59:00");
  Trial trial(yaml);
  trial.run_to(180);
  EXPECT_EQ(trial.count("hall_clock", "starts"), 3U);
  EXPECT_EQ(trial.count("zone_relay", "starts"), 1U);
  EXPECT_EQ(trial.count("zone_relay", "held"), 4U);
  for (const char* part : {"rewind", "minute_relay", "hall_clock", "workshop_clock", "bell"}) {
    EXPECT_EQ(trial.count(part, "held"), 0U) << part;
  }
}

}  // namespace
}  // namespace sixty
