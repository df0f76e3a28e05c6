#pragma once

#include <string>

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

struct Look {
  bool labels = true;
  std::string hovered, selected;  ///< names of parts; empty: none
};

/// Paints building, wires, case and parts. `picture` must fit the installation.
void paint_stage(const Stage& stage, const Installation& installation, const Look& look,
                 Painter& painter);

/// Cameras of the three distances, for a window of that size. Units: pixels.
Camera building_camera(const Stage& stage, Pixel size);
Camera case_camera(const Stage& stage, Pixel size);
/// Range: the part is on the stage; else that of the case.
Camera part_camera(const Stage& stage, PartId part, Pixel size);

}  // namespace sixty::gui
