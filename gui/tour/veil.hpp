#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <vector>

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// Dims what is not lit of the drawing within a box; nothing where no part is lit. Units: pixels.
void paint_veil(const Stage& stage, const std::vector<PartId>& light, const sf::FloatRect& canvas,
                Painter& painter);

}  // namespace sixty::gui
