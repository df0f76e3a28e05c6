#pragma once

#include <vector>

#include "sim/diagnose/ranking.hpp"

namespace sixty::diagnose {

constexpr double kWrongPlace_min = 60;  ///< of work, and harm done by it (judgement)

/// What looks would show if each of the leading suspects were the truth, by their runs that fit
/// what was observed.
class Outlook {
 public:
  /// Order: the library outlives it.
  Outlook(const Library& library, const Ranking& ranking);

  /// What comes of looking for some signs at once: runs that would show the same are one outcome.
  struct Answers {
    std::vector<std::size_t> of_run;  ///< outcome that each run leads to
    /// Of each outcome: its chance with each run, and last with all that is not among the leaders.
    std::vector<std::vector<double>> chances;
  };
  Answers answers(const std::vector<std::size_t>& signs) const;

  /// Entropy of the beliefs that is taken away on the average. Units: bit.
  double gain_bits(const Answers& answers) const;
  /// Work at wrong places that is saved on the average. Units: min.
  double saved_min(const Answers& answers) const;
  /// Another check that may follow, and what it costs. Units: min.
  struct Further {
    const Answers* answers;
    double cost_min;
  };
  /// The same where after each outcome the best of those is made, if it is worth it.
  double saved_min(const Answers& answers, const std::vector<Further>& further) const;
  /// Chance that a sign is found.
  double likely(std::size_t sign) const;

 private:
  struct Run {
    std::size_t suspect = 0;  ///< of the leaders
    std::size_t number = 0;   ///< of the library's cases
    std::size_t other = 0;    ///< of a pair, that of its second; otherwise the same
  };
  using Beliefs = std::vector<double>;  ///< in each run, and last in all else
  /// Chances that each run shows each of the signs that any run shows; run by run.
  struct Looks {
    std::size_t signs = 0;
    std::vector<double> there, not_there;  ///< Units: natural logarithm
    /// Whether a run would show each sign.
    std::vector<bool> shown_by(std::size_t run) const;
  };
  double chance(const Run& run, std::size_t sign) const;
  Looks looks_for(const std::vector<std::size_t>& signs) const;
  Beliefs chances_of(const Looks& looks, const std::vector<bool>& shown) const;
  /// Beliefs in the leaders, the last in all else.
  std::vector<double> by_suspect(const Beliefs& beliefs) const;
  double cost_to_go_min(const Beliefs& beliefs) const;
  /// Mean over the outcomes of what beliefs are worth after them.
  template <class Value>
  double mean_after(const Beliefs& before, const Answers& answers, const Value& value) const;

  const Library& library_;
  std::vector<Run> runs_;
  std::size_t leaders_ = 0;
  Beliefs now_;
};

}  // namespace sixty::diagnose
