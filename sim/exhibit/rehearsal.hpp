#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim/exhibit/exhibit.hpp"
#include "sim/run/session.hpp"

namespace sixty::exhibit {

/// What a piece's run says of its words.
struct Rehearsed {
  std::vector<std::pair<double, std::string>> numbers;  ///< of its facts, with their units
  std::string flaw;  ///< what it claims and the run does not show; empty: all is so
};

/// Goes through a piece. Order: the session is of the exhibit's installation; it has the piece's
/// log afterwards. Errors: none; a run that cannot go on is the flaw.
Rehearsed rehearse(const Take& take, Session& session);

/// A piece with what is wrong with it.
struct Flaw {
  const Take* take = nullptr;
  std::string what;
};
/// Of a whole exhibit. Order: `opened` outlives them.
std::vector<Flaw> flaws_of(const Opened& opened);

}  // namespace sixty::exhibit
