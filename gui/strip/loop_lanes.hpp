#pragma once

#include <vector>

#include "gui/strip/lanes.hpp"
#include "gui/views/loops.hpp"

namespace sixty::gui {

/// What goes into a loop from the case, through all the ends that it has there. Units: A.
double fed_a(const Session& session, const Loop& loop);

/// A lane with its current for each line of clocks and each zone, under the name that the
/// building's legend has for it, in its order.
std::vector<LaneOf> lanes_of_loops(const Installation& installation);

}  // namespace sixty::gui
