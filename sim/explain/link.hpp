#pragma once

#include <cstdint>
#include <string>

#include "sim/base/time.hpp"
#include "sim/part/links.hpp"

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

}  // namespace sixty::explain
