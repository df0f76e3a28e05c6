#pragma once

#include <optional>
#include <vector>

#include "gui/views/loops.hpp"

namespace sixty::gui {

/// A room before it is known where it will stand.
struct Cell {
  std::string name;
  std::optional<std::size_t> loop;  ///< whose name it is, where no room of the plan is
  std::vector<PartId> parts;        ///< that hang in it
  std::vector<PartId> feeders;      ///< that have it for their room, but are drawn in the case
  int floor = 0;
  double share = 1;  ///< of what room is left, in its row
  bool has_case = false;
  bool outside = false;    ///< by itself on the plan
  bool divisible = false;  ///< no room of the plan: may be carried on in the next row
};

/// Rooms in the order in which they stand: floor by floor from the ground up, front range first,
/// each from left to right; rooms that follow from no plan last, the smallest first. One of them
/// has the case.
std::vector<Cell> cells_of(const Installation& installation, const std::vector<Loop>& loops);

}  // namespace sixty::gui
