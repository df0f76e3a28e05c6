#pragma once

#include <utility>
#include <vector>

#include "sim/circuit/network.hpp"

namespace sixty::circuit {

/// A network built anew with other values, while the one before has been changed as it ran.
struct Rework {
  const Network& before;  ///< as it was built first
  const Network& after;   ///< as it is built now
  const Network& live;    ///< what became of the first
  /// Resistors of the first build and what they are in the other; those that only one has are left
  /// out. All other elements are as many in both, in the same order.
  std::vector<std::pair<std::size_t, std::size_t>> resistors;
};

/// Whether all that has a state of its own is there in both, in the same order.
bool same_shape(const Network& a, const Network& b);
/// What the new build would have become: its own values where they differ from the first build's,
/// elsewhere the live ones. Order: same_shape().
Network reworked(const Rework& rework);

}  // namespace sixty::circuit
