#pragma once

#include <string>
#include <vector>

#include "sim/diagnose/check.hpp"
#include "sim/diagnose/ranking.hpp"

namespace sixty::diagnose {

/// A check, and what it is worth now.
struct Proposal {
  const Check* check = nullptr;
  std::string place;               ///< a part, a line or zone, or empty: the whole installation
  std::vector<std::size_t> signs;  ///< of the installation: all that it shows
  std::size_t sign = 0;            ///< of those, the one that tells most
  double gain_bits = 0;            ///< entropy that it takes away on the average
  double saved_min = 0;  ///< work at wrong places that it saves, by what may follow it too
  double likely = 0;     ///< chance that that sign is found
  double cost = 0;       ///< Units: min, its risk counted in
};

/// What a check brings: work at wrong places saved, its own cost taken off. Units: min. Source of
/// one scale for checks and cures: J. Breese & D. Heckerman, "Decision-theoretic troubleshooting",
/// UAI (1996); of the gain in bits, and of looking one check ahead where the cost still to come is
/// not known: J. de Kleer & B. C. Williams, Artificial Intelligence 32 (1987).
double worth_min(const Proposal& one);

/// Every check that could be made, with all signs that it shows and that are not known yet. What
/// they are worth is not known.
std::vector<Proposal> possible_checks(const Library& library,
                                      const std::vector<Observation>& observations,
                                      const CheckBook& checks);

/// What to ask people, the most telling first; of what they know, and have not told yet.
std::vector<Proposal> next_questions(const Library& library, const Ranking& ranking,
                                     const std::vector<Observation>& observations,
                                     const CheckBook& checks, std::size_t most);

/// The checks that are worth most, the best first. What was observed already is left out, and where
/// one suspect is all but certain, what costs more than it brings.
std::vector<Proposal> next_checks(const Library& library, const Ranking& ranking,
                                  const std::vector<Observation>& observations,
                                  const CheckBook& checks, std::size_t most);

}  // namespace sixty::diagnose
