#pragma once

#include <string>
#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty::diagnose {

/// A part that is suspected, as it is marked: with its place in the ranking, and its share.
struct PlanMark {
  PartId part = 0;
  std::size_t place = 1;  ///< from 1
  double share = 0;       ///< its probability. Range: 0 to 1
};

/// The installation from above as an SVG picture: its floors with their rooms as the scene lays
/// them out, the highest first, and its parts in them. Marked parts have a ring and a line to a
/// hexagon with their number, filled for the first alone, with name and share. Parts in no room of
/// the plan stand in boxes of their own below.
std::string plan_svg(const Installation& installation, const std::vector<PlanMark>& marks);

}  // namespace sixty::diagnose
