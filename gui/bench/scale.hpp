#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <SFML/Window/Event.hpp>

namespace sixty::gui {

/// All that is drawn is laid out in pixels of the drawing; the window has `scale` of its own pixels
/// to each, so that letters and touch targets keep their size on a dense display.

/// Of what the command line, the settings (0: they ask for nothing) and the display ask for, the
/// first that asks. Range: as in the settings.
float chosen_scale(double command_line, double settings);

/// The next larger (`by` 1) or smaller (-1) one of those that keys choose from.
float next_scale(float scale, int by);

/// With its places in pixels of the drawing.
sf::Event in_drawing(sf::Event event, float scale);

/// In pixels of the window.
sf::IntRect in_window(const sf::FloatRect& box, float scale);

}  // namespace sixty::gui
