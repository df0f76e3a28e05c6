#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <string>

namespace sixty::gui {

/// Writes what a window shows within a box, in pixels, as a picture: a PNG file, whole or not at
/// all. Errors: false, with the reason in `error`; what was there before is there still. So it is
/// with a name that does not end in .png.
bool save_picture(const sf::RenderWindow& window, const sf::IntRect& box, const std::string& path,
                  std::string& error);
/// All of it.
bool save_picture(const sf::RenderWindow& window, const std::string& path, std::string& error);

}  // namespace sixty::gui
