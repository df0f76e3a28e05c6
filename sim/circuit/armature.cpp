#include "sim/circuit/armature.hpp"

#include <cmath>

namespace sixty::circuit {
namespace {

constexpr double kSlowestRebound = 0.005;  // m/s; slower than this a stop holds

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

bool turn_back(CoilState& s, const Armature& a, double force_n) {
  s.speed_m_per_s = 0;
  if (std::fabs(force_n) <= a.friction_n) {
    s.rest = Rest::kStuck;
    return true;
  }
  s.rest = force_n < 0 ? Rest::kClosing : Rest::kOpening;
  return false;
}

}  // namespace sixty::circuit
