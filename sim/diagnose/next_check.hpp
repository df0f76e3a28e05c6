#pragma once

#include <vector>

#include "sim/diagnose/check.hpp"
#include "sim/diagnose/ranking.hpp"

namespace sixty::diagnose {

/// A check at one part, and what it is worth now.
struct Proposal {
  const Check* check = nullptr;
  std::size_t sign = 0;  ///< of the installation: what is looked for
  double gain_bits = 0;  ///< entropy that it takes away on the average
  double likely = 0;     ///< chance that the sign is found
  double cost = 0;       ///< Units: min, its risk counted in
};

/// The checks that tell most for their trouble and risk, the best first: entropy taken away for
/// each minute, risk counted as minutes, over the suspects that matter. What was observed already
/// is left out. Source: J. de Kleer & B. C. Williams, Artificial Intelligence 32 (1987), for the
/// gain; the quotient by cost is a rule of thumb.
std::vector<Proposal> next_checks(const Library& library, const Ranking& ranking,
                                  const std::vector<Observation>& observations,
                                  const CheckBook& checks, std::size_t most);

}  // namespace sixty::diagnose
