#pragma once

#include <optional>
#include <vector>

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// What is shown of the stage at one moment.
struct Picture {
  SimTime at = 0;
  Stage stage;
  PartId watched = 0;  ///< whose readings these are
  std::vector<double> readings;
};

/// From how far it is looked at.
enum class View : std::uint8_t { kBuilding, kCase, kPart };

struct Look {
  std::optional<PartId> hovered, selected;
  Pixel pointer{-1, -1};        ///< near which the hovered part's name is told
  Pixel clear_low, clear_high;  ///< what no panel covers; nothing: the whole window
  bool hides_wrong = false;     ///< nothing tells what is wrong: for hunting faults
};

/// Paints building, wires, case and parts. Range: the stage is of that installation.
void paint_stage(const Stage& stage, const Installation& installation, const Look& look,
                 Painter& painter);

/// Cameras of the three distances, for a window of that size. Units: pixels.
Camera building_camera(const Stage& stage, Pixel size);
Camera case_camera(const Stage& stage, Pixel size);
/// Range: the part is on the stage; else that of the case.
Camera part_camera(const Stage& stage, PartId part, Pixel size);

}  // namespace sixty::gui
