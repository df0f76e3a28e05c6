#include "sim/circuit/armature.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::circuit {
namespace {

constexpr double kSlowestRebound = 0.005;  // m/s; slower than this a stop holds
constexpr double kAtStop = 1e-9;           // m
/// Between a pull that closes and a second spring that opens an armature would tremble for ever,
/// faster and faster; turning this near to where it meets the spring, it rests against it. Units:
/// m.
constexpr double kAtSecondSpring = 1e-7;

}  // namespace

double meet_stop(CoilState& s, const Armature& a, bool seat) {
  s.gap_m = seat ? a.seat_m : a.stroke_m;
  const double before = s.speed_m_per_s;
  const double kept = (seat ? a.rebound_seat : a.rebound_open) * std::fabs(before);
  const bool stays = kept < kSlowestRebound;
  const double after = stays ? 0 : kept;
  if (stays) {
    s.speed_m_per_s = 0;
    s.rest = seat ? Rest::kSeated : Rest::kOpen;
  } else {
    s.speed_m_per_s = seat ? kept : -kept;
    s.rest = seat ? Rest::kOpening : Rest::kClosing;
  }
  return a.mass_kg / 2 * (before * before - after * after);
}

Forces forces_at(const Armature& a, double gap_m, double extra_n, double pull_n) {
  const double net = load_n(a, gap_m, extra_n) - pull_n;
  if (gap_m != a.second_from_m) return {net, net};
  return {net + a.second_preload_n + extra_n, net};
}

double hold_n(const Armature& a, double extra_n) {
  constexpr double kRounding = 1e-9;
  const double loads = std::fabs(a.preload_n) + a.rate_n_per_m * a.stroke_m + a.second_preload_n +
                       a.second_rate_n_per_m * a.second_from_m + std::fabs(extra_n);
  const double friction_n = stiction_n(a);
  return friction_n + kRounding * (friction_n + loads);
}

double balance_gap_m(const Coil& coil, const CoilState& s, double current_a, double extra_n,
                     double reach_m) {
  const Armature& a = coil.armature;
  const auto net = [&](double gap_m) {
    const double flux = linkage_wb(coil.magnet, current_a, gap_m, s.held_a);
    return load_n(a, gap_m, extra_n) - pull_n(coil.magnet, flux);
  };
  double near = std::max(s.gap_m - reach_m, a.seat_m);
  double far = std::min(s.gap_m + reach_m, a.stroke_m);
  const double force_near = net(near);
  const double force_far = net(far);
  if (!(force_near > 0 && force_far < 0)) return -1;
  const double rate = (force_near - force_far) / (far - near);
  if (a.mass_kg * s.speed_m_per_s * s.speed_m_per_s > rate * reach_m * reach_m) return -1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (near + far) / 2;
    (net(middle) > 0 ? near : far) = middle;
  }
  // Where the second spring is met the force leaps, and the armature lies just there.
  return std::fabs(near - a.second_from_m) < kAtStop ? a.second_from_m : near;
}

Turn turn_back(CoilState& s, const Armature& a, double extra_n, double pull_n) {
  s.speed_m_per_s = 0;
  const bool at_second = std::fabs(s.gap_m - a.second_from_m) <= kAtSecondSpring;
  const Forces f = forces_at(a, at_second ? a.second_from_m : s.gap_m, extra_n, pull_n);
  const double hold = hold_n(a, extra_n);
  const bool closes = f.closing_n < -hold;
  const bool opens = f.opening_n > hold;
  // A way this short is below what the step's end is known by: it may even lie beyond the stop.
  if (!opens && s.gap_m <= a.seat_m + kAtStop) {
    s.gap_m = a.seat_m;
    s.rest = Rest::kSeated;
    return Turn::kSeats;
  }
  if (!closes && s.gap_m >= a.stroke_m - kAtStop) {
    s.gap_m = a.stroke_m;
    s.rest = Rest::kOpen;
    return Turn::kReturns;
  }
  if (!closes && !opens) {
    if (at_second) s.gap_m = a.second_from_m;
    s.rest = Rest::kStuck;
    return Turn::kSticks;
  }
  s.rest = closes ? Rest::kClosing : Rest::kOpening;
  return Turn::kBack;
}

}  // namespace sixty::circuit
