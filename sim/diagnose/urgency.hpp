#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// With which suspects to begin where something was noticed: by their priors, and by how near their
/// parts stand to those that were named, in the wiring and in what drives what.
std::vector<double> urgency_of(const Library& library,
                               const std::vector<Observation>& observations);

}  // namespace sixty::diagnose
