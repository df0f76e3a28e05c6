#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/strip/lanes.hpp"

namespace sixty::gui {

/// What goes on about a lane without a longer pause: events of its part, and others that change its
/// value.
struct Burst {
  struct Event {
    SimTime at = 0;
    std::string kind;
  };
  SimTime begins = 0, ends = 0;
  PartId by = 0;              ///< part of the event that begins it
  std::string kind;           ///< and its name
  std::vector<Event> events;  ///< of the lane's own part
};

/// Window of time in which a burst is seen.
struct Stretched {
  SimTime from = 0, length = 0;
};

constexpr SimTime kPause = 250 * kMillisecond;
/// What lasts longer is seen only by its end.
constexpr SimTime kLongest = kSecond;

/// The last that has begun by an instant; nothing: none has in the hour before. The session stands
/// where it stood. Errors: throws RunFailure as it does.
std::optional<Burst> burst_before(Session& session, const LaneOf& lane, SimTime now);

/// From just before it begins to a while behind its end, as far as it has gone by `now`; in steps,
/// so that it stays while time goes on. Range: burst.begins <= now.
Stretched window_of(const Burst& burst, SimTime now);

}  // namespace sixty::gui
