#pragma once

#include <string>
#include <vector>

#include "sim/explain/difference.hpp"
#include "sim/explain/link.hpp"
#include "sim/run/session.hpp"

namespace sixty::explain {

/// A part, and the kinds of its events of which any is meant.
struct Asked {
  PartId part = 0;
  std::vector<std::string> kinds;
};

/// What somebody asks about: "starts hall_clock @ Mon 10:15:35". Several are asked about at once
/// where people have one word for them, as for all that rings in a zone.
struct Question {
  std::vector<Asked> any;
  SimTime at = 0;            ///< what is nearest to it is meant
  SimTime from = 0, to = 0;  ///< nothing outside of this is
};

/// An answer: whether it happened, when, and why or why not.
struct Answer {
  enum class Kind : std::uint8_t {
    kHappened,      ///< links from the first cause to what happened
    kUnexpected,    ///< it happened, and a sound installation has it not; links as of chain_of()
    kDidNot,        ///< links as of chain_of(): a sound installation has it
    kNeverExpected  ///< neither has it; no links
  };
  Kind kind = Kind::kNeverExpected;
  PartId part = 0;  ///< which one is told about
  std::string event_kind;
  SimTime at = 0;
  std::size_t did = 0, expected = 0;  ///< how many of those asked about did it, and do when sound
  std::vector<Link> links;
};

/// Looks for the events that are asked about. What did not happen is told before what did. Order:
/// fresh sessions. Range: something is asked about. `has_come`: told on the way there, and again as
/// both runs are held against each other.
Answer answer_to(const Question& question, Session& looked_at, Session& sound,
                 const HasCome& has_come = {});

/// In one sentence what happened, or did not; of several asked about, how many, in a second one.
std::string headline(const Answer& answer, const Question& question, const Installation& scene);

}  // namespace sixty::explain
