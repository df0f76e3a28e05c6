#pragma once

#include <optional>

#include "sim/run/session.hpp"

namespace sixty::explain {

/// Where a coil's way loses volts that it does not lose in a sound run, or a source that gives
/// less.
struct Loss {
  PartId part = 0;
  bool source = false;
  double ours_v = 0, sound_v = 0;  ///< lost there; of a source, at its terminals
  double more_v = 0;               ///< lost than in the sound run
};

/// The greatest, at the moments at which the sessions stand; nothing if none is lost.
std::optional<Loss> greatest_loss(const Session& looked_at, const Session& sound, std::size_t coil);

}  // namespace sixty::explain
