#pragma once

#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// The parts that one has to do with, each once, in the scene's order.
struct Neighbours {
  std::vector<PartId> fed_by;  ///< it takes a link of theirs, or listens to them
  std::vector<PartId> feeds;   ///< they do so of it
  std::vector<PartId> joined;  ///< by a wire that joins no more than a few
};
Neighbours neighbours_of(const Installation& installation, PartId part);

}  // namespace sixty::gui
