// Friction that is larger at rest, and grows with the speed, against closed forms.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/circuit/bench.hpp"

namespace sixty::circuit {
namespace {

constexpr double kPreload_n = 2, kFriction_n = 0.5, kViscous = 10, kMass_kg = 0.04;
constexpr double kCutOff_s = 20;

/// A constant load, a long stroke, and nothing but friction against them once the current is gone.
Coil sliding_coil(double stiction, double viscous_n_s_per_m) {
  Coil c;
  c.resistance_ohm = 120;
  c.magnet.turns = 4600;
  c.magnet.pole_area_m2 = 1e-2;
  c.magnet.residual_gap_m = 2e-3;
  c.armature.present = true;
  c.armature.stroke_m = 20e-3;
  c.armature.mass_kg = kMass_kg;
  c.armature.preload_n = kPreload_n;
  c.armature.friction_n = kFriction_n;
  c.armature.stiction = stiction;
  c.armature.viscous_n_s_per_m = viscous_n_s_per_m;
  return c;
}

Bench driven(double emf_v, double stiction, double viscous_n_s_per_m) {
  Bench bench;
  bench.source("supply", "plus", "minus", emf_v, 0.5);
  bench.contact("key", "plus", "fed", 0.02);
  bench.coil("coil", "fed", "minus", sliding_coil(stiction, viscous_n_s_per_m));
  bench.work(0, "key", true);
  bench.work(kCutOff_s, "key", false);
  return bench;
}

/// Where a body is that a constant force sets going against friction: m dv/dt = P - F - c v.
double slid_m(double t_s) {
  const double tau_s = kMass_kg / kViscous;
  return (kPreload_n - kFriction_n) / kViscous * (t_s - tau_s * (1 - std::exp(-t_s / tau_s)));
}

TEST(FrictionTest, ABodySlidesAsCoulombAndViscousFrictionTogetherLetIt) {
  Bench bench = driven(24, 1, kViscous);
  ASSERT_EQ(bench.at(kCutOff_s, true).state.coils[0].rest, Rest::kSeated);
  for (const double t_s : {0.001, 0.004, 0.02, 0.1}) {
    const CoilState s = bench.at(kCutOff_s + t_s).state.coils[0];
    EXPECT_NEAR(s.gap_m, slid_m(t_s), 1e-7) << t_s;
  }
}

TEST(FrictionTest, ItEndsAtTheSpeedAtWhichFrictionBalancesTheLoad) {
  Bench bench = driven(24, 1.5, kViscous);
  const CoilState s = bench.at(kCutOff_s + 0.1).state.coils[0];
  EXPECT_NEAR(s.speed_m_per_s, (kPreload_n - kFriction_n) / kViscous, 1e-6);
}

TEST(FrictionTest, EnergyThatFrictionTakesIsAccountedFor) {
  Bench bench = driven(24, 1.5, kViscous);
  const Energies start = bench.energies(bench.at(0));
  const auto look = bench.at(kCutOff_s + 0.1);
  const Energies end = bench.energies(look);
  EXPECT_NEAR(end.missing(start), 0, 3e-6 * end.source);
  // On the way back alone: F x + c times the sum of v^2, v = u (1 - exp(-t/tau)).
  const double before_j = bench.at(kCutOff_s, true).ledger.friction_j;
  const double u = (kPreload_n - kFriction_n) / kViscous, tau_s = kMass_kg / kViscous;
  const double sum = u * u * (0.1 - 1.5 * tau_s);  // what is left of the exponentials is nothing
  EXPECT_NEAR(look.ledger.friction_j - before_j, kFriction_n * slid_m(0.1) + kViscous * sum, 1e-6);
}

TEST(FrictionTest, AnArmatureStartsWhenThePullOvercomesItsStiction) {
  // The pull grows with the square of the current.
  const Coil even = sliding_coil(1, 0), sticky = sliding_coil(3, 0);
  const double even_a = statics(even.magnet, even.armature, 0).starts_a;
  const double sticky_a = statics(sticky.magnet, sticky.armature, 0).starts_a;
  const double loads = (kPreload_n + 3 * kFriction_n) / (kPreload_n + kFriction_n);
  EXPECT_NEAR(sticky_a / even_a, std::sqrt(loads), 1e-9);
  for (const double share : {0.99, 1.01}) {
    Bench bench = driven(share * sticky_a * 120.52, 3, 0);
    const auto events = bench.events(kCutOff_s - 1);
    const bool starts = std::any_of(events.begin(), events.end(), [](const Bench::Happened& e) {
      return e.located.what == What::kStarts;
    });
    EXPECT_EQ(starts, share > 1) << share;
  }
}

TEST(FrictionTest, ASeatedArmatureLetsGoWhenTheLoadOvercomesItsStiction) {
  const Coil even = sliding_coil(1, 0), sticky = sliding_coil(3, 0);
  const double ratio = statics(sticky.magnet, sticky.armature, 0).drops_out_a /
                       statics(even.magnet, even.armature, 0).drops_out_a;
  EXPECT_NEAR(ratio, std::sqrt((kPreload_n - 3 * kFriction_n) / (kPreload_n - kFriction_n)), 1e-9);
}

}  // namespace
}  // namespace sixty::circuit
