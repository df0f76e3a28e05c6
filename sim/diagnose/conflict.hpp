#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// Two observations that cannot both be so: indices, the smaller first.
using Conflict = std::pair<std::size_t, std::size_t>;

/// Which of them contradict each other, whatever the matter may be: one sign at one part in the
/// same hours is said to be there and not to be; or to be there with another with which it means
/// nothing (a clock that stands is not fast). "Only some" contradicts nothing. In order.
std::vector<Conflict> conflicts_among(const std::vector<Observation>& observations,
                                      const std::vector<SignAt>& signs);

/// "these do not go together: A; and B".
std::string conflict_words(const Conflict& conflict, const std::vector<Observation>& observations,
                           const std::vector<SignAt>& signs);

}  // namespace sixty::diagnose
