#pragma once

#include <vector>

#include "sim/explain/difference.hpp"
#include "sim/explain/link.hpp"

namespace sixty::explain {

/// Why a run came to its first difference from a sound one: from what was seen first to what is
/// behind it, at most five links. Looks at nothing but what was recorded in both runs about that
/// time, and at states and values of parts that it has come to. Order: compare() has been called on
/// the same sessions; afterwards they stand elsewhere.
std::vector<Link> chain_of(Session& looked_at, Session& sound, const Comparison& comparison);

}  // namespace sixty::explain
