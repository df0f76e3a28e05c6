#pragma once

#include <cmath>

namespace sixty {

namespace reckoning {
constexpr double kMu = 4e-7 * 3.14159265358979323846;
constexpr double kSaturationT = 2.0;
constexpr double kPermeability = 2000;

/// Ampere-turns that iron of a length asks for at a flux density: l (Bs/(mui mu0)) B/(Bs - |B|).
/// Source: saturation curve, own choice. Units: m, T.
inline double iron_a(double length_m, double b) {
  return length_m * kSaturationT / (kPermeability * kMu) * b / (kSaturationT - std::fabs(b));
}
}  // namespace reckoning

/// What decides the pull-in of an armature whose need is greatest when it is open, SI units:
///   A B^2/mu0 = load + friction,  N i = 2 (x + g0) B/mu0 + iron,  V = R i.
/// Source: B^2/(2 mu0) on each of two gaps (MAG-01, derived).
struct OpenArmature {
  double ohm, turns, area_m2, stroke_m, residual_m, iron_m, preload_n, friction_n;

  /// Slowly raised volts at the coil itself that bring it in.
  double pull_in_v() const {
    const double b = std::sqrt((preload_n + friction_n) * reckoning::kMu / area_m2);
    const double gaps_a = 2 * (stroke_m + residual_m) * b / reckoning::kMu;
    return ohm * (gaps_a + reckoning::iron_a(iron_m, b)) / turns;
  }
};

}  // namespace sixty
