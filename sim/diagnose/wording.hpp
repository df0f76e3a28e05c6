#pragma once

#include <string>
#include <vector>

#include "sim/diagnose/next_check.hpp"
#include "sim/diagnose/ranking.hpp"

/// How a diagnosis is put into words of the spoken language, the same wherever it is told. Parts
/// and rooms by their names as written in the scene.
namespace sixty::diagnose {

/// Those that are worth telling: the leader, and who follows with half a per cent or more.
std::vector<const Ranked*> worth_telling(const Ranking& ranking, std::size_t most);

/// "hall: points dirty"; of a pair both, with "and at the same time" between.
std::string title_of(const Ranked& one, const Library& library);
/// What to take care of with its faults, each said once; may be empty.
std::string care_of(const Ranked& one, const Library& library);

/// "F41 points-dirty @ hall, severity 0.2 to 0.7", the latter where a fault has degrees; of a
/// pair both.
std::string fault_words(const Ranked& one, const Library& library);

/// "clock_porch is slow (80 % with it, 3 % otherwise)".
std::string reason_words(const Speaks& reason, const Ranked& one, const Ranking& ranking,
                         const std::vector<Observation>& observations, const Library& library);

/// "T2 west": a check and where.
std::string title_of(const Proposal& proposal);
/// "Is it so that clock_porch is slow?": of the sign that tells most; of any part of its kind where
/// people are asked for all of them.
std::string question_words(const Proposal& proposal, const Library& library);
/// "0.43 bit, 5 min; a meter".
std::string effort_words(const Proposal& proposal);

}  // namespace sixty::diagnose
