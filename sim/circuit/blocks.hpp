#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// Less than this through a coil is nothing. Units: A.
constexpr double kNoCurrent = 1e-9;

/// The coil's armature moves, or it carries current.
bool is_active(const Coil& coil, const CoilState& state);

/// Which coils can be reached by a change: a network falls apart into blocks that hang together at
/// single nodes only (its biconnected components), and no current in one drives any in another.
/// Returns for each coil whether its block holds a source, a capacitor, or a coil in `active`.
std::vector<std::uint8_t> awake_coils(const Network& network, const State& state,
                                      const std::vector<std::uint8_t>& active);

}  // namespace sixty::circuit
