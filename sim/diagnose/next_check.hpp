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
  double likely = 0;               ///< chance that that sign is found
  double cost = 0;                 ///< Units: min, its risk counted in
};

/// What a check brings: an hour of work at the wrong place saved for each bit (judgement), its own
/// cost taken off. Units: min. Source of the gain: J. de Kleer & B. C. Williams, Artificial
/// Intelligence 32 (1987); of one scale for checks and cures: J. Breese & D. Heckerman,
/// "Decision-theoretic troubleshooting", UAI (1996).
double worth_min(const Proposal& one);

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
