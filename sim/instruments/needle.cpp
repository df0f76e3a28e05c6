#include "sim/instruments/needle.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::instruments {
namespace {

constexpr double kW = 2 * kPi / Needle::kFreePeriod_s;
constexpr double kDecay = Needle::kDamping * kW;
const double kDamped = kW * std::sqrt(1 - Needle::kDamping * Needle::kDamping);
constexpr double kLongestSwing_s = 0.01;  // between two looks at where the pointer is
constexpr double kStill = 1e-6;           // of full scale

}  // namespace

void Needle::follow(double before, double after, double seconds) {
  if (!laid_on_) {
    at_ = resting(before);
    show(at_);
    laid_on_ = true;
  }
  const double slope = seconds > 0 ? (after - before) / seconds : 0;
  double done = 0;
  while (done < seconds) {
    if (slope == 0 && lies_still(after)) {
      now_s_ += seconds - done;
      return;
    }
    const double part = std::min(kLongestSwing_s, seconds - done);
    swing(before + slope * done, slope, part);
    done += part;
  }
}

double Needle::resting(double drive) const {
  return std::clamp(drive, kLeastScale * full_scale_, kMostScale * full_scale_);
}

bool Needle::lies_still(double drive) const {
  return std::fabs(at_ - resting(drive)) < kStill * full_scale_ &&
         std::fabs(speed_) < kStill * full_scale_;
}

void Needle::know(double seconds) {
  if (decay_.seconds == seconds) return;
  const double left = det_exp(-kDecay * seconds);
  decay_ = {seconds, left * det_cos(kDamped * seconds), left * det_sin(kDamped * seconds)};
}

/// Exact for a drive that goes straight.
void Needle::swing(double from, double slope, double seconds) {
  know(seconds);
  const double lag = 2 * kDamping * slope / kW;
  const double c = at_ - (from - lag);
  const double d = speed_ - slope;
  const double e = (d + kDecay * c) / kDamped;
  at_ = from + slope * seconds - lag + c * decay_.cosine + e * decay_.sine;
  speed_ =
      slope + (e * kDamped - c * kDecay) * decay_.cosine - (c * kDamped + e * kDecay) * decay_.sine;
  if (at_ != resting(at_)) {
    at_ = resting(at_);
    speed_ = 0;
  }
  now_s_ += seconds;
  show(at_);
}

}  // namespace sixty::instruments
