#include "sim/circuit/magnet.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/copper.hpp"
#include "tests/circuit/bench.hpp"

namespace sixty::circuit {
namespace {

/// MAG-04, published (M. S. Sarma, Introduction to Electrical Engineering, example 12.1.1): 1800
/// turns, round core of 1.25 cm, two gaps of 0.125 cm, ideal iron.
Magnet sarma() {
  Magnet m;
  m.turns = 1800;
  m.pole_area_m2 = kPi / 4 * 0.0125 * 0.0125;
  m.residual_gap_m = 0.00125;
  return m;
}

// MAG-01, MAG-03, derived: B^2/(2 mu0) on each of the two gaps.
TEST(MagnetTest, PullIsMagneticPressureOnBothGaps) {
  Magnet m = sarma();
  m.pole_area_m2 = 1;
  EXPECT_NEAR(pull_n(m, m.turns), 2 * 397887.35773, 1e-4);  // 1 T
  m.pole_area_m2 = 1e-4;
  EXPECT_NEAR(pull_n(m, m.turns * 1e-4 * 0.5), 2 * 9.9471839432, 1e-8);
}

// MAG-05, derived.
TEST(MagnetTest, PullOfThePublishedExample) {
  const Magnet m = sarma();
  EXPECT_NEAR(m.pole_area_m2, 1.2271846303e-4, 1e-13);
  EXPECT_NEAR(flux_density_t(m, 1800, 0), 0.90477868423, 1e-9);
  EXPECT_NEAR(pull_n(m, linkage_wb(m, 1, 0, 0)), 79.943795649, 1e-6);
}

// MAG-02, published: F = (N I)^2 mu0 A/(2 g^2) for one gap; here two gaps share the ampere-turns.
TEST(MagnetTest, PullFallsWithTheSquareOfTheGap) {
  const Magnet m = sarma();
  const double near = pull_n(m, linkage_wb(m, 1, 0, 0));
  const double far = pull_n(m, linkage_wb(m, 1, 0.00125, 0));
  EXPECT_NEAR(near / far, 4, 1e-12);
  const double half_turns = 900.0;
  const double one_gap = half_turns * half_turns * kMu0 * m.pole_area_m2 / (2 * 0.00125 * 0.00125);
  EXPECT_NEAR(near, 2 * one_gap, 1e-9);
}

// MAG-06, derived.
TEST(MagnetTest, InductanceAndEnergyOfThePublishedExample) {
  const Magnet m = sarma();
  const double linkage = linkage_wb(m, 1, 0, 0);
  EXPECT_NEAR(linkage, 0.19985948912, 1e-10);
  EXPECT_NEAR(field_energy_j(m, linkage, 0), 0.099929744561, 1e-11);
  EXPECT_NEAR(field_energy_j(m, linkage, 0) / 0.00125, pull_n(m, linkage), 1e-8);
}

TEST(MagnetTest, CurrentAndFluxAreEachOthersInverse) {
  Magnet m = sarma();
  m.iron_length_m = 0.2;
  for (const double current : {-2.0, -0.3, 0.0, 0.01, 0.5, 3.0, 40.0}) {
    for (const double gap : {0.0, 0.0005, 0.01}) {
      const double linkage = linkage_wb(m, current, gap, 0);
      EXPECT_NEAR(coil_current_a(m, linkage, gap, 0), current, 1e-6 * std::fabs(current) + 1e-12);
    }
  }
}

TEST(MagnetTest, IronSaturatesAndThenAddsWhatAirWould) {
  Magnet m = sarma();
  m.residual_gap_m = 1e-9;
  m.iron_length_m = 0.2;
  EXPECT_GT(flux_density_t(m, 7e3, 0), 0.95 * m.saturation_t);
  EXPECT_LT(flux_density_t(m, 7e3, 0), m.saturation_t);
  // B = mu0 (H + M) with M given in full (derived).
  const double more = flux_density_t(m, 3e4, 0) - flux_density_t(m, 2e4, 0);
  EXPECT_NEAR(more, kMu0 * 1e4 / m.iron_length_m, 1e-4 * more);
}

TEST(MagnetTest, CurrentAndFluxAgreeHoweverFullTheIronIs) {
  Magnet m = sarma();
  m.iron_length_m = 0.15;
  for (const double ampere_turns : {10.0, 3e3, 1e4, 1e5, 1e6}) {
    const double flux = linkage_wb(m, ampere_turns / m.turns, 0.0004, 0);
    EXPECT_NEAR(coil_current_a(m, flux, 0.0004, 0) * m.turns, ampere_turns, 1e-9 * ampere_turns);
    const double h = 1e-6 * flux;
    const double slope =
        (coil_current_a(m, flux + h, 0.0004, 0) - coil_current_a(m, flux - h, 0.0004, 0)) / (2 * h);
    EXPECT_NEAR(current_slopes(m, flux, 0.0004).per_wb, slope, 1e-4 * slope);
    // d(energy)/d(linkage) is the current.
    const double current =
        (field_energy_j(m, flux + h, 0.0004) - field_energy_j(m, flux - h, 0.0004)) / (2 * h);
    EXPECT_NEAR(current * m.turns, ampere_turns, 1e-4 * ampere_turns);
  }
}

TEST(MagnetTest, PullIsWhatTheFieldLosesByTheWay) {
  Magnet m = sarma();
  m.iron_length_m = 0.15;
  const double linkage = linkage_wb(m, 0.8, 0.0006, 0);
  const double h = 1e-7;
  const double lost =
      (field_energy_j(m, linkage, 0.0006 + h) - field_energy_j(m, linkage, 0.0006 - h)) / (2 * h);
  EXPECT_NEAR(lost, pull_n(m, linkage), 1e-5 * lost);
}

TEST(MagnetTest, FieldEnergyIsCurrentTimesFluxSummed) {
  Magnet m = sarma();
  m.iron_length_m = 0.3;
  m.residual_gap_m = 2e-4;
  const double whole = linkage_wb(m, 2, 0, 0);
  constexpr int kSteps = 20000;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    sum += coil_current_a(m, whole * (i + 0.5) / kSteps, 0, 0) * whole / kSteps;
  }
  EXPECT_NEAR(field_energy_j(m, whole, 0), sum, 1e-6 * sum);
}

/// A coil of fixed inductance switched on at 0.
Bench simple_coil(double volts, double ohm, double henry, bool with_diode = false) {
  Coil coil;
  coil.resistance_ohm = ohm - 2e-6;
  coil.magnet.inductance_h = henry;
  Bench b;
  b.source("supply", "plus", "minus", volts, 1e-6);
  b.contact("key", "plus", "top", 1e-6);
  b.coil("coil", "top", "minus", coil);
  if (with_diode) b.diode("minus", "top", 1e-6, 0);
  b.work(0, "key", true);
  return b;
}

// MAG-07, derived: 1 - exp(-n).
TEST(CoilTest, CurrentRisesByItsTimeConstant) {
  Bench b = simple_coil(10, 100, 1);
  const double share[] = {0.63212055883, 0.86466471676, 0.95021293163, 0, 0.99326205300};
  for (const int n : {1, 2, 3, 5}) {
    EXPECT_NEAR(b.value(b.at(0.01 * n), "coil.current") / 0.1, share[n - 1], 1e-5) << n;
  }
}

/// When the coil's current passes a value, by halving.
double when_current_is(Bench& b, double amperes, double from_s, double to_s) {
  const bool rising = b.value(b.at(to_s), "coil.current") > amperes;
  for (int i = 0; i < 50; ++i) {
    const double middle = (from_s + to_s) / 2;
    const bool above = b.value(b.at(middle), "coil.current") > amperes;
    (above == rising ? to_s : from_s) = middle;
  }
  return to_s;
}

// MAG-08, derived: ln 4, ln 5, ln 10 time constants.
TEST(CoilTest, TimesToPartsOfTheFinalCurrent) {
  Bench b = simple_coil(10, 100, 1);
  EXPECT_NEAR(when_current_is(b, 0.075, 0, 0.1), 0.013862943611, 1e-6);
  EXPECT_NEAR(when_current_is(b, 0.080, 0, 0.1), 0.016094379124, 1e-6);
  Bench falls = simple_coil(10, 100, 1, true);
  falls.work(0.5, "key", false);
  EXPECT_NEAR(when_current_is(falls, 0.010, 0.5001, 0.6) - 0.5, 0.023025850930, 2e-6);
}

// MAG-09, derived: 24 V, 48 ohm, 1 H.
TEST(CoilTest, CoilOfOneHenry) {
  Bench b = simple_coil(24, 48, 1);
  EXPECT_NEAR(b.value(b.at(0.01), "coil.current"), 0.19060830410, 2e-6);
  EXPECT_NEAR(when_current_is(b, 0.375, 0, 0.1), 0.028881132523, 1e-6);
}

// MAG-13, derived: 18 V at 20 degC becomes 20.8296 V at 60 degC, the pull-in current being the
// same.
TEST(CoilTest, HotCoilNeedsMoreVolts) { EXPECT_NEAR(18 * copper_factor(333.15), 20.829600, 1e-9); }

}  // namespace
}  // namespace sixty::circuit
