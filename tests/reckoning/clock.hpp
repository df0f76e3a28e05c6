#pragma once

#include <array>
#include <cmath>
#include <cstdint>

namespace sixty {

namespace reckoning {
constexpr double kPi = 3.14159265358979323846;
constexpr double kSixDegrees = kPi / 30;  // a beat of the wheel, a tooth of the ratchet
}  // namespace reckoning

/// A pendulum clock that nobody winds, reckoned beat by beat apart from the program:
///   E <- E (1 - pi/Q) + eta (T - Tc) 6 deg,  T = wound angle x stiffness x train / ratio,
/// the wheel stands where T <= Tc, the hands stop for good where E < m g L (1 - cos(escaping arc)).
/// Source: the balance of work in one beat (derived); values of the sheets: common practice, no
/// source. Angles in rad.
struct ClockReckoning {
  double bob_kg = 5.5, length_m = 0.99362138557, gravity = 9.80665, q = 6000;
  double escaping_rad = 0.017453292519943295;
  double escapement = 0.35, train = 0.70, ratio = 60;
  double stiffness = 10e-3;  ///< N m/rad
  double teeth = 30.5;       ///< wound as it is let go, 6 deg each
  double contact_n = 0.05, radius_m = 12e-3, friction = 0.10;
  double start_rad = 0.030543261909900765;  ///< 1.75 deg
  int first_second = 5;                     ///< of the seconds hand as it is let go

  struct Arm {
    int makes_at, dwell;
  };
  std::array<Arm, 3> arms = {{{5, 2}, {15, 5}, {35, 2}}};

  struct End {
    std::int64_t beats = 0;  ///< made before the hands stopped
    bool by_swing = false;   ///< the swing was too small; else the wheel stood
    double arc_rad = 0;      ///< semi-arc then
    int second = 0;          ///< at which the seconds hand stands
  };
  End unwound() const;

  double drag_nm() const { return contact_n * radius_m * friction; }
  bool drags_at(int second) const;
  double energy_j(double arc_rad) const;
  /// Teeth above nothing at which the torque equals the drag of one contact.
  double teeth_against_contact() const;
  /// Teeth just after a stroke that keep the swing at the escaping arc: what a beat loses there,
  /// and the mean of the drag, and half a tooth since the torque falls by one within the minute.
  double teeth_to_keep_going() const;
};

inline bool ClockReckoning::drags_at(int second) const {
  for (const Arm& arm : arms) {
    if (second >= arm.makes_at && second < arm.makes_at + arm.dwell) return true;
  }
  return false;
}

inline double ClockReckoning::energy_j(double arc_rad) const {
  return bob_kg * gravity * length_m * (1 - std::cos(arc_rad));
}

inline ClockReckoning::End ClockReckoning::unwound() const {
  End end;
  double swing_j = energy_j(start_rad);
  double wound_rad = teeth * reckoning::kSixDegrees;
  end.second = first_second;
  while (true) {
    end.by_swing = swing_j < energy_j(escaping_rad);
    const double drag = drags_at(end.second) ? drag_nm() : 0;
    const double torque = wound_rad * stiffness * train / ratio;
    if (end.by_swing || torque <= drag) break;
    swing_j += escapement * (torque - drag) * reckoning::kSixDegrees - swing_j * reckoning::kPi / q;
    wound_rad -= reckoning::kSixDegrees / 60;
    ++end.beats;
    end.second = (end.second + 1) % 60;
  }
  end.arc_rad = std::acos(1 - swing_j / (bob_kg * gravity * length_m));
  return end;
}

inline double ClockReckoning::teeth_against_contact() const {
  return drag_nm() * ratio / train / (stiffness * reckoning::kSixDegrees);
}

inline double ClockReckoning::teeth_to_keep_going() const {
  double dragged = 0;
  for (int second = 0; second < 60; ++second) dragged += drags_at(second) ? 1 : 0;
  const double needed_nm =
      energy_j(escaping_rad) * reckoning::kPi / q / (escapement * reckoning::kSixDegrees) +
      drag_nm() * dragged / 60;
  return needed_nm * ratio / train / (stiffness * reckoning::kSixDegrees) + 0.5;
}

}  // namespace sixty
