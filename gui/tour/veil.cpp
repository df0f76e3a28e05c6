#include "gui/tour/veil.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr float kCell = 10;                       // pixels of the veil's grid
constexpr float kClear = 14;                      // pixels round what is lit that stay clear
constexpr float kFeather = 60;                    // over so many the veil comes in
constexpr float kDark = 170, kDarkOnLight = 185;  // of 255

float distance_to(const sf::FloatRect& box, Pixel p) {
  const float x = std::max({box.left - p.x, p.x - box.left - box.width, 0.0F});
  const float y = std::max({box.top - p.y, p.y - box.top - box.height, 0.0F});
  return std::sqrt(x * x + y * y);
}

}  // namespace

void paint_veil(const Stage& stage, const std::vector<PartId>& light, const sf::FloatRect& canvas,
                Painter& painter) {
  std::vector<sf::FloatRect> lit;
  for (const PartId part : light) {
    const Placed* placed = stage.find(part);
    if (placed == nullptr) continue;
    const auto [low, high] = placed->figure.bounds();
    const Pixel a = painter.camera().pixel(low), b = painter.camera().pixel(high);
    lit.emplace_back(a, b - a);
  }
  if (lit.empty()) return;
  const sf::Color ground = painter.theme().ground;
  const float full = painter.theme().is_dark ? kDark : kDarkOnLight;
  const auto veil = [&](Pixel p) {
    float nearest = kClear + kFeather;
    for (const sf::FloatRect& box : lit) nearest = std::min(nearest, distance_to(box, p));
    const float share = std::clamp((nearest - kClear) / kFeather, 0.0F, 1.0F);
    return with_alpha(ground, full / 255 * share * share * (3 - 2 * share));
  };
  for (float y = 0; y < canvas.height; y += kCell) {
    for (float x = 0; x < canvas.width; x += kCell) {
      const Pixel size(std::min(kCell, canvas.width - x), std::min(kCell, canvas.height - y));
      painter.mesh().rectangle({canvas.left + x, canvas.top + y}, size, veil);
    }
  }
}

}  // namespace sixty::gui
