#pragma once

#include <cstdint>

namespace sixty {

/// Number of an event, counted in the order of scheduling; 0 is the scene's start.
using EventId = std::uint64_t;
constexpr EventId kSceneStart = 0;
/// Ids of events that exist only in the full trace have this bit set, so that tracing never shifts
/// the number of any other event.
constexpr EventId kTraceOnly = EventId{1} << 63;

}  // namespace sixty
