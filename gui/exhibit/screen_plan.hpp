#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <cstddef>
#include <vector>

#include "gui/paint/mesh.hpp"
#include "sim/exhibit/exhibit.hpp"

namespace sixty::gui {

/// Sizes on a screen of which its width is known. Units: pixels.
struct ScreenSizes {
  float letter = 0;  ///< em of what is read, by the distance of who reads it
  float target = 0;  ///< least side of what is touched
};
/// `size`: of the window.
ScreenSizes sizes_on(const exhibit::Screen& screen, Pixel size);

/// What a screen has to hold.
struct ScreenNeeds {
  std::size_t things = 0, hands = 0, languages = 0;
  bool another = false;
};

/// Where all of an exhibit stands on its screen: drawing and words above, what is touched below,
/// the things to do always at the same place. Units: pixels.
struct ScreenPlan {
  sf::FloatRect head, drawing, words;
  std::vector<sf::FloatRect> hands;  ///< the last one asks for another case, if there is one
  std::vector<sf::FloatRect> things, languages;

  ScreenPlan() = default;
  ScreenPlan(const exhibit::Screen& screen, Pixel size, const ScreenNeeds& needs);
  /// All that is touched.
  std::vector<sf::FloatRect> targets() const;

 private:
  void place_things(sf::FloatRect box, std::size_t rows, const ScreenNeeds& needs,
                    const ScreenSizes& sizes);
  /// One below the other at the foot of the box. Returns what is left of it.
  sf::FloatRect stack_hands(sf::FloatRect box, std::size_t count, const ScreenSizes& sizes);
};

}  // namespace sixty::gui
