#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::explain {

constexpr const char* kCoilVolts = "volts at the coil";  ///< the condition of that name

constexpr SimTime kBefore = 61 * kSecond;  ///< a minute's deeds hang together
constexpr SimTime kBehind = 3 * kSecond;   ///< till what began then is over

/// A record of a full trace, kept.
struct Kept {
  struct Needed {
    std::string what;
    double measured = 0, needed = 0;
    bool met = false;
  };
  Event event;
  PartId part = 0;
  std::string kind;
  bool acted = true;
  bool located = false;
  circuit::Located happening;  ///< if it is one
  std::vector<Needed> conditions;
};

/// All that a full trace has of a span of a run. The session then stands at its end.
std::vector<Kept> records_of(Session& session, SimTime from, SimTime to);

/// The same of two runs, side by side.
struct BothRecords {
  BothRecords(Session& looked_at, Session& twin, SimTime from, SimTime to);
  std::vector<Kept> ours, sound;
};

/// Of a part, of one kind of event, with that outcome, nearest to an instant and no farther than
/// `within`; nullptr if there is none.
const Kept* nearest(const std::vector<Kept>& records, PartId part, std::uint16_t kind, SimTime at,
                    SimTime within, bool acted);
/// The last time up to `at` that a part's contact made; nullptr if it did not.
const Kept* last_made(const std::vector<Kept>& records, PartId part, SimTime at);
/// The part whose contact a condition is about: it bears the part's name, perhaps with a number.
std::optional<PartId> part_named_by(const std::string& condition, const Installation& scene);
const Kept* by_id(const std::vector<Kept>& records, EventId id);

}  // namespace sixty::explain
