// The volts at which an armature just comes in, found by running it a little under and a little
// over them: relay, rewind and clock, each changed cause by cause as by --set. What they should be
// is written here anew from the magnet's equation for the open armature, where with these values
// the need is greatest.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "tests/models/trial.hpp"
#include "tests/reckoning/magnet.hpp"

namespace sixty {
namespace {

// Under and over: the reckoning is exact, but close above the pull-in the armature takes seconds.
constexpr double kUnder = 0.995;
constexpr double kOver = 1.005;
constexpr double kFeedOhm = 0.002;  // supply and key

/// A part's sheet. Common practice, no source.
struct Build {
  const char* type;
  const char* sheet;
  const char* terminals[2];
  OpenArmature coil;
  double across_ohm;

  double feeding_emf_v(double at_coil_v) const {
    return at_coil_v * (1 + kFeedOhm * (1 / coil.ohm + 1 / across_ohm));
  }
};

// clang-format off
const Build kRelay = {"relay", "minute_relay", {"coil_a", "coil_b"},
    {120, 4600, 1.0e-4, 2.0e-3, 0.45e-3, 0.12, 1.55, 0.05}, 1500};
const Build kRewind = {"rewind", "solenoid_24v", {"plus", "minus"},
    {20, 2500, 9.8e-4, 18e-3, 0.25e-3, 0.25, 4.1, 0.3}, 390};
const Build kClock = {"secondary", "parallel_24v", {"a", "b"},
    {500, 9000, 1.2e-4, 2.5e-3, 0.40e-3, 0.12, 0.305, 0.03}, 6000};
// clang-format on

/// A relay's contact carries a lamp's worth of load, or there is none.
std::string scene_of(const Build& build) {
  const bool relay = std::string(build.type) == "relay";
  const char* far_end = relay ? "  far_end: [it.contact_b, far.a]\n" : "";
  return fmt::format(R"(scene: Armature at the edge
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {{type: supply, set: {{emf: 24 V, resistance: 1 mohm}}}}
  key: {{type: switch, set: {{contact_resistance: 1 mohm}}}}
  far: {{type: resistor, set: {{resistance: 1 kohm}}}}
  it: {{type: {}, sheet: {}}}
wires:
  plus: [supply.plus, key.a, {}]
  top: [key.b, it.{}]
{}  minus: [supply.minus, it.{}, far.b]
script:
  - at 0 s: key.close
)",
                     build.type, build.sheet, relay ? "it.contact_a" : "far.a", build.terminals[0],
                     far_end, build.terminals[1]);
}

bool comes_in(const Build& build, double at_coil_v, std::vector<std::string> set) {
  set.push_back(fmt::format("supply.emf={:.9f} V", build.feeding_emf_v(at_coil_v)));
  Trial trial(scene_of(build), set);
  trial.run_to(5);
  return trial.when("it", "seats").has_value();
}

void expect_pull_in(const Build& sound, const Build& build, const std::vector<std::string>& set) {
  SCOPED_TRACE(fmt::format("{} {}", build.type, set.empty() ? "unchanged" : set.front()));
  const double volts = build.coil.pull_in_v();
  EXPECT_FALSE(comes_in(build, kUnder * volts, set)) << volts;
  EXPECT_TRUE(comes_in(build, kOver * volts, set)) << volts;
  if (set.empty()) return;
  EXPECT_GT(std::fabs(volts / sound.coil.pull_in_v() - 1), 5 * (kOver - 1)) << "moves too little";
}

using Cause = std::function<std::string(OpenArmature&)>;

/// What to change, and how it is asked for.
const Cause kCauses[] = {
    [](OpenArmature& b) { return fmt::format("it.turns={}", b.turns *= 1.1); },
    [](OpenArmature& b) { return fmt::format("it.stroke={} mm", 1e3 * (b.stroke_m *= 1.15)); },
    [](OpenArmature& b) { return fmt::format("it.preload={} N", b.preload_n *= 1.2); },
    [](OpenArmature& b) { return fmt::format("it.pole_area={} cm2", 1e4 * (b.area_m2 *= 1.3)); },
    [](OpenArmature& b) {
      b.ohm *= 1.1572;  // WIRE-20: copper at 60 degC
      return std::string("it.temperature=60 degC");
    }};

void expect_each_cause_counts(const Build& sound) {
  expect_pull_in(sound, sound, {});
  for (const Cause& cause : kCauses) {
    Build changed = sound;
    const std::string set = cause(changed.coil);
    expect_pull_in(sound, changed, {set});
  }
}

TEST(PullInByCauseTest, RelayNeedsTheVoltsReckoned) { expect_each_cause_counts(kRelay); }
TEST(PullInByCauseTest, RewindNeedsTheVoltsReckoned) { expect_each_cause_counts(kRewind); }
TEST(PullInByCauseTest, ClockNeedsTheVoltsReckoned) { expect_each_cause_counts(kClock); }

// Three causes at once: they multiply, they do not add.
TEST(PullInByCauseTest, CausesWorkTogether) {
  for (const Build& sound : {kRelay, kRewind, kClock}) {
    Build changed = sound;
    std::vector<std::string> set;
    for (const Cause& cause : kCauses) set.push_back(cause(changed.coil));
    expect_pull_in(sound, changed, set);
  }
}

}  // namespace
}  // namespace sixty
