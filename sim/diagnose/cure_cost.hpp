#pragma once

#include <cstdint>
#include <vector>

#include "sim/diagnose/next_check.hpp"
#include "sim/diagnose/trial.hpp"

namespace sixty::diagnose {

/// What a cure costs on the average beside mending what is the matter: looking, its risk counted
/// in, and work at wrong places. Units: min; of all cases together.
struct CureCosts {
  std::size_t cases = 0;
  double proposed = 0;    ///< what is proposed is done, while it is worth more than it costs
  double exhaustive = 0;  ///< the least that any order of checks and work comes to
  double checklist = 0;   ///< every check that can tell any two apart, in the order of the book
  double random = 0;      ///< the same in any order
};

/// One case: the eight likeliest suspects that checks can tell apart, as they are believed after
/// what was told. Each would show what its best run shows; all checks are made without a mistake.
/// Source of the comparison with the exhaustive search: D. Heckerman, J. Breese & K. Rommelse,
/// "Decision-theoretic troubleshooting", Communications of the ACM 38 (1995), from memory.
/// Returns: nothing where there are fewer than three such suspects, with 0 cases.
CureCosts cure_costs(const Library& library, const Ranking& ranking,
                     const std::vector<Observation>& told, const CheckBook& checks,
                     std::uint64_t seed);

CureCosts& operator+=(CureCosts& sum, const CureCosts& one);

}  // namespace sixty::diagnose
