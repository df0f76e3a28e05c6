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

/// The same from a first deed alone: where nothing is behind it that can be seen about that time,
/// the chain ends there. Range: there is a first deed.
std::vector<Link> chain_of_deed(Session& looked_at, Session& sound, const Comparison& comparison);

/// A place at which something goes otherwise than in a sound run.
struct Behind {
  PartId part = 0;
  SimTime at = 0, at_in_sound = 0;
  int coil = -1;  ///< driven then; -1: none was
};

/// What is behind it: volts that are lost on the way to a coil, a coil that needs others, a value
/// that is another, a hand. Order: as chain_of().
std::vector<Link> chain_behind(Session& looked_at, Session& sound, const Comparison& comparison,
                               const Behind& behind);

}  // namespace sixty::explain
