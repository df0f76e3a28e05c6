#pragma once

#include "sim/instruments/indicator.hpp"

namespace sixty::instruments {

/// Pointer of a moving-coil meter, laid on so long before that it rests where the first value has
/// it: a damped swing towards what flows through it,
/// y'' + 2 zeta w y' + w^2 y = w^2 u, between two stops that take its speed.
/// Source: the moving-coil galvanometer's equation of motion (textbook). Free period 1 s and
/// damping 0.8 of critical: common practice, no source; they keep the overshoot at 1.5 % and the
/// time to rest near 1 s, within the 4 s of IEC 60051-1 (from memory).
class Needle final : public Indicator {
 public:
  static constexpr double kFreePeriod_s = 1.0;
  static constexpr double kDamping = 0.8;
  static constexpr double kLeastScale = -0.05;  ///< where the stops are, of full scale
  static constexpr double kMostScale = 1.05;

  /// Units: of the quantity. Range: full_scale > 0.
  explicit Needle(double full_scale) : full_scale_(full_scale) {}
  void follow(double before, double after, double seconds) override;
  void skip(double seconds) override { now_s_ += seconds; }

 private:
  void swing(double from, double slope, double seconds);
  double resting(double drive) const;
  bool lies_still(double drive) const;
  void know(double seconds);

  double full_scale_;
  bool laid_on_ = false;
  double at_ = 0, speed_ = 0;  ///< in units of the quantity, and that by s
  struct Decay {
    double seconds = -1, cosine = 1, sine = 0;  ///< of the damped swing, over so long
  } decay_;
};

}  // namespace sixty::instruments
