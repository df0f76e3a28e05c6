#pragma once

#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// The parts that one has to do with, each once, in the scene's order.
struct Neighbours {
  /// It takes a link of theirs or listens to them, or its current comes from them: from a source or
  /// a contact that a mechanism works, through whatever lies between.
  std::vector<PartId> fed_by;
  std::vector<PartId> feeds;   ///< they do so of it
  std::vector<PartId> joined;  ///< others, by a wire that joins no more than a few
};
Neighbours neighbours_of(const Installation& installation, PartId part);

}  // namespace sixty::gui
