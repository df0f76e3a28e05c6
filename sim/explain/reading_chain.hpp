#pragma once

#include <vector>

#include "sim/explain/difference.hpp"
#include "sim/explain/link.hpp"

namespace sixty::explain {

/// What is behind readings that are others where everything is done as in a sound run: the first
/// one noticed, the one nearest to what is behind it, and that. Empty if no reading is.
std::vector<Link> chain_of_readings(Session& looked_at, Session& sound,
                                    const Comparison& comparison);

}  // namespace sixty::explain
