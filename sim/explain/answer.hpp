#pragma once

#include <string>
#include <vector>

#include "sim/explain/link.hpp"
#include "sim/run/session.hpp"

namespace sixty::explain {

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
