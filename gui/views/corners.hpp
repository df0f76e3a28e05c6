#pragma once

#include "gui/paint/painter.hpp"

namespace sixty::gui {

/// A frame of which but the corners are drawn: names stand above parts and below them. `a`: its
/// upper left corner, `b`: its lower right one. Units: pixels.
void paint_corners(Painter& painter, Pixel a, Pixel b, float width, sf::Color colour);

}  // namespace sixty::gui
