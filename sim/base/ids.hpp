#pragma once

#include <cstdint>

namespace sixty {

/// Number of an event, counted in the order of scheduling; 0 is the scene's start.
using EventId = std::uint64_t;
constexpr EventId kSceneStart = 0;

/// What only a full trace shows has this bit in its id. It is in no calendar, changes nothing and
/// causes nothing. Its id is not counted but made from the event that it follows: so it shifts no
/// other id, and is the same in every replay, wherever that begins.
/// Range: events below 2^42, up to 2^20 - 1 of either kind to each of them.
constexpr EventId kTraceOnly = EventId{1} << 63;

/// Parts of such an id.
struct TraceOnlyId {
  EventId follows = 0;    ///< an event of the calendar
  bool step = false;      ///< a step that a part took by itself, or else a note
  std::uint64_t nth = 0;  ///< how many-th after (or, a note, during) that event, from 1
};

constexpr EventId trace_only(const TraceOnlyId& parts) {
  return kTraceOnly | EventId{parts.step} << 62 | parts.follows << 20 | parts.nth;
}

constexpr TraceOnlyId parts_of(EventId trace_only_id) {
  return {trace_only_id << 2 >> 22, (trace_only_id >> 62 & 1) != 0,
          trace_only_id & ((EventId{1} << 20) - 1)};
}

}  // namespace sixty
