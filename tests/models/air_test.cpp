// What warm, damp and old air does to copper, contacts and paper.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/program_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kDay_s = 86400;

/// A scene that has air with these values, `air`; then its other parts and wires.
std::string in_air(const std::string& set, const std::string& others) {
  return fmt::format(R"(scene: In air
start: 2026-01-01T00:00:00
spread: 0
parts:
  air: {{type: climate, set: {{{}}}}}
{})",
                     set, others);
}

/// A coil of 100 ohm behind 100 m there and back of 1 mm2, all in the same air.
std::string coil_in_air(const std::string& set) {
  return in_air(set, R"(
  supply: {type: supply, set: {emf: 24 V, resistance: 0.5 ohm}}
  run:
    type: wire
    set: {length: 100 m, cross_section: 1 mm2, conductors: 2}
    connect: {surroundings: air.air}
  coil:
    type: coil
    set: {resistance: 100 ohm, inductance: 0.1 H}
    connect: {surroundings: air.air}
wires:
  out: [supply.plus, run.a]
  far: [run.b, coil.a]
  back: [coil.b, supply.minus]
)");
}

// COIL-03: copper grows by 0.393 % of its resistance at 20 degC with each kelvin (IEC 60028).
TEST(CopperInAirTest, CoilAndRunResistAsTheWarmthOfTheAirSays) {
  const auto resistances = [](const std::string& temperature) {
    Trial trial(coil_in_air("temperature: " + temperature));
    trial.run_to(60);
    const double current_a = trial.read("coil.current");
    return std::pair{trial.read("coil.volts") / current_a, trial.read("run.resistance")};
  };
  const auto [mild_ohm, mild_run_ohm] = resistances("20 degC");
  EXPECT_NEAR(mild_ohm, 100, 0.001);
  EXPECT_NEAR(mild_run_ohm, 200 / 58.0, 0.001);  // WIRE-01: 58 m/(ohm mm2)
  for (const auto& [celsius, factor] :
       {std::pair{"45 degC", 1 + 0.00393 * 25}, {"-10 degC", 1 - 0.00393 * 30}}) {
    const auto [ohm, run_ohm] = resistances(celsius);
    EXPECT_NEAR(ohm / mild_ohm, factor, 1e-4) << celsius;
    EXPECT_NEAR(run_ohm / mild_run_ohm, factor, 1e-4) << celsius;
  }
}

TEST(CopperInAirTest, FollowsWhenTheHeatingIsTurnedOn) {
  Trial trial(coil_in_air("temperature: 5 degC") +
              "script:\n  - at 1 h: air.set_temperature 25 degC\n");
  trial.run_to(1800);
  const double cold_a = trial.read("coil.current");
  trial.run_to(3601);
  EXPECT_NEAR(cold_a / trial.read("coil.current"), (1 + 0.00393 * 5) / (1 - 0.00393 * 15), 0.002);
}

// A whole installation whose copper and contacts are in the air of an unheated mill.
TEST(CopperInAirTest, RelayPullsInLaterWhereItIsWarm) {
  const auto pulls_in_v = [](const std::string& temperature) {
    std::string yaml = bench_minimal();
    const std::string relay = "minute_relay: {type: relay, sheet: minute_relay}";
    yaml.replace(yaml.find(relay), relay.size(),
                 "minute_relay: {type: relay, sheet: minute_relay, connect: {surroundings: "
                 "air.air}}");
    yaml.insert(yaml.find("  movement:"),
                "  air: {type: climate, set: {temperature: " + temperature + "}}\n");
    Trial trial(yaml);
    trial.run_to(1);
    return trial.read("minute_relay.pull_in_volts");
  };
  EXPECT_NEAR(pulls_in_v("40 degC") / pulls_in_v("20 degC"), 1 + 0.00393 * 20, 1e-4);
}

/// A contact on a switch's hand with a film that doubles in 60 days of ordinary air.
std::string contact_in_air(const std::string& set, const std::string& script) {
  return in_air(set, R"(
  supply: {type: supply, set: {emf: 10 V, resistance: 0.001 ohm}}
  key:
    type: switch
    set: {contact_resistance: 1 mohm, film: 30 mohm, film_spread: 0, film_doubles: 60 d}
    connect: {surroundings: air.air}
  load: {type: resistor, set: {resistance: 100 ohm}}
wires:
  a: [supply.plus, key.a]
  b: [key.b, load.a]
  c: [load.b, supply.minus]
script:
)" + script);
}

double key_ohm(Trial& trial) { return trial.read("key.volts") / trial.read("key.current"); }

TEST(FilmInAirTest, GrowsUntilItIsCleaned) {
  Trial trial(contact_in_air("humidity: 0.5",
                             "  - at 1 h: key.hold 1 h\n"
                             "  - at 121 d: key.hold 1 h\n"
                             "  - at 122 d: key.clean\n"
                             "  - at 123 d: key.hold 1 h\n"
                             "  - at 184 d: key.hold 1 h\n"));
  trial.run_to(1.5 * 3600);
  EXPECT_NEAR(key_ohm(trial), 0.031, 1e-5);
  trial.run_to(121 * kDay_s + 1800);
  EXPECT_NEAR(key_ohm(trial), 0.001 + 4 * 0.030, 1e-5);
  trial.run_to(123 * kDay_s + 1800);
  EXPECT_NEAR(key_ohm(trial), 0.001 + 0.015, 1e-5);
  trial.run_to(184 * kDay_s + 1800);
  EXPECT_NEAR(key_ohm(trial), 0.001 + 2 * 0.015, 1e-5);
}

// Ten kelvins more and twice as damp: four times as fast; told in steps of 30 days of exposure.
TEST(FilmInAirTest, GrowsFasterWhereItIsWarmAndDamp) {
  Trial trial(contact_in_air("temperature: 30 degC, humidity: 1", "  - at 31 d: key.hold 1 h\n"));
  trial.run_to(31 * kDay_s + 1800);
  EXPECT_NEAR(trial.read("air.exposure"), 120 * kDay_s, 1);
  EXPECT_NEAR(key_ohm(trial), 0.001 + 4 * 0.030, 1e-5);
}

// In air of 49.85 degC that is all damp a month of exposure has gone by after 1.9 days.
TEST(FilmInAirTest, GrowsOnTheContactsOfAMasterToo) {
  const auto arm_ohm = [](const std::string& doubles) {
    std::string yaml = bench_minimal();
    const std::string arm = "set: {makes_at: 5 beat, dwell: 2 beat";
    yaml.insert(yaml.find(arm) + arm.size(), ", film_doubles: " + doubles);
    const std::string mounted = "connect: {mounted_on: movement.escape_arbor";
    yaml.insert(yaml.find(mounted) + mounted.size(), ", surroundings: air.air");
    yaml.insert(yaml.find("  movement:"),
                "  air: {type: climate, set: {temperature: 323 K, humidity: 1}}\n");
    Trial trial(yaml);
    trial.session().set_sink(nullptr);
    trial.run_to(2 * kDay_s + 6);
    return trial.read("arm_a.resistance");
  };
  const double film_ohm = 0.015;
  EXPECT_NEAR(arm_ohm("30 d") - arm_ohm("0 s"), film_ohm, 0.05 * film_ohm);
}

/// Four columns, each with a hole at 08:00; the ring-timing contact feeds the drum.
ProgramScene punched() {
  ProgramScene s;
  s.start = "2026-01-05T07:58:00";
  s.tape =
      "        punched: [\"08:00 1-4\"]\n"
      "        growth_when_damp: 0.05\n";
  s.pins =
      "[{zone: 1, at: [Mon]}, {zone: 2, at: [Mon]}, {zone: 3, at: [Mon]}, {zone: 4, at: [Mon]}]";
  return s;
}

std::string zones_that_ring(const std::string& humidity, const std::string& off = "0 mm") {
  std::string yaml = yaml_of(punched());
  yaml.replace(yaml.find("connect: {step: rewind.tape_row}"), 32,
               "connect: {step: rewind.tape_row, surroundings: air.air}");
  yaml.insert(yaml.find("  movement:"),
              "  air: {type: climate, set: {humidity: " + humidity + "}}\n");
  Trial trial(yaml, {"tape.out_of_line_across=" + off});
  trial.run_to(180);
  std::string zones;
  for (const char* zone : {"1", "2", "3", "4"}) {
    if (trial.count(std::string("relay_") + zone, "makes") > 0) zones += zone;
  }
  return zones;
}

// The fingers' play is 0.5 mm. Column n lies 8 mm + 6 mm (n - 1) from the edge; from 50 to 100 %
// the paper is wider by 2.5 %, column 4 thus off by 0.65 mm and column 3 by 0.5 mm.
TEST(PaperInAirTest, GrowsAwayFromTheFingersThatAreFarthestFromItsEdge) {
  EXPECT_EQ(zones_that_ring("0.5"), "1234");
  EXPECT_EQ(zones_that_ring("0.85"), "1234");
  EXPECT_EQ(zones_that_ring("0.95"), "123");
  EXPECT_EQ(zones_that_ring("0.1"), "123");
}

TEST(PaperInAirTest, FingersOutOfLineAcrossFindNothing) {
  EXPECT_EQ(zones_that_ring("0.5", "0.6 mm"), "");
  EXPECT_EQ(zones_that_ring("0.8", "0.65 mm"), "234");
}

}  // namespace
}  // namespace sixty
