// Published and derived figures of copper wire, row by row, measured at the wire as a part.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kKft = 304.8;  // m

/// Resistance of a wire described by changes to it. Units: ohm.
double ohm_of(const std::string& set, double celsius = 20) {
  Trial trial(R"(scene: A length of wire
start: 2026-01-05T00:00:00
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 1 ohm}}
  run: {type: wire, set: {)" +
              set +
              fmt::format(R"(, temperature: {} degC}}}}
wires:
  plus: [supply.plus, run.a]
  minus: [run.b, supply.minus]
)",
                          celsius));
  trial.run_to(0.1);
  const double by_ohms_law = trial.read("run.drop") / trial.read("supply.current");
  EXPECT_NEAR(trial.read("run.resistance"), by_ohms_law, 1e-6 * by_ohms_law);
  return trial.read("run.resistance");
}

double gauge_ohm(int gauge, double celsius) {
  return ohm_of(fmt::format("awg: {}, length: {} m", gauge, kKft), celsius);
}

struct Row {
  const char* id;
  int gauge;
  double printed, formula;
};

// Ohms per thousand feet, published: NBS Circular 31 and Handbook 100, in the wire table of the
// HyperPhysics pages (Georgia State University); +-0.1 %. What the formula gives: derived.
TEST(PublishedWireTest, TableAtTwentyDegrees) {
  const Row rows[] = {{"WIRE-03", 10, 0.9989, 0.99886289}, {"WIRE-04", 12, 1.588, 1.5882542},
                      {"WIRE-05", 14, 2.525, 2.5254231},   {"WIRE-06", 16, 4.016, 4.0155800},
                      {"WIRE-07", 18, 6.385, 6.3850223},   {"WIRE-08", 20, 10.15, 10.152583},
                      {"WIRE-09", 22, 16.14, 16.143240}};
  for (const Row& row : rows) {
    const double ohm = gauge_ohm(row.gauge, 20);
    EXPECT_NEAR(ohm, row.printed, 0.001 * row.printed) << row.id;
    EXPECT_NEAR(ohm, row.formula, 1e-7 * row.formula) << row.id;
  }
}

// Solid, ohms per thousand feet, published: NFPA 70, chapter 9, table 8; +-0.5 % of print.
TEST(PublishedWireTest, TableAtSeventyFiveDegrees) {
  const Row rows[] = {{"WIRE-14", 18, 7.77, 7.7651449},
                      {"WIRE-15", 16, 4.89, 0},
                      {"WIRE-16", 14, 3.07, 0},
                      {"WIRE-17", 12, 1.93, 1.9315553},
                      {"WIRE-18", 10, 1.21, 0}};
  for (const Row& row : rows) {
    const double ohm = gauge_ohm(row.gauge, 75);
    EXPECT_NEAR(ohm, row.printed, 0.005 * row.printed) << row.id;
    EXPECT_NEAR(ohm / gauge_ohm(row.gauge, 20), 1.21615, 1e-9) << "WIRE-19";
    if (row.formula > 0) {
      EXPECT_NEAR(ohm, row.formula, 1e-7 * row.formula) << "WIRE-19";
    }
  }
}

// WIRE-10 published (IEC 60028): 58 m of 1 mm2 are an ohm. WIRE-11 published there, WIRE-20 and
// WIRE-21 derived: 0.00393 a degree of what it is at 20 degC.
TEST(PublishedWireTest, StandardCopper) {
  const std::string metre = "cross_section: 1 mm2, length: 1 m";
  EXPECT_NEAR(ohm_of(metre), 0.017241379, 1e-9) << "WIRE-10";
  const std::string ohm = "cross_section: 1 mm2, length: 58 m";
  EXPECT_NEAR(ohm_of(ohm, 21) - ohm_of(ohm), 0.00393, 1e-9) << "WIRE-11";
  const std::pair<double, double> factors[] = {{0, 0.9214}, {40, 1.0786}, {60, 1.1572}};
  for (const auto& [celsius, factor] : factors) {
    EXPECT_NEAR(ohm_of(ohm, celsius), factor, 1e-9) << "WIRE-20";
  }
  // A straight line through two temperatures meets nothing at 234.45 degrees below zero.
  const double slope = (ohm_of(ohm, 60) - ohm_of(ohm)) / 40;
  EXPECT_NEAR(20 - 1 / slope, -234.45292621, 1e-6) << "WIRE-21";
}

// WIRE-12 published (NBS Circular 31): 0.15328 ohm g/m2 at 8.89 g/cm3, +-0.01 %. WIRE-13, there
// too: 10.37 ohm circular mil a foot (exact form 10.371215406, derived).
TEST(PublishedWireTest, OldUnitsOfCopper) {
  const double area_mm2 = 1e-3 / 8890 * 1e6;  // a metre that weighs a gram
  EXPECT_NEAR(ohm_of(fmt::format("cross_section: {:.12f} mm2, length: 1 m", area_mm2)), 0.15328,
              1e-4 * 0.15328)
      << "WIRE-12";
  const double mils = 1000 * 506.7074790975e-6;  // mm2: a thousand circular mils
  const double thousand = ohm_of(fmt::format("cross_section: {:.12f} mm2, length: 304.8 m", mils));
  EXPECT_NEAR(thousand, 10.371215406, 1e-8) << "WIRE-13";
  EXPECT_NEAR(thousand, 10.37, 2e-4 * 10.37) << "WIRE-13";
}

// WIRE-01, WIRE-02: gauges by ASTM B258; a step of the diameters is 1.1229321965, so resistances go
// by its square; six steps 2.0050315195; gauge 36 is 5 mils, 4/0 460 mils thick (exact).
TEST(PublishedWireTest, GaugesGoByTheirSteps) {
  const double step = 1.1229321965 * 1.1229321965;
  EXPECT_NEAR(gauge_ohm(21, 20) / gauge_ohm(20, 20), step, 1e-9) << "WIRE-01";
  const double six = 2.0050315195 * 2.0050315195;
  EXPECT_NEAR(gauge_ohm(16, 20) / gauge_ohm(10, 20), six, 1e-8) << "WIRE-01";
  EXPECT_NEAR(gauge_ohm(36, 20), 10371.215406 / 25, 1e-6 * 415) << "WIRE-02";
  const double thickest = ohm_of("awg: \"0000\", length: 304.8 m");
  EXPECT_NEAR(thickest, 10371.215406 / (460.0 * 460.0), 1e-6 * 0.05) << "WIRE-02";
}

}  // namespace
}  // namespace sixty
