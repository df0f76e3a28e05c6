#pragma once

#include <span>
#include <vector>

namespace sixty::diagnose {

/// Weights that add up to 1. Range: weights >= 0; where all are 0, each gets the same.
std::vector<double> normalised(std::span<const double> weights);

/// Beliefs after evidence, by Bayes' rule: prior times likelihood, normalised. Likelihoods come as
/// natural logarithms, so that many small ones do not vanish. Source: S. Russell & P. Norvig,
/// Artificial Intelligence: A Modern Approach, chapter on probabilistic reasoning.
/// Range: as many of one as of the other.
std::vector<double> posterior(std::span<const double> prior,
                              std::span<const double> log_likelihood);

/// Entropy. Units: bit. Range: beliefs that add up to 1. Source: C. E. Shannon, "A mathematical
/// theory of communication" (1948).
double entropy_bit(std::span<const double> beliefs);

/// Entropy that is left on the average after a test with two outcomes. Units: bit. `yes`: chance of
/// the first outcome under each hypothesis. Source: J. de Kleer & B. C. Williams, "Diagnosing
/// multiple faults", Artificial Intelligence 32 (1987): the test with the least is the one to make.
double entropy_after_bit(std::span<const double> beliefs, std::span<const double> yes);

}  // namespace sixty::diagnose
