#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty {

/// A place to lay a meter's tip on.
struct Terminal {
  PartId part = 0;
  std::string name;
  bool operator==(const Terminal&) const = default;
};

/// A meter as the installation feels it: a resistance between two terminals or, in series, in the
/// wire that is taken off one and led through the meter.
struct Hookup {
  Terminal a, b;  ///< `b` unused in series
  bool in_series = false;
  double resistance_ohm = 0;  ///< Range: > 0
};

using Hookups = std::vector<std::shared_ptr<const Hookup>>;

/// Equal for equal hookups.
std::string key_of(const Hookup& hookup);

/// Lays meters on. Order: when all terminals have their nodes, and before parts take theirs: the
/// terminal that a wire was taken off gets a node of its own, and the network's first resistors are
/// the meters.
void lay_on(const Hookups& hookups, Installation& installation, circuit::Network& network);

}  // namespace sixty
