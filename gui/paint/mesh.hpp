#pragma once

#include <SFML/Graphics/Color.hpp>
#include <SFML/Graphics/Vertex.hpp>
#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace sixty::gui {

using Pixel = sf::Vector2f;

/// Of a colour at a place across a line, as a vertex tells it: all of it as far as the full colour
/// goes, and a pixel farther nothing.
inline float share_across(sf::Vector2f across) {
  return std::clamp(1 + across.y - std::fabs(across.x), 0.0F, 1.0F);
}

/// Triangles with smooth edges: each edge ends in a strip, a pixel wide, that fades away. All in
/// pixels, x to the right, y down. Colours are not premultiplied. A vertex's second pair of numbers
/// tells where it lies across a line: how far from its middle, and how far its full colour goes;
/// share_across() says what is seen there.
class Mesh {
 public:
  const std::vector<sf::Vertex>& vertices() const { return vertices_; }
  /// Empty, with its memory kept for what comes next: to get megabytes anew for each frame takes
  /// longer than to fill them.
  void clear() { vertices_.clear(); }

  /// Inside of a polygon that does not cross itself, without smooth edges; `colour` by place.
  template <class Colour>
  void fill(std::span<const Pixel> outline, const Colour& colour) {
    for (const Pixel p : triangles_of(outline)) vertices_.emplace_back(p, colour(p));
  }
  /// Between two closed outlines of as many points.
  template <class Colour>
  void fill_between(std::span<const Pixel> outer, std::span<const Pixel> inner,
                    const Colour& colour) {
    for (std::size_t k = 0; k < outer.size(); ++k) {
      const std::size_t next = (k + 1) % outer.size();
      for (const Pixel p : {outer[k], outer[next], inner[k], inner[k], outer[next], inner[next]})
        vertices_.emplace_back(p, colour(p));
    }
  }
  /// A strip along a closed outline that fades from its colour, `inside` of it, to nothing,
  /// `outside` of it. Range: the outline goes clockwise as seen; see make_clockwise().
  void fade(std::span<const Pixel> outline, float inside, float outside, sf::Color colour);
  /// A smooth line. Thinner than a pixel it stays a pixel wide and loses colour.
  template <class Colour>
  void stroke(std::span<const Pixel> points, float width, bool closed, const Colour& colour) {
    const std::size_t from = vertices_.size();
    stroke_with(points, width, closed);
    const float share = std::min(width, 1.0F);
    for (std::size_t k = from; k < vertices_.size(); ++k) {
      sf::Vertex& corner = vertices_[k];
      corner.color = colour(corner.position);
      corner.color.a = static_cast<sf::Uint8>(static_cast<float>(corner.color.a) * share);
    }
  }
  /// Upright, without smooth edges; of one colour, or of a colour by place.
  void rectangle(Pixel corner, Pixel size, sf::Color colour) {
    rectangle(corner, size, [colour](Pixel) { return colour; });
  }
  template <class Colour>
  void rectangle(Pixel corner, Pixel size, const Colour& colour) {
    const Pixel right = corner + Pixel(size.x, 0), below = corner + Pixel(0, size.y);
    for (const Pixel p : {corner, right, below, below, right, corner + size})
      vertices_.emplace_back(p, colour(p));
  }
  /// Light along a line: its colour in the middle, nothing at half the width to either side.
  void shine(std::span<const Pixel> points, float width, sf::Color colour);
  /// A smooth disc; colour from the middle to the rim.
  void disc(Pixel centre, float radius, sf::Color middle, sf::Color rim);

 private:
  const std::vector<Pixel>& triangles_of(std::span<const Pixel> outline);
  struct End {
    Pixel at, out;
  };
  void stroke_with(std::span<const Pixel> points, float width, bool closed);
  void strip(End a, End b, float core, sf::Color colour);

  std::vector<sf::Vertex> vertices_;
  std::vector<Pixel> triangles_;  ///< kept between calls, for their memory
};

/// Turns an outline so that it goes clockwise as seen.
void make_clockwise(std::vector<Pixel>& outline);
/// How many sides make a circle of that radius look round.
int sides_of_circle(float radius);
std::vector<Pixel> circle(Pixel centre, float radius);

sf::Color mix(sf::Color a, sf::Color b, float share_of_b);
sf::Color with_alpha(sf::Color colour, float alpha);

}  // namespace sixty::gui
