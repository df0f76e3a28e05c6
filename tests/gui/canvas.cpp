#include "tests/gui/canvas.hpp"

#include <algorithm>
#include <cmath>

#include "gui/paint/mesh.hpp"

namespace sixty::gui {
namespace {

constexpr float kSeen = 12;  // of 255, in all three colours together

/// Twice the area of a triangle, with the sign of its turn.
float turn(sf::Vector2f a, sf::Vector2f b, sf::Vector2f c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace

Canvas::Canvas(sf::Vector2i corner, sf::Vector2i size)
    : corner_(corner),
      size_(std::max(size.x, 0), std::max(size.y, 0)),
      pixels_(static_cast<std::size_t>(size_.x) * static_cast<std::size_t>(size_.y)) {}

void Canvas::put(std::span<const sf::Vertex> vertices) {
  for (std::size_t k = 0; k + 2 < vertices.size(); k += 3)
    put(vertices[k], vertices[k + 1], vertices[k + 2]);
}

/// Colours lie between those of the corners, by areas; a pixel is in it if its middle is.
void Canvas::put(const sf::Vertex& a, const sf::Vertex& b, const sf::Vertex& c) {
  const auto [low_x, high_x] = std::minmax({a.position.x, b.position.x, c.position.x});
  const auto [low_y, high_y] = std::minmax({a.position.y, b.position.y, c.position.y});
  const auto whole = [](float v, int from, int count) {
    return std::clamp(static_cast<int>(std::floor(v)) - from, 0, count);
  };
  const int left = whole(low_x, corner_.x, size_.x), right = whole(high_x + 1, corner_.x, size_.x);
  const int top = whole(low_y, corner_.y, size_.y), foot = whole(high_y + 1, corner_.y, size_.y);
  const float area = turn(a.position, b.position, c.position);
  if (area == 0) return;
  for (int y = top; y < foot; ++y) {
    for (int x = left; x < right; ++x) {
      const sf::Vector2f p(static_cast<float>(x + corner_.x) + 0.5F,
                           static_cast<float>(y + corner_.y) + 0.5F);
      const float of_a = turn(p, b.position, c.position) / area;
      const float of_b = turn(a.position, p, c.position) / area;
      const float of_c = 1 - of_a - of_b;
      if (of_a < 0 || of_b < 0 || of_c < 0) continue;
      const auto between = [&](sf::Uint8 sf::Color::*part) {
        return of_a * a.color.*part + of_b * b.color.*part + of_c * c.color.*part;
      };
      Light& pixel = pixels_[static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.x) +
                             static_cast<std::size_t>(x)];
      const sf::Vector2f across = of_a * a.texCoords + of_b * b.texCoords + of_c * c.texCoords;
      const float share = between(&sf::Color::a) / 255 * share_across(across);
      pixel.r += share * (between(&sf::Color::r) - pixel.r);
      pixel.g += share * (between(&sf::Color::g) - pixel.g);
      pixel.b += share * (between(&sf::Color::b) - pixel.b);
    }
  }
}

int Canvas::count_of_changed(const Canvas& other) const {
  int count = 0;
  for (std::size_t k = 0; k < pixels_.size(); ++k) {
    const Light &a = pixels_[k], &b = other.pixels_[k];
    if (std::fabs(a.r - b.r) + std::fabs(a.g - b.g) + std::fabs(a.b - b.b) > kSeen) ++count;
  }
  return count;
}

}  // namespace sixty::gui
