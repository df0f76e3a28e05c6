#pragma once

#include <cstdint>

#include "sim/base/time.hpp"

namespace sixty {

/// Number of an event, counted in the order of scheduling; 0 is the scene's start.
using EventId = std::uint64_t;
constexpr EventId kSceneStart = 0;
/// Ids of events that exist only in the full trace have this bit set, so that tracing never shifts
/// the number of any other event.
constexpr EventId kTraceOnly = EventId{1} << 63;

/// Order of events at one instant: each phase sees what the earlier ones settled.
enum class Phase : std::uint8_t { kCommand, kFault, kMotion, kContact, kCircuit, kArmature, kObserve };

/// Something that happens at an instant. Plain data, copied with the calendar.
struct Event {
  SimTime at = 0;
  EventId id = 0;
  EventId cause = kSceneStart;  ///< the event being handled when this one was scheduled
  std::uint32_t target = 0;     ///< who handles it
  std::uint16_t kind = 0;       ///< meaning given by the target
  Phase phase = Phase::kMotion;
  std::int64_t number = 0;  ///< payload, meaning given by the kind
  double value = 0;         ///< payload, meaning given by the kind
};

}  // namespace sixty
