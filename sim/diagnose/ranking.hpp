#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/likelihood.hpp"

namespace sixty::diagnose {

/// One suspect after the evidence, or two at once.
struct Ranked {
  std::size_t suspect = 0;
  std::optional<std::size_t> second;  ///< of a pair
  double probability = 0;
  double beforehand = 1;  ///< so many times as likely by what was known beforehand
  double least_severity = 0, most_severity = 1;  ///< of the runs that fit best; of the first
  /// How likely each observation is with it, mistakes of who told it counted in.
  std::vector<double> chances;
  /// The library's cases of it that count, each with its share. Adds up to 1. Of a pair: one each.
  std::vector<std::pair<std::size_t, double>> runs;

  /// One, or both.
  std::vector<std::size_t> suspects() const {
    return second ? std::vector<std::size_t>{suspect, *second} : std::vector<std::size_t>{suspect};
  }
};

/// Less likely observations are not explained.
constexpr double kExplains = 0.35;

/// From which to which severity one of its suspects fits.
std::pair<double, double> severities_of(const Ranked& one, std::size_t suspect,
                                        const Library& library);

struct Ranking {
  std::vector<Ranked> ranked;    ///< the likeliest first
  double sound = 0;              ///< nothing is the matter
  double none_of_these = 0;      ///< something that is not in the library
  std::vector<double> expected;  ///< how likely each observation is before anything is known
  /// Observations that not even the leader explains.
  std::vector<std::size_t> unexplained;
};

/// An observation that is so much likelier with a suspect than it was before anything was known, or
/// so much less likely.
struct Speaks {
  std::size_t observation = 0;
  double weight = 1;  ///< Range: above 1
};
/// What speaks for a suspect, or against it; what speaks loudest first.
std::vector<Speaks> speaking(const Ranked& one, const Ranking& ranking, bool in_favour);

struct RankingOptions {
  Vagueness vagueness;
  double sound = 0.01, none = 0.05;  ///< priors (judgement)
  double two = 0.03;                 ///< of two at once, whichever they are (judgement)
  double trust = 0.9;  ///< in likelihoods, as a power of them: they come from few runs each
  double few = 1;      ///< runs of each kin of suspects by which one may be but half as sure
  const Fault* without = nullptr;          ///< as if the library did not know this one
  std::vector<std::size_t> excluded = {};  ///< suspects that it is known not to be
};

/// Weighs all suspects: exact Bayes over the library's runs. Range: at least one observation; a
/// library with cases.
Ranking rank(const Library& library, const std::vector<Observation>& observations,
             const RankingOptions& options);

}  // namespace sixty::diagnose
