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

/// What can be reached by a change: a network falls apart into blocks that hang together at single
/// nodes only (its biconnected components), and no current in one drives any in another. Told for
/// each is whether its block holds a source, a capacitor, or a coil in `active`.
struct Awake {
  std::vector<std::uint8_t> coils, contacts, resistors, diodes;
};
Awake find_awake(const Network& network, const State& state,
                 const std::vector<std::uint8_t>& active);
/// The same once all is steady: capacitors carry nothing, and only a source keeps a block awake.
Awake find_fed(const Network& network, const State& state);

}  // namespace sixty::circuit
