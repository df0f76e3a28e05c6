#include "sim/diagnose/likelihood.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

double hump(double distance, double width) {
  const double x = distance / width;
  return det_exp(-0.5 * x * x);
}

double step_at(double distance, double width) { return 1 / (1 + det_exp(-distance / width)); }

/// An observation of one sign.
class OfOne {
 public:
  OfOne(const Observation& observation, const Sign& sign, const Usual& usual,
        const Vagueness& vagueness)
      : o_(observation), sign_(sign), usual_(usual), v_(vagueness) {}

  double chance(double departure) const {
    const double clear = clearness(departure, sign_);
    switch (o_.how) {
      case How::kThere:
      case How::kNot:
        return noticed(clear);
      case How::kAbout:
        return hump(in_ratios(clear) - in_ratios(steps()), v_.about);
      case How::kAtLeast:
        return step_at(in_ratios(clear) - in_ratios(steps()), v_.about / 2);
      case How::kAtMost:
        return step_at(in_ratios(steps()) - in_ratios(clear), v_.about / 2);
      case How::kReads:
        return reads(departure);
      case How::kUnseen:
        return 1;
    }
    return 1;
  }

 private:
  /// What was told as an amount.
  double steps() const {
    const auto mean = static_cast<double>(usual_.number);
    const double amount = sign_.by_share ? o_.amount * std::fabs(mean) : o_.amount;
    return amount / static_cast<double>(usual_.step);
  }

  double reads(double departure_there) const {
    if (std::isnan(usual_.number)) return 0.5;
    const double read = departure(read_amount(), usual_);
    const double error = v_.meter_share * std::fabs(o_.amount) / static_cast<double>(usual_.step);
    const double large = v_.about / 2 * std::fabs(departure_there);
    const double width = std::sqrt(v_.alike * v_.alike + error * error + large * large);
    const double off = departure_there - std::clamp(read, -kMostSteps, kMostSteps);
    return hump(nearest_turn(off, sign_.source.around / static_cast<double>(usual_.step)), width);
  }

  /// What was read; as near to what is usual as whole turns of its dial bring it.
  double read_amount() const {
    const auto mean = static_cast<double>(usual_.number);
    return mean + nearest_turn(o_.amount - mean, sign_.source.around);
  }

  /// What is left without whole turns; all of it where there are none (`around` 0).
  static double nearest_turn(double number, double around) {
    return around > 0 ? number - around * std::round(number / around) : number;
  }

  const Observation& o_;
  const Sign& sign_;
  Usual usual_;
  const Vagueness& v_;
};

}  // namespace

double in_ratios(double steps) {
  const double size = det_log(1 + std::fabs(steps));
  return steps < 0 ? -size : size;
}

double from_ratios(double ratios) {
  const double size = det_exp(std::fabs(ratios)) - 1;
  return ratios < 0 ? -size : size;
}

double noticed(double clearness) {
  if (clearness <= 0) return 0;
  const double odds = clearness * clearness * clearness;
  return odds / (1 + odds);
}

double chance_of(const Observation& observation, const Shown& shown,
                 const std::vector<Usual>& usual, const std::vector<SignAt>& signs,
                 const Vagueness& vagueness) {
  if (observation.how == How::kUnseen) return 1;
  double sum = 0, most = 0;
  for (const std::size_t k : observation.which) {
    const std::size_t at = observation.span * signs.size() + k;
    const OfOne one(observation, *signs[k].sign, usual[at], vagueness);
    const double chance = one.chance(static_cast<double>(shown[at]));
    sum += chance;
    most = std::max(most, chance);
  }
  const double mean = sum / static_cast<double>(observation.which.size());
  if (observation.how == How::kNot) return 1 - most;
  if (observation.all || observation.which.size() == 1) return mean;
  return most * (1 - mean * mean * mean);  // who says "some" has seen others that are right
}

}  // namespace sixty::diagnose
