// The four figures that come out of the parts, through the built program and its --set: minutes
// the clock lives without supply, volts at a clock, strokes a second, pull-in volts. Three causes
// of each are changed, and the result must move to what is reckoned apart from the program.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"
#include "tests/reckoning/bell.hpp"
#include "tests/reckoning/clock.hpp"
#include "tests/reckoning/magnet.hpp"

namespace sixty::cli {
namespace {

using nlohmann::ordered_json;
using Sets = std::vector<std::string>;

const char* const kBell = R"(scene: Bell on the bench
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 1 mohm}}
  key: {type: switch, set: {contact_resistance: 1 mohm}}
  bell: {type: bell, sheet: bell_24v, set: {film: 0 ohm, rings_from: 0 m/s}}
  coil: {type: coil, sheet: relay_coil}
wires:
  plus: [supply.plus, key.a]
  feed: [key.b, bell.plus]
  minus: [supply.minus, bell.minus, coil.a, coil.b]
script:
  - at 0 s: key.close
)";

class CausesTest : public FolderTest {
 protected:
  void SetUp() override {
    FolderTest::SetUp();
    std::ostringstream text;
    text << std::ifstream(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml").rdbuf();
    std::string yaml = text.str();
    yaml.replace(yaml.find("seed: 1"), 7, "spread: 0");
    put("installation.yaml", yaml);
    put("bell.yaml", kBell);
  }

  ordered_json run(const std::string& scene, const std::string& span, const Sets& sets,
                   Sets words = {}) const {
    words.insert(words.begin(), {"run", path(scene), "--for", span, "--json"});
    for (const std::string& set : sets) words.insert(words.end(), {"--set", set});
    const Ended ended = run_program_with(std::move(words));
    EXPECT_EQ(ended.code, 0) << ended.err;
    return ordered_json::parse(ended.out);
  }

  void expect_beats(const ClockReckoning& r, Sets sets) const {
    sets.emplace_back("supply.emf=0.1 V");
    EXPECT_EQ(run("installation.yaml", "1h", sets)["beats"], r.unwound().beats) << sets.front();
  }

  /// Volts at the workshop's clock at second 36, by the sampled trace.
  double clock_volts(const Sets& sets) const {
    run("installation.yaml", "37s", sets,
        {"--trace", path("t.csv"), "--signals", "workshop_clock.volts", "--sample", "36s"});
    std::string last;
    std::istringstream lines(get("t.csv"));
    for (std::string line; std::getline(lines, line);) {
      if (line.rfind("36.000000000,,", 0) == 0) last = line.substr(line.rfind(',') + 1);
    }
    EXPECT_NE(last, "");
    return last.empty() ? 0 : std::stod(last);
  }

  double strokes(const Sets& sets) const {
    return run("bell.yaml", "20s", sets)["bells"][0]["strokes"].get<double>() / 20;
  }
};

TEST_F(CausesTest, MoveTheMinutesThatTheClockLives) {
  ClockReckoning sound;
  sound.teeth = 1775.0 / 60;
  sound.first_second = 0;
  sound.length_m -= 0.390e-3;  // by the turns of its nut
  ClockReckoning r = sound;
  expect_beats(r, {"supply.resistance=0.3 ohm"});
  r.stiffness = 8e-3;
  expect_beats(r, {"rewind.stiffness=8 mN.m/rad"});
  r = sound;
  r.train = 0.5;
  expect_beats(r, {"movement.train_efficiency=0.5"});
  r = sound;
  r.friction = 0.3;
  expect_beats(r, {"arm_a.friction=0.3", "ring_timing.friction=0.3", "arm_b.friction=0.3"});
  r = sound;
  r.q = 1500;
  expect_beats(r, {"movement.quality_factor=1500"});
}

/// The minimal installation's line at second 36: two clocks behind two runs of 1 mm2, the relay's
/// coil on the supply beside it. Contacts are set to nothing but the metal's own; what they leave
/// is far below a millivolt. Source: Ohm's law; copper 58e6 S/m (WIRE-10).
struct TwoClocks {
  double emf_v = 24, source_ohm = 0.3, near_m = 30, far_m = 60, mm2 = 1, warmth = 1;
  double at_far_clock_v() const {
    const double clock = 500.0 * 6000 / 6500;
    const double metre = 2 / 58.0 / mm2 * warmth;
    const double far_branch = far_m * metre + clock;
    const double both = 1 / (1 / clock + 1 / far_branch);
    const double line = near_m * metre + both;
    const double all = 1 / (1 / line + 1620 / (120.0 * 1500));
    const double supply = emf_v * all / (all + source_ohm);
    return supply * both / line * clock / far_branch;
  }
};

TEST_F(CausesTest, MoveTheVoltsAtAClock) {
  const Sets bare = {"minute_relay.film=0 ohm",         "arm_b.film=0 ohm",
                     "clock_switch.film=0 ohm",         "minute_relay.contact_force=10 N",
                     "clock_switch.contact_force=10 N", "clock_switch.contact_resistance=1 mohm"};
  const auto expect = [&](const TwoClocks& line, Sets sets) {
    sets.insert(sets.end(), bare.begin(), bare.end());
    EXPECT_NEAR(clock_volts(sets), line.at_far_clock_v(), 0.002) << sets.front();
  };
  TwoClocks line;
  expect(line, {"supply.emf=24 V"});
  line.far_m = 600;
  expect(line, {"line_far.length=600 m"});
  line = {};
  line.source_ohm = 3;
  expect(line, {"supply.resistance=3 ohm"});
  line = {};
  line.mm2 = 0.2;
  expect(line, {"line_near.cross_section=0.2 mm2", "line_far.cross_section=0.2 mm2"});
  line.warmth = 1.1572;  // WIRE-20
  expect(line, {"line_near.temperature=60 degC", "line_far.temperature=60 degC",
                "line_near.cross_section=0.2 mm2", "line_far.cross_section=0.2 mm2"});
}

TEST_F(CausesTest, MoveTheStrokesASecond) {
  // One stroke in 20 s more or less, and a quarter of a per cent for the steps of the reckoning.
  const auto expect = [&](const BellReckoning& bell, const std::string& set) {
    const double pace = bell.ring(20).strokes_per_s;
    EXPECT_NEAR(strokes({set}), pace, 0.05 + 0.0025 * pace) << set;
  };
  BellReckoning bell;
  expect(bell, "supply.emf=24 V");
  bell.mass_kg = 0.25;
  expect(bell, "bell.moving_mass=0.25 kg");
  bell = {};
  bell.rate_n_per_m = 250;
  expect(bell, "bell.rate=250 N/m");
  bell = {};
  bell.emf_v = 16;
  expect(bell, "supply.emf=16 V");
}

TEST_F(CausesTest, MoveThePullInVolts) {
  const OpenArmature sound = {120, 4600, 1e-4, 2e-3, 0.45e-3, 0.12, 1.55, 0.05};
  const auto expect = [&](const OpenArmature& coil, const std::string& set) {
    const double volts = run("bell.yaml", "0s", {set})["coils"][0]["pull_in_v"].get<double>();
    EXPECT_NEAR(volts, coil.pull_in_v(), 1e-6 * volts) << set;
  };
  OpenArmature coil = sound;
  expect(coil, "coil.turns=4600");
  coil.turns = 5000;
  expect(coil, "coil.turns=5000");
  coil = sound;
  coil.stroke_m = 2.4e-3;
  expect(coil, "coil.stroke=2.4 mm");
  coil = sound;
  coil.preload_n = 1.8;
  expect(coil, "coil.preload=1.8 N");
  coil = sound;
  coil.ohm *= 1.1572;  // WIRE-20
  expect(coil, "coil.temperature=60 degC");
}

}  // namespace
}  // namespace sixty::cli
