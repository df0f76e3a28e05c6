#pragma once

#include <vector>

#include "sim/diagnose/ranking.hpp"

namespace sixty::diagnose {

/// What looks would show if each of the leading suspects were the truth, by their runs that fit
/// what was observed.
class Outlook {
 public:
  /// Order: the library outlives it.
  Outlook(const Library& library, const Ranking& ranking);
  /// Entropy of the beliefs that looking for all these signs at once takes away, on the average
  /// over what each of the runs would show. Units: bit.
  double gain_bits(const std::vector<std::size_t>& signs) const;
  /// Chance that a sign is found.
  double likely(std::size_t sign) const;

 private:
  struct Run {
    std::size_t suspect = 0;  ///< of the leaders
    std::size_t number = 0;   ///< of the library's cases
    std::size_t other = 0;    ///< of a pair, that of its second; otherwise the same
    double belief = 0;        ///< of the suspect, this run's share of it
  };
  /// Chances that each run shows each of the signs that any run shows; run by run.
  struct Looks {
    std::size_t signs = 0;
    std::vector<double> there, not_there;  ///< Units: natural logarithm
    /// Whether a run would show each sign.
    std::vector<bool> shown_by(std::size_t run) const;
  };
  double chance(const Run& run, std::size_t sign) const;
  Looks looks_for(const std::vector<std::size_t>& signs) const;
  /// Beliefs in the leaders, and in all else, where so much was shown.
  std::vector<double> after(const Looks& looks, const std::vector<bool>& shown) const;

  const Library& library_;
  std::vector<Run> runs_;
  std::vector<double> beliefs_;  ///< of the leaders; of all else
};

}  // namespace sixty::diagnose
