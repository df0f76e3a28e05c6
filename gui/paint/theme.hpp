#pragma once

#include <SFML/Graphics/Color.hpp>
#include <array>

#include "sim/part/figure.hpp"

namespace sixty::gui {

/// How a material looks: filled from top left to bottom right, a darker outline, and an edge that
/// catches the light.
struct Finish {
  sf::Color top_left, bottom_right, outline, light;
};

/// Colours of the drawing. Contrast of texts against what they stand on: 4.5 to 1 or more (WCAG
/// 2.1, success criterion 1.4.3).
struct Theme {
  bool is_dark = true;
  sf::Color ground, panel, raised;
  sf::Color text, second_text;
  sf::Color wire;          ///< at rest
  sf::Color current;       ///< at the full
  sf::Color current_core;  ///< brightest, within
  sf::Color current_bed;   ///< what it lies in, where no light can be seen
  sf::Color wrong, right;
  sf::Color rule, edge;
  sf::Color grab;    ///< of what is drawn along or ticked
  sf::Color shadow;  ///< not opaque
  /// Of lanes of time: contacts, currents, strokes, volts. Source: colour-blind-safe set of Okabe
  /// and Ito (2008), lightened for a dark ground and darkened for a light one.
  std::array<sf::Color, 4> lanes;

  const Finish& finish(Material material) const;
};

const Theme& dark_theme();
const Theme& light_theme();

/// Ratio of the luminances of two opaque colours, 1 to 21. Source: WCAG 2.1, relative luminance and
/// contrast ratio.
double contrast(sf::Color a, sf::Color b);

}  // namespace sixty::gui
