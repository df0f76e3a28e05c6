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

/// What somebody asks about: "starts hall_clock @ Mon 10:15:35".
struct Question {
  std::string kind;
  PartId part = 0;
  SimTime at = 0;
};

/// An answer: whether it happened, when, and why or why not.
struct Answer {
  enum class Kind : std::uint8_t {
    kHappened,      ///< links from the first cause to what happened
    kDidNot,        ///< links as of chain_of(): a sound installation has it
    kNeverExpected  ///< neither has it; no links
  };
  Kind kind = Kind::kNeverExpected;
  SimTime at = 0;
  std::vector<Link> links;
};

/// Looks for the nearest event of that kind and part within a minute. Order: fresh sessions.
Answer answer_to(const Question& question, Session& looked_at, Session& sound);

}  // namespace sixty::explain
