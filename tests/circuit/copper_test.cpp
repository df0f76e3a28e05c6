#include "sim/circuit/copper.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::circuit {
namespace {

constexpr double kFoot = 0.3048;
constexpr double kInch = 0.0254;

double diameter_in(int gauge) { return std::sqrt(awg_area_m2(gauge) / (kPi / 4)) / kInch; }
double ohm_per_kft(int gauge, double celsius) {
  return copper_ohm(1000 * kFoot, awg_area_m2(gauge), celsius + 273.15);
}

// WIRE-01, derived: step ratio of the diameters and that of six steps (ASTM B258).
TEST(CopperTest, GaugesFollowTheirRule) {
  EXPECT_NEAR(diameter_in(20) / diameter_in(21), 1.1229321965, 1e-9);
  EXPECT_NEAR(diameter_in(10) / diameter_in(16), 2.0050315195, 2e-9);
}

// WIRE-02, published: exact by definition (ASTM B258; NBS Handbook 100, 1966).
TEST(CopperTest, GaugesStandOnTheirTwoAnchors) {
  EXPECT_NEAR(diameter_in(36), 0.0050, 1e-12);
  EXPECT_NEAR(diameter_in(-3), 0.4600, 1e-10);
}

// WIRE-03 to WIRE-09, published (NBS Circular 31; wire table of the HyperPhysics pages, Georgia
// State University): inches and ohms per thousand feet at 20 degC.
TEST(CopperTest, WireTableAtTwentyDegrees) {
  const struct {
    int gauge;
    double inch, ohm;
  } rows[] = {{10, 0.10189, 0.9989}, {12, 0.0808, 1.588}, {14, 0.06408, 2.525},
              {16, 0.05082, 4.016},  {18, 0.0403, 6.385}, {20, 0.03196, 10.15},
              {22, 0.02535, 16.14}};
  for (const auto& row : rows) {
    EXPECT_NEAR(diameter_in(row.gauge), row.inch, 0.001 * row.inch) << row.gauge;
    EXPECT_NEAR(ohm_per_kft(row.gauge, 20), row.ohm, 0.001 * row.ohm) << row.gauge;
  }
  EXPECT_NEAR(ohm_per_kft(10, 20), 0.99886289, 1e-8);  // WIRE-03: what the formula gives
  EXPECT_NEAR(ohm_per_kft(22, 20), 16.143240, 1e-6);   // WIRE-09
}

// WIRE-10, published (IEC 60028): 58e6 S/m, 0.017241379 ohm mm2/m.
TEST(CopperTest, StandardConductivity) {
  EXPECT_NEAR(copper_ohm(1, 1e-6, 293.15), 0.017241379, 1e-9);
}

// WIRE-11, WIRE-20: 0.00393 a degree, of the resistance at 20 degC.
TEST(CopperTest, ResistanceGrowsWithTemperature) {
  EXPECT_NEAR(copper_factor(273.15), 0.9214, 1e-12);
  EXPECT_NEAR(copper_factor(313.15), 1.0786, 1e-12);
  EXPECT_NEAR(copper_factor(333.15), 1.1572, 1e-12);
  EXPECT_NEAR(copper_factor(273.15 - 234.45292621), 0, 1e-9);  // WIRE-21, derived
}

// WIRE-13, published (NBS Circular 31): 10.37 ohm circular mil a foot; exact form derived.
TEST(CopperTest, OldUnit) {
  const double circular_mil = kPi / 4 * (1e-3 * kInch) * (1e-3 * kInch);
  EXPECT_NEAR(copper_ohm(kFoot, circular_mil, 293.15), 10.371215406, 1e-7);
}

// WIRE-14 to WIRE-18, published (NFPA 70, chapter 9, table 8): solid, ohm per thousand feet, 75
// degC.
TEST(CopperTest, WireTableAtSeventyFiveDegrees) {
  const std::pair<int, double> rows[] = {
      {18, 7.77}, {16, 4.89}, {14, 3.07}, {12, 1.93}, {10, 1.21}};
  for (const auto& [gauge, ohm] : rows) {
    EXPECT_NEAR(ohm_per_kft(gauge, 75), ohm, 0.005 * ohm) << gauge;
  }
  EXPECT_NEAR(copper_factor(348.15), 1.21615, 1e-12);  // WIRE-19, derived
  EXPECT_NEAR(ohm_per_kft(18, 75), 7.7651449, 1e-6);
}

// WIRE-22, derived: 200 ft each way of gauge 18, 0.25 A.
TEST(CopperTest, LoopDrop) {
  EXPECT_NEAR(2 * ohm_per_kft(18, 20) * 0.2 * 0.25, 0.63850000, 0.63850000 * 1e-5);
}

}  // namespace
}  // namespace sixty::circuit
