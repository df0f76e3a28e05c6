#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <string>

namespace sixty::gui {

/// Writes what a window shows within a box, in pixels, as a picture. Errors: false.
bool save_picture(const sf::RenderWindow& window, const sf::IntRect& box, const std::string& path);
/// All of it.
bool save_picture(const sf::RenderWindow& window, const std::string& path);

}  // namespace sixty::gui
