#include "sim/circuit/armature.hpp"

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

Turn turn_back(CoilState& s, const Armature& a, double extra_n, double pull_n) {
  s.speed_m_per_s = 0;
  const bool at_second = std::fabs(s.gap_m - a.second_from_m) <= kAtSecondSpring;
  const Forces f = forces_at(a, at_second ? a.second_from_m : s.gap_m, extra_n, pull_n);
  const bool closes = f.closing_n < -a.friction_n;
  const bool opens = f.opening_n > a.friction_n;
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
