#pragma once

#include <cstdint>

#include "sim/base/ids.hpp"
#include "sim/base/time.hpp"

namespace sixty {

/// Order of events at one instant: each phase sees what the earlier ones settled.
enum class Phase : std::uint8_t {
  kCommand,
  kFault,
  kMotion,
  kContact,
  kCircuit,
  kArmature,
  kObserve
};

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

/// The same event under an id. Member by member, because an event is copied right after its members
/// were written, and a copy in wider pieces would wait for those writes to reach the cache.
inline Event numbered(const Event& e, EventId id) {
  return {e.at, id, e.cause, e.target, e.kind, e.phase, e.number, e.value};
}

}  // namespace sixty
