#pragma once

namespace sixty {

/// An interrupter bell, integrated apart from the program in small equal steps (midpoint rule):
///   d(lambda)/dt = v - R i,  i = H(B, x)/N,  B = lambda/(N A),
///   H = 2 (x + g0) B/mu0 + l (Bs/(mui mu0)) B/(Bs - |B|),
///   m x'' = F0 + k (stroke - x) - A B^2/mu0,
/// v from the supply through its resistances while the interrupter conducts, else the coil through
/// its own resistor. Stops give back a share of the speed.
/// Source: B^2/(2 mu0) on each of two gaps (MAG-01, derived); saturation curve and values: common
/// practice, no source. SI units.
struct BellReckoning {
  double emf_v = 24, feed_ohm = 0.0029963847;  ///< supply, key and contact together
  double ohm = 12, across_ohm = 330;
  double turns = 1400, area_m2 = 0.5e-4, residual_m = 0.8e-3, iron_m = 0.2;
  double rest_m = 6e-3, gong_m = 1e-3, breaks_m = 1.5e-3, makes_m = 5.3e-3;
  double mass_kg = 0.42, preload_n = 0.40, rate_n_per_m = 150;
  double rebound = 0.2;

  struct Rung {
    double strokes_per_s = 0;
    double speed = 0;  ///< of the last stroke, m/s
  };
  Rung ring(double seconds) const;
};

}  // namespace sixty
