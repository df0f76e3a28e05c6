#include "sim/circuit/magnet.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::circuit {
namespace {

/// Magnetomotive force that the iron takes at low flux, per tesla.
double iron_a_per_t(const Magnet& m) { return m.iron_length_m / (m.relative_permeability * kMu0); }

double gap_a_per_t(const Magnet& m, double gap_m) { return 2 * (gap_m + m.residual_gap_m) / kMu0; }

/// Beyond this flux density the iron has given all, and any more costs what air would ask.
double full_t(const Magnet& m) {
  return m.saturation_t * (1 - 1 / std::sqrt(m.relative_permeability));
}

/// The same without a square root. Range: size >= 0.
bool is_full(const Magnet& m, double size) {
  const double room = m.saturation_t - size;
  return room <= 0 || room * room * m.relative_permeability <= m.saturation_t * m.saturation_t;
}

double curved_a(const Magnet& m, double size) {
  return iron_a_per_t(m) * m.saturation_t / (m.saturation_t - size) * size;
}

/// Magnetomotive force that the iron takes. Range: size >= 0. Units: ampere-turns.
double iron_a(const Magnet& m, double size) {
  if (!is_full(m, size)) return curved_a(m, size);
  const double full = full_t(m);
  return curved_a(m, full) + m.iron_length_m / kMu0 * (size - full);
}

double current_for_pull_a(const Magnet& m, double pull, double gap_m) {
  if (pull <= 0) return 0;
  const double b = std::sqrt(pull * kMu0 / m.pole_area_m2);
  return field_strength_a(m, b, gap_m) / m.turns;
}

}  // namespace

double field_strength_a(const Magnet& m, double b, double gap_m) {
  const double gap_part = gap_a_per_t(m, gap_m) * b;
  if (m.iron_length_m <= 0) return gap_part;
  const double iron = iron_a(m, std::fabs(b));
  return gap_part + (b < 0 ? -iron : iron);
}

double flux_density_t(const Magnet& m, double ampere_turns, double gap_m) {
  const double mmf = std::fabs(ampere_turns);
  const double g = gap_a_per_t(m, gap_m);
  double b = 0;
  if (m.iron_length_m <= 0) {
    b = mmf / g;
  } else {
    // g B + k Bs B/(Bs - B) = mmf is a quadratic in B; the smaller root is the physical one.
    const double k = iron_a_per_t(m);
    const double s = m.saturation_t;
    const double p = (g + k) * s + mmf;
    b = 2 * mmf * s / (p + std::sqrt(p * p - 4 * g * mmf * s));
    if (is_full(m, b)) {
      const double air = m.iron_length_m / kMu0;
      const double full = full_t(m);
      b = (mmf - curved_a(m, full) + air * full) / (g + air);
    }
  }
  return ampere_turns < 0 ? -b : b;
}

double held_on_grid(double held_a, double coercive_a, double grid) {
  return coercive_a > 0 ? std::floor(held_a / coercive_a * grid + 0.5) / grid * coercive_a : 0;
}

double coil_current_a(const Magnet& m, double linkage, double gap_m, double held_a) {
  if (m.inductance_h > 0) return linkage / m.inductance_h;
  const double b = linkage / (m.turns * m.pole_area_m2);
  return (field_strength_a(m, b, gap_m) - held_a) / m.turns;
}

double linkage_wb(const Magnet& m, double current_a, double gap_m, double held_a) {
  if (m.inductance_h > 0) return m.inductance_h * current_a;
  return m.turns * m.pole_area_m2 * flux_density_t(m, m.turns * current_a + held_a, gap_m);
}

double pull_n(const Magnet& m, double linkage) {
  if (m.inductance_h > 0) return 0;
  const double b = linkage / (m.turns * m.pole_area_m2);
  return m.pole_area_m2 * b * b / kMu0;
}

CurrentSlopes current_slopes(const Magnet& m, double linkage, double gap_m) {
  if (m.inductance_h > 0) return {1 / m.inductance_h, 0};
  const double b = linkage / (m.turns * m.pole_area_m2);
  double per_t = gap_a_per_t(m, gap_m);
  if (m.iron_length_m > 0) {
    const double size = std::fabs(b);
    const double share = m.saturation_t / (m.saturation_t - size);
    per_t += is_full(m, size) ? m.iron_length_m / kMu0 : iron_a_per_t(m) * share * share;
  }
  return {per_t / (m.turns * m.turns * m.pole_area_m2), 2 / kMu0 * b / m.turns};
}

double pull_slope(const Magnet& m, double linkage) {
  if (m.inductance_h > 0) return 0;
  return 2 * linkage / (m.turns * m.turns * m.pole_area_m2 * kMu0);
}

double field_energy_j(const Magnet& m, double linkage, double gap_m) {
  if (m.inductance_h > 0) return linkage * linkage / (2 * m.inductance_h);
  const double b = std::fabs(linkage) / (m.turns * m.pole_area_m2);
  const double gap_part = gap_a_per_t(m, gap_m) * b * b / 2;
  double iron = 0;
  if (m.iron_length_m > 0) {
    const double s = m.saturation_t;
    const double curved = is_full(m, b) ? full_t(m) : b;
    iron = iron_a_per_t(m) * s * (-curved - s * det_log(1 - curved / s)) +
           (iron_a(m, curved) + iron_a(m, b)) / 2 * (b - curved);
  }
  return m.pole_area_m2 * (gap_part + iron);
}

double load_n(const Armature& a, double gap_m, double extra_n) {
  double load = a.preload_n + a.rate_n_per_m * (a.stroke_m - gap_m);
  if (gap_m < a.second_from_m) {
    load += a.second_preload_n + extra_n + a.second_rate_n_per_m * (a.second_from_m - gap_m);
  }
  return load;
}

Statics statics(const Magnet& m, const Armature& a, double extra_n) {
  Statics s;
  s.starts_a = current_for_pull_a(m, load_n(a, a.stroke_m, extra_n) + stiction_n(a), a.stroke_m);
  constexpr int kSteps = 512;
  for (int i = 0; i <= kSteps; ++i) {
    const double x = a.seat_m + (a.stroke_m - a.seat_m) * i / kSteps;
    const double friction_n = i == kSteps ? stiction_n(a) : a.friction_n;
    s.pulls_in_a =
        std::max(s.pulls_in_a, current_for_pull_a(m, load_n(a, x, extra_n) + friction_n, x));
  }
  const double seated = load_n(a, a.seat_m, extra_n) - stiction_n(a);
  s.drops_out_a = current_for_pull_a(m, seated, a.seat_m) - m.coercive_a / m.turns;
  return s;
}

}  // namespace sixty::circuit
