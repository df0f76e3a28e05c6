#pragma once

#include <functional>
#include <map>
#include <optional>

#include "sim/explain/deeds.hpp"
#include "sim/explain/readings.hpp"

namespace sixty::explain {

/// A deed that only one of two runs has.
struct Difference {
  Deed deed;
  bool missing = false;  ///< the run that is looked at lacks it; else only that one has it
  bool length = false;   ///< both have it, but in one it went on for longer: from deed.at on
};

/// How one kind of deed of one part differs through a run.
struct Tally {
  std::int64_t missing = 0, extra = 0;
  SimTime first = kNever;
};
using Tallies = std::map<std::pair<PartId, std::string_view>, Tally>;

/// What two runs of one installation have done differently.
struct Comparison {
  std::optional<Difference> first;
  Tallies tallies;
  std::vector<Deed> hands;  ///< that acted in the run that is looked at, and not in the other
  std::vector<OtherReading> readings;  ///< what one would read otherwise
};

/// For two sessions that are to be held against each other: what one has computed the other need
/// not.
Session::Options session_options();

/// Told now and then how far both runs have come; may throw to end them there.
using HasCome = std::function<void(SimTime)>;

/// Runs both up to `until`, by an hour at most between two calls of `has_come`. Errors: as
/// Session::run_until().
void run_both(Session& looked_at, Session& sound, SimTime until, const HasCome& has_come);

/// Runs both up to `until` and holds their deeds against each other. Deeds of a kind whose times
/// differ by less than a beat are the same. `only_first`: stops at the first deed that differs.
Comparison compare(Session& looked_at, Session& sound, SimTime until, bool only_first,
                   const HasCome& has_come = {});

}  // namespace sixty::explain
