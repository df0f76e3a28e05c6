#include "gui/views/corners.hpp"

#include <algorithm>
#include <array>

namespace sixty::gui {

void paint_corners(Painter& painter, Pixel a, Pixel b, float width, sf::Color colour) {
  const float x = std::min(0.25F * (b.x - a.x), 40.0F), y = std::min(0.3F * (b.y - a.y), 40.0F);
  const auto corner = [&](Pixel at, float way_x, float way_y) {
    painter.line(std::array{at + Pixel(way_x, 0), at, at + Pixel(0, way_y)}, width, colour);
  };
  corner(a, x, y);
  corner({b.x, a.y}, -x, y);
  corner(b, -x, -y);
  corner({a.x, b.y}, x, -y);
}

}  // namespace sixty::gui
