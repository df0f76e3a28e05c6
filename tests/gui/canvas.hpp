#pragma once

#include <SFML/Graphics/Vertex.hpp>
#include <algorithm>
#include <span>
#include <vector>

namespace sixty::gui {

/// A piece of a window on which triangles are put down as a screen does it, without a screen.
class Canvas {
 public:
  /// Black. `corner`: its place in the window, in whole pixels.
  Canvas(sf::Vector2i corner, sf::Vector2i size);
  /// Puts triangles down, one over the other; what lies outside is left out.
  void put(std::span<const sf::Vertex> vertices);
  /// How many pixels of two of one size are not the same to the eye.
  int count_of_changed(const Canvas& other) const;
  /// Of its first pixel: the largest of its three colours, of 255.
  float brightness() const { return std::max({pixels_[0].r, pixels_[0].g, pixels_[0].b}); }

 private:
  struct Light {
    float r = 0, g = 0, b = 0;
  };
  void put(const sf::Vertex& a, const sf::Vertex& b, const sf::Vertex& c);

  sf::Vector2i corner_, size_;
  std::vector<Light> pixels_;
};

}  // namespace sixty::gui
