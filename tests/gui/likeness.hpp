#pragma once

#include <SFML/Graphics/Image.hpp>
#include <string>

namespace sixty::gui {

/// How like two pictures are, at the place where they are least so. Smooth edges and letters that
/// another machine puts down a little otherwise change little of it.
struct Likeness {
  /// Structural similarity, at most 1, in the worst block. Source: Wang, Bovik, Sheikh and
  /// Simoncelli, "Image quality assessment: from error visibility to structural similarity", IEEE
  /// Transactions on Image Processing 13 (2004), pp. 600-612: window of 11 by 11 pixels, weights of
  /// a bell of 1.5 pixels, K1 = 0.01, K2 = 0.03.
  double structure = 1;
  /// Largest distance of two blocks' mean colours, as CIE 1976 L*a*b*. Source: CIE 15:2004, 8.2.1;
  /// colours are sRGB (IEC 61966-2-1).
  double colour = 0;
  /// Where each was found: corners of blocks, in pixels.
  sf::Vector2u structure_at, colour_at;

  /// Whether they show the same.
  bool is_same() const;
  std::string text() const;
};

/// Pixels of a block's side; blocks lie half of it apart.
constexpr unsigned kBlock = 12;

/// Range: both have the same size, no side of less than a block.
Likeness likeness(const sf::Image& a, const sf::Image& b);

/// Half as wide and high, each pixel the mean of four.
sf::Image halved(const sf::Image& image);

}  // namespace sixty::gui
