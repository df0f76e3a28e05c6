#pragma once

#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty {

/// For each part: what the current of its coil can pass on its way from a source and back: the way
/// of least resistance with all contacts closed, and those through other contacts that lead there;
/// through other coils only where there is no other way. In the order of the parts, source and
/// itself among them. Range: empty of a part without a coil, and
/// of one that no source feeds.
std::vector<std::vector<PartId>> circuits_of(const Installation& installation);

}  // namespace sixty
