#pragma once

#include <cstdint>

#include "sim/base/time.hpp"
#include "sim/circuit/network.hpp"

namespace sixty::circuit {

/// What can happen inside a network at an instant that its own physics decides.
enum class What : std::uint8_t {
  kStarts,     ///< armature leaves the open stop (or a place where it stuck) and closes
  kSeats,      ///< armature arrives at its inner stop
  kLeaves,     ///< armature leaves the inner stop (or a place where it stuck) and opens
  kReturns,    ///< armature arrives at its open stop
  kSticks,     ///< armature comes to rest on its way
  kPasses,     ///< armature passes a mark
  kMakes,      ///< contact begins to conduct
  kBreaks,     ///< contact parts
  kSparkEnds,  ///< a spark has gone out; `volts` is its energy in joules
  kMelts,      ///< wire of a fuse; its contact still conducts
  kHeld,       ///< coil was driven, and its armature never left the open stop
};

/// One such happening. `needed` goes with kHeld: the volts that would have pulled in. `arrives`
/// goes with kStarts: what is left at the coil once all currents are steady and the armature is
/// seated, so that it can be compared with a meter and with Ohm's law; where nothing comes to rest
/// (something strikes on and on), the most volts seen at the coil when something happened to it.
struct Located {
  double t_s = 0;         ///< since the stretch began
  SimTime offset_ns = 0;  ///< the same, nearest nanosecond
  What what = What::kStarts;
  std::uint16_t code = 0;    ///< of a passed mark
  std::int32_t element = 0;  ///< coil, or contact for kMakes, kBreaks, kSparkEnds
  Owner owner = -1;
  std::int32_t cause = 0;  ///< see below
  double current_a = 0, volts = 0, gap_m = 0, speed_m_per_s = 0, needed_v = 0;
  double arrives_v = 0;
};

/// Values of Located::cause: an index into the stretch's own list, or one of these.
constexpr std::int32_t kCauseIsCut = -1;
/// What last changed the voltage at coil j before the stretch began, and what last set it moving.
constexpr std::int32_t cause_drive(std::size_t j) { return -2 - 2 * static_cast<std::int32_t>(j); }
constexpr std::int32_t cause_motion(std::size_t j) { return -3 - 2 * static_cast<std::int32_t>(j); }

}  // namespace sixty::circuit
