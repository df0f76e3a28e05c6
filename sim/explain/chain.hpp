#pragma once

#include <string>
#include <vector>

#include "sim/explain/difference.hpp"

namespace sixty::explain {

/// One step of an answer: what was so at a part, measured against what was needed or what a sound
/// one has.
struct Link {
  enum class What : std::uint8_t {
    kDeed,
    kContact,
    kVolts,
    kNeed,
    kDrop,
    kDraws,
    kCondition,
    kValue,
    kHand
  };
  What what = What::kDeed;
  SimTime at = 0;
  PartId part = 0;
  std::string quantity, unit;  ///< empty: there is no number
  double measured = 0, expected = 0;
  std::string text;  ///< one sentence
};

/// Name of a kind of link, for data.
const char* name_of(Link::What what);

/// Why a run came to its first difference from a sound one: from what was seen first to what is
/// behind it, at most five links. Looks at nothing but what was recorded in both runs about that
/// time, and at states and values of parts that it has come to. Order: compare() has been called on
/// the same sessions; afterwards they stand elsewhere.
std::vector<Link> chain_of(Session& looked_at, Session& sound, const Comparison& comparison);

}  // namespace sixty::explain
