#pragma once

#include <cmath>

#include "tests/reckoning/magnet.hpp"

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

namespace reckoning {

constexpr double kBellStep = 20e-6;     // a stroke takes some 3,800 of them
constexpr double kSlowRebound = 0.005;  // m/s; a stop holds what is slower

/// What moves, and how fast it changes.
struct Moving {
  double linkage = 0, gap = 0, speed = 0;
  Moving after(const Moving& rate, double dt) const {
    return {linkage + rate.linkage * dt, gap + rate.gap * dt, speed + rate.speed * dt};
  }
};

class Clapper {
 public:
  explicit Clapper(const BellReckoning& b) : b_(b) { s_.gap = b.rest_m; }

  void step() {
    const double before = s_.gap;
    const Moving middle = s_.after(rates(s_), kBellStep / 2);
    s_ = s_.after(rates(middle), kBellStep);
    if (before > b_.breaks_m && s_.gap <= b_.breaks_m) closed_ = false;
    if (before < b_.makes_m && s_.gap >= b_.makes_m) {
      closed_ = true;
      struck_ = false;
    }
    if (s_.gap < b_.gong_m) strike();
    if (s_.gap > b_.rest_m) come_to_rest();
  }
  double strokes() const { return strokes_; }
  double last_speed() const { return last_speed_; }

 private:
  double flux_t(const Moving& s) const { return s.linkage / (b_.turns * b_.area_m2); }
  double current_a(const Moving& s) const {
    const double b = flux_t(s);
    const double gaps = 2 * (s.gap + b_.residual_m) * b / kMu;
    return (gaps + iron_a(b_.iron_m, b)) / b_.turns;
  }
  double volts(double current) const {
    if (!closed_) return -b_.across_ohm * current;
    return (b_.emf_v - b_.feed_ohm * current) * b_.across_ohm / (b_.across_ohm + b_.feed_ohm);
  }
  Moving rates(const Moving& s) const {
    const double current = current_a(s);
    const double pull = b_.area_m2 * flux_t(s) * flux_t(s) / kMu;
    const double net = b_.preload_n + b_.rate_n_per_m * (b_.rest_m - s.gap) - pull;
    const bool rests = s.gap >= b_.rest_m && s.speed == 0 && net > 0;
    return {volts(current) - b_.ohm * current, s.speed, rests ? 0 : net / b_.mass_kg};
  }
  void strike() {
    const double speed = std::fabs(s_.speed);
    s_.gap = b_.gong_m;
    s_.speed = speed * b_.rebound;
    if (struck_) return;
    struck_ = true;
    ++strokes_;
    last_speed_ = speed;
  }
  void come_to_rest() {
    s_.gap = b_.rest_m;
    const double kept = s_.speed * b_.rebound;
    s_.speed = kept < kSlowRebound ? 0 : -kept;
  }

  const BellReckoning& b_;
  Moving s_;
  bool closed_ = true;
  bool struck_ = false;
  double strokes_ = 0;
  double last_speed_ = 0;
};

}  // namespace reckoning

inline BellReckoning::Rung BellReckoning::ring(double seconds) const {
  reckoning::Clapper clapper(*this);
  const int steps = static_cast<int>(seconds / reckoning::kBellStep);
  for (int i = 0; i < steps; ++i) clapper.step();
  return {clapper.strokes() / seconds, clapper.last_speed()};
}

}  // namespace sixty
