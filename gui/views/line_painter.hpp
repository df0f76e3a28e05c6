#pragma once

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// Paints the loops' lines, the dark ones first.
void paint_lines(const Stage& stage, Painter& painter);
/// Paints how each loop's line looks, its sign, its name and what it carries, at the foot of all.
/// Units: pixels.
void paint_legend(const Stage& stage, Painter& painter, float em);

/// Colour of a room where the lines run.
sf::Color room_colour(const Theme& theme);

}  // namespace sixty::gui
