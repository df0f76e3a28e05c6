#pragma once

#include <optional>
#include <span>
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
  SimTime begins = 0, ends = 0;  ///< it ends as soon as no more of what is looked at changes
  PartId by = 0;                 ///< part of the event that begins it
  std::string kind;              ///< and its name
  std::vector<Event> events;     ///< of the lane's own part
};

/// Window of time in which a burst is seen.
struct Stretched {
  SimTime from = 0, length = 0;
};

constexpr SimTime kPause = 250 * kMillisecond;
/// What lasts longer is seen only by its end.
constexpr SimTime kLongest = kSecond;

/// The last that has begun by an instant about the first of some lanes of a part; nothing: none has
/// in the hour before. It lasts while any of them still changes. The session stands where it stood.
/// Range: at least one lane. Errors: throws RunFailure as it does.
std::optional<Burst> burst_before(Session& session, std::span<const LaneOf> lanes, SimTime now);

/// From just before it begins to a while behind its end, as far as it has gone by `now`; in steps,
/// so that it stays while time goes on. Range: burst.begins <= now.
Stretched window_of(const Burst& burst, SimTime now);

}  // namespace sixty::gui
