// The plain parts of the bench: what they read, what they report, what they refuse.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::HasSubstr;

/// A scene of two parts on a bench supply; `part` is joined between key and minus.
std::string with(const std::string& part, const std::string& a, const std::string& b) {
  return R"(scene: Bench
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  key: {type: switch, sheet: bench_switch}
  it: )" +
         part +
         R"(
wires:
  plus: [supply.plus, key.a]
  top: [key.b, it.)" +
         a + R"(]
  minus: [it.)" +
         b +
         R"(, supply.minus]
script:
  - at 1 s: key.close
  - at 3 s: key.open
)";
}

const Row* row_of(const Report& report, const std::string& section, std::size_t number = 0) {
  for (const Report::Section& s : report.sections()) {
    if (s.name == section && number < s.rows.size()) return &s.rows[number];
  }
  return nullptr;
}

double cell(const Row& row, const std::string& key) {
  for (const Cell& c : row.cells()) {
    if (c.key != key) continue;
    if (const auto* number = std::get_if<double>(&c.value)) return *number;
    if (const auto* whole = std::get_if<std::int64_t>(&c.value)) return static_cast<double>(*whole);
  }
  ADD_FAILURE() << "no number " << key;
  return 0;
}

TEST(SupplyTest, SagsByItsResistanceAndCountsTheCharge) {
  Trial trial(with("{type: resistor, set: {resistance: 7.68 ohm}}", "a", "b"));
  trial.run_to(2);
  EXPECT_NEAR(trial.read("supply.current"), 3, 1e-9);  // 24 V over 0.3 + 0.02 + 7.68 ohm
  EXPECT_NEAR(trial.read("supply.volts"), 23.1, 1e-9);
  EXPECT_NEAR(trial.read("it.power"), 9 * 7.68, 1e-6);
  trial.run_to(5);
  EXPECT_NEAR(trial.read("supply.charge"), 6, 1e-6);
  const Report report = trial.session().report();
  for (const char* section : {"supply", "supplies"}) {
    const Row* row = row_of(report, section);
    ASSERT_NE(row, nullptr);
    EXPECT_NEAR(cell(*row, "min_v"), 23.1, 1e-9);
    EXPECT_NEAR(cell(*row, "max_a"), 3, 1e-9);
    EXPECT_NEAR(cell(*row, "charge_ah"), 6.0 / 3600, 1e-9);
  }
}

TEST(SupplyTest, FirstOfSeveralIsTheOneOfTheReport) {
  const char* scene = R"(scene: Two supplies
start: 2026-01-05T00:00:00
parts:
  one: {type: supply, set: {emf: 12 V, resistance: 1 ohm}}
  two: {type: supply, set: {emf: 6 V, resistance: 1 ohm}}
  load: {type: resistor, set: {resistance: 5 ohm}}
  other: {type: resistor, set: {resistance: 2 ohm}}
wires:
  a: [one.plus, load.a]
  b: [one.minus, load.b]
  c: [two.plus, other.a]
  d: [two.minus, other.b]
)";
  Trial trial(scene);
  trial.run_to(10);
  const Report report = trial.session().report();
  EXPECT_NEAR(cell(*row_of(report, "supply"), "max_a"), 2, 1e-9);
  EXPECT_NEAR(cell(*row_of(report, "supplies", 0), "max_a"), 2, 1e-9);
  EXPECT_NEAR(cell(*row_of(report, "supplies", 1), "max_a"), 2, 1e-9);
  EXPECT_NEAR(cell(*row_of(report, "supplies", 1), "min_v"), 4, 1e-9);
}

TEST(SupplyTest, OneThatIsChargedTellsTheCurrentDrivenBackIntoIt) {
  Trial trial(R"(scene: Charged
start: 2026-01-05T00:00:00
parts:
  strong: {type: supply, set: {emf: 24 V, resistance: 1 ohm}}
  weak: {type: supply, set: {emf: 12 V, resistance: 1 ohm}}
  load: {type: resistor, set: {resistance: 10 ohm}}
wires:
  plus: [strong.plus, weak.plus, load.a]
  minus: [strong.minus, weak.minus, load.b]
)");
  trial.run_to(10);
  const Report report = trial.session().report();
  const double volts = 36 / 2.1;  // the sum of the currents into the node is nothing
  EXPECT_NEAR(cell(*row_of(report, "supplies", 0), "max_a"), 24 - volts, 1e-9);
  EXPECT_NEAR(cell(*row_of(report, "supplies", 1), "max_a"), 12 - volts, 1e-9);
  EXPECT_NEAR(cell(*row_of(report, "supplies", 1), "min_v"), volts, 1e-9);
}

TEST(SupplyTest, TellsTheVoltsOfARunThatHasNotBegun) {
  Trial trial(with("{type: resistor, set: {resistance: 7.68 ohm}}", "a", "b"));
  EXPECT_NEAR(cell(*row_of(trial.session().report(), "supply"), "min_v"), 24, 1e-9);
}

TEST(SwitchTest, OpensAndClosesByCommandOnly) {
  Trial trial(with("{type: resistor, set: {resistance: 100 ohm}}", "a", "b"));
  trial.run_to(0.9);
  EXPECT_EQ(trial.read("key.closed"), 0);
  EXPECT_EQ(trial.read("key.current"), 0);
  trial.run_to(2);
  EXPECT_EQ(trial.read("key.closed"), 1);
  EXPECT_NEAR(trial.read("key.current"), 24 / 100.32, 1e-9);
  trial.run_to(4);
  EXPECT_EQ(trial.read("key.closed"), 0);
}

TEST(SwitchTest, MayStartClosed) {
  Trial trial(with("{type: resistor, set: {resistance: 100 ohm}}", "a", "b"),
              {"key.starts=closed"});
  trial.run_to(0.5);
  EXPECT_EQ(trial.read("key.closed"), 1);
  trial.run_to(1.5);
  EXPECT_NEAR(trial.read("it.volts"), 24 / 100.32 * 100, 1e-9);
}

TEST(SwitchTest, ClosingAClosedOneFails) {
  Trial trial(with("{type: resistor, set: {resistance: 100 ohm}}", "a", "b"),
              {"key.starts=closed"});
  trial.run_to(1.5);
  for (const Trial::Happened& h : trial.events()) {
    if (h.kind == "close") {
      EXPECT_FALSE(h.acted);
    }
  }
}

TEST(SwitchTest, SparksWhenItIsToldTo) {
  const std::string coil =
      "{type: coil, set: {resistance: 20 ohm, inductance: 0.2 H, shunt: 390 ohm}}";
  Trial quiet(with(coil, "a", "b"));
  quiet.run_to(5);
  EXPECT_EQ(quiet.read("key.spark_energy"), 0);
  Trial sparking(with(coil, "a", "b"), {"key.sparks=yes"});
  sparking.run_to(5);
  EXPECT_GT(sparking.read("key.spark_energy"), 0);
  EXPECT_EQ(sparking.count("key", "spark_ends"), 1u);
}

TEST(SwitchTest, CarriesInItsSparkWhatItsSupplyGives) {
  Trial trial(with("{type: coil, set: {resistance: 20 ohm, inductance: 2 H}}", "a", "b"),
              {"key.sparks=yes"});
  trial.run_to(3.01);
  EXPECT_EQ(trial.read("key.closed"), 1);
  EXPECT_GT(trial.read("supply.current"), 0.5);
  EXPECT_NEAR(trial.read("key.current"), trial.read("supply.current"), 1e-6);
}

TEST(CapacitorTest, ChargesByItsTimeConstant) {
  Trial trial(
      with("{type: capacitor, set: {capacitance: 1000 uF, resistance: 999.68 ohm}}", "a", "b"));
  trial.run_to(2);
  EXPECT_NEAR(trial.read("it.charged"), 24 * (1 - std::exp(-1.0)), 1e-3);
  EXPECT_NEAR(trial.read("it.current"), 0.024 * std::exp(-1.0), 1e-6);
  trial.run_to(5);
  EXPECT_NEAR(trial.read("it.charged"), 24 * (1 - std::exp(-2.0)), 1e-3);  // kept when opened
}

TEST(DiodeTest, ConductsOneWay) {
  const std::string diode = "{type: diode, set: {resistance: 100 ohm, forward_drop: 0.7 V}}";
  Trial forward(with(diode, "anode", "cathode"));
  forward.run_to(2);
  EXPECT_NEAR(forward.read("it.current"), 23.3 / 100.32, 1e-6);
  Trial backward(with(diode, "cathode", "anode"));
  backward.run_to(2);
  EXPECT_EQ(backward.read("it.current"), 0);
  EXPECT_NEAR(backward.read("it.volts"), -24, 1e-6);
}

/// A diode on a bench supply, with more parts and wires.
std::string diode_bench(const std::string& parts, const std::string& wires) {
  return R"(scene: Diode
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 0.3 ohm}}
  it: {type: diode, set: {resistance: 0.1 ohm, forward_drop: 0.7 V}}
)" + parts +
         "wires:\n" + wires + "  plus: [supply.plus, it.anode]\n";
}

TEST(DiodeTest, CarriesNothingIntoADeadEnd) {
  Trial trial(
      diode_bench("  load: {type: resistor, set: {resistance: 10 ohm}}\n"
                  "  key: {type: switch, sheet: bench_switch}\n",
                  "  top: [it.cathode, load.a]\n  low: [load.b, key.a]\n"
                  "  minus: [key.b, supply.minus]\n"));
  trial.run_to(1);
  EXPECT_NEAR(trial.read("supply.current"), 0, 1e-12);
  EXPECT_NEAR(trial.read("it.current"), 0, 1e-12);
}

TEST(DiodeTest, CarriesNothingIntoACircuitThatLeadsNothingBack) {
  Trial trial(
      diode_bench("  other: {type: supply, set: {emf: 12 V, resistance: 0.3 ohm}}\n"
                  "  end: {type: resistor, set: {resistance: 10 ohm}}\n"
                  "  load: {type: resistor, set: {resistance: 10 ohm}}\n",
                  "  minus: [supply.minus, end.a]\n  low: [other.minus, load.b]\n"
                  "  top: [it.cathode, other.plus, load.a]\n"));
  trial.run_to(1);
  EXPECT_NEAR(trial.read("supply.current"), 0, 1e-12);
  EXPECT_NEAR(trial.read("it.current"), 0, 1e-12);
}

TEST(DiodeTest, CarriesWhatItsSupplyDelivers) {
  Trial trial(
      diode_bench("  coil: {type: coil, sheet: relay_coil}\n"
                  "  relay: {type: relay, sheet: minute_relay}\n",
                  "  top: [it.cathode, coil.a, relay.coil_a]\n"
                  "  minus: [supply.minus, coil.b, relay.coil_b]\n"));
  for (const double t : {0.001, 0.005, 0.02, 0.5}) {
    trial.run_to(t);
    EXPECT_GT(trial.read("it.current"), 0) << t;
    EXPECT_NEAR(trial.read("it.current"), trial.read("supply.current"), 1e-9) << t;
  }
}

TEST(WireTest, ThicknessMissingIsRefused) {
  EXPECT_THAT(mistakes_of(with("{type: wire, set: {length: 3 m}}", "a", "b")),
              HasSubstr("thickness is missing"));
}

TEST(WireTest, ThicknessGivenTwiceIsRefused) {
  EXPECT_THAT(mistakes_of(with("{type: wire, sheet: awg_18, set: {length: 3 m, cross_section: "
                               "1 mm2}}",
                               "a", "b")),
              HasSubstr("thickness is given twice"));
}

TEST(WireTest, TwoConductorsAreTwiceOne) {
  Trial trial(
      with("{type: wire, sheet: clock_line, set: {length: 58 m, conductors: 2, joints: 5, "
           "joint_resistance: 100 mohm}}",
           "a", "b"));
  EXPECT_NEAR(trial.read("it.resistance"), 2.5, 1e-9);  // WIRE-10: 58 m of 1 mm2 are 1 ohm
}

TEST(CoilPartTest, FixedInductanceRises) {
  Trial trial(with("{type: coil, set: {resistance: 47.68 ohm, inductance: 1 H}}", "a", "b"));
  trial.run_to(1.01);
  EXPECT_NEAR(trial.read("it.current"), 0.19060830410, 1e-5);  // MAG-09
}

TEST(CoilPartTest, NeitherInductanceNorMagnetIsRefused) {
  EXPECT_THAT(mistakes_of(with("{type: coil, set: {resistance: 50 ohm}}", "a", "b")),
              HasSubstr("neither inductance nor magnet"));
}

TEST(CoilPartTest, BothInductanceAndMagnetIsRefused) {
  EXPECT_THAT(
      mistakes_of(with("{type: coil, sheet: relay_coil, set: {inductance: 1 H}}", "a", "b")),
      HasSubstr("both a fixed inductance and a magnet"));
}

TEST(CoilPartTest, ArmatureOnAFixedInductanceIsRefused) {
  EXPECT_THAT(mistakes_of(with("{type: coil, set: {resistance: 50 ohm, inductance: 1 H, stroke: "
                               "2 mm, moving_mass: 9 g}}",
                               "a", "b")),
              HasSubstr("a fixed inductance pulls no armature"));
}

TEST(CoilPartTest, SecondSpringBeyondTheStrokeIsRefused) {
  EXPECT_THAT(
      mistakes_of(with("{type: coil, sheet: relay_coil, set: {second_gap: 3 mm}}", "a", "b")),
      HasSubstr("the second spring is met before the armature has moved"));
}

TEST(CoilPartTest, ReportsPullInAndStrokes) {
  Trial trial(with("{type: coil, sheet: relay_coil}", "a", "b"));
  trial.run_to(4);
  const Report report = trial.session().report();
  const Row* row = row_of(report, "coils");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(cell(*row, "strokes"), 1);
  EXPECT_EQ(cell(*row, "held"), 0);
  EXPECT_NEAR(cell(*row, "pull_in_v"), 14.6, 0.05 * 14.6);
}

}  // namespace
}  // namespace sixty
