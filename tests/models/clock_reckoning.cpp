#include "tests/models/clock_reckoning.hpp"

#include <cmath>

namespace sixty {
namespace {

constexpr double kPiHere = 3.14159265358979323846;
constexpr double kSixDegrees = kPiHere / 30;  // a beat of the wheel, a tooth of the ratchet

}  // namespace

bool ClockReckoning::drags_at(int second) const {
  for (const Arm& arm : arms) {
    if (second >= arm.makes_at && second < arm.makes_at + arm.dwell) return true;
  }
  return false;
}

double ClockReckoning::energy_j(double arc_rad) const {
  return bob_kg * gravity * length_m * (1 - std::cos(arc_rad));
}

ClockReckoning::End ClockReckoning::unwound() const {
  End end;
  double swing_j = energy_j(start_rad);
  double wound_rad = teeth * kSixDegrees;
  end.second = first_second;
  while (true) {
    end.by_swing = swing_j < energy_j(escaping_rad);
    const double drag = drags_at(end.second) ? drag_nm() : 0;
    const double torque = wound_rad * stiffness * train / ratio;
    if (end.by_swing || torque <= drag) break;
    swing_j += escapement * (torque - drag) * kSixDegrees - swing_j * kPiHere / q;
    wound_rad -= kSixDegrees / 60;
    ++end.beats;
    end.second = (end.second + 1) % 60;
  }
  end.arc_rad = std::acos(1 - swing_j / (bob_kg * gravity * length_m));
  return end;
}

double ClockReckoning::teeth_against_contact() const {
  return drag_nm() * ratio / train / (stiffness * kSixDegrees);
}

double ClockReckoning::teeth_to_keep_going() const {
  double dragged = 0;
  for (int second = 0; second < 60; ++second) dragged += drags_at(second) ? 1 : 0;
  const double needed_nm =
      energy_j(escaping_rad) * kPiHere / q / (escapement * kSixDegrees) + drag_nm() * dragged / 60;
  return needed_nm * ratio / train / (stiffness * kSixDegrees) + 0.5;
}

}  // namespace sixty
