#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/views/loops.hpp"
#include "sim/part/figure.hpp"

namespace sixty::gui {

/// Units of the stage to one of the plan on which the house is laid out; one of those is a pixel in
/// the smallest window that shows all of it in full.
constexpr double kUnit = 2.5;

/// A room on the stage, cut open in front of the viewer, from its ceiling to its floor.
struct Chamber {
  std::string name;
  Point corner, opposite;
  std::size_t storey = 0;
  bool outside = false;             ///< a place of its own beside the house
  std::optional<std::size_t> loop;  ///< whose name it is, where no room of the plan is
};

/// A part on the wall of a room. Range of `stands_in_case`: a picture of what is drawn in the case.
struct Hanging {
  PartId part = 0;
  Pose pose;
  std::size_t storey = 0;
};

struct Storey {
  double ceiling = 0, floor = 0;
  std::vector<std::size_t> loops;  ///< that run along its ceiling, from top to bottom
  /// Height at which a loop runs.
  double lane(std::size_t loop) const;
};

/// The building: storeys cut open, one upon the other, with its rooms side by side as the plan has
/// them, front range first, the case where most of its parts are, and a roof. Rooms that lie by
/// themselves on the plan stand beside the house. What has no room hangs in one for its loop.
struct House {
  std::vector<Storey> storeys;  ///< from the roof down
  std::vector<Chamber> chambers;
  std::vector<Hanging> hangings;
  std::vector<Hanging> feeders;  ///< what is drawn in the case and yet has a room of its own
  double radius = 0;             ///< of what hangs there
  Pose case_pose;
  std::size_t case_storey = 0;
  double left = 0, right = 0;   ///< outer walls
  double shaft = 0;             ///< right wall of the shaft in which wires go up, at the left wall
  std::vector<double> lines_x;  ///< of each loop in the shaft
  double ridge = 0, eaves = 0, ground = 0;
  std::pair<Point, Point> box;  ///< of all, with room for the legend at the foot
};

constexpr double kSlab = 20 * kUnit;
constexpr Point kCaseBoard{1600, 1000};
constexpr int kLegendColumns = 5;
constexpr double kLegendLine = 22 * kUnit;

House build_house(const Installation& installation, const std::vector<Loop>& loops);

}  // namespace sixty::gui
