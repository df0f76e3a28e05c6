#include "sim/diagnose/belief.hpp"

#include <algorithm>

#include "sim/base/math.hpp"

namespace sixty::diagnose {

std::vector<double> normalised(std::span<const double> weights) {
  double sum = 0;
  for (const double weight : weights) sum += weight;
  std::vector<double> shares(weights.begin(), weights.end());
  for (double& share : shares)
    share = sum > 0 ? share / sum : 1.0 / static_cast<double>(weights.size());
  return shares;
}

std::vector<double> posterior(std::span<const double> prior,
                              std::span<const double> log_likelihood) {
  double best = -1e300;
  for (std::size_t i = 0; i < prior.size(); ++i) {
    if (prior[i] > 0) best = std::max(best, log_likelihood[i]);
  }
  std::vector<double> weights;
  weights.reserve(prior.size());
  for (std::size_t i = 0; i < prior.size(); ++i) {
    const double below = log_likelihood[i] - best;
    weights.push_back(prior[i] > 0 && below > -700 ? prior[i] * det_exp(below) : 0);
  }
  return normalised(weights);
}

double entropy_bit(std::span<const double> beliefs) {
  double sum = 0;
  for (const double p : beliefs) {
    if (p > 0) sum -= p * det_log(p);
  }
  return sum / det_log(2);
}

double entropy_after_bit(std::span<const double> beliefs, std::span<const double> yes) {
  double left = 0;
  for (const bool outcome : {true, false}) {
    std::vector<double> joint;
    joint.reserve(beliefs.size());
    double chance = 0;
    for (std::size_t i = 0; i < beliefs.size(); ++i) {
      joint.push_back(beliefs[i] * (outcome ? yes[i] : 1 - yes[i]));
      chance += joint.back();
    }
    if (chance > 0) left += chance * entropy_bit(normalised(joint));
  }
  return left;
}

}  // namespace sixty::diagnose
