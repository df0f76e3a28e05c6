#pragma once

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// Paints the house with its rooms and their names, and the loops' lines in them, lit by what flows
/// there; after it, the parts can be put in.
void paint_building(const Stage& stage, Painter& painter);
/// Paints what belongs to it and lies in front of the parts: badges, and the legend at the foot.
void paint_building_signs(const Stage& stage, Painter& painter);

/// Size of the names of rooms; 0: there is no room for them. Units: pixels.
float name_em(const Painter& painter);
/// Scale of the plan on which the house is laid out. Units: pixels to one of its own.
inline float plan_px(const Painter& painter) { return painter.camera().pixels(kUnit); }

}  // namespace sixty::gui
