#include "gui/views/badge.hpp"

#include <array>
#include <cmath>
#include <string>

namespace sixty::gui {
namespace {

constexpr std::array kDotted{2.2F, 3.0F};
constexpr std::array kDashed{8.0F, 5.0F};
constexpr std::array kLong{18.0F, 5.0F};
constexpr std::array kMixed{9.0F, 4.0F, 2.2F, 4.0F};
constexpr std::size_t kForms = 4;

std::vector<Pixel> corners(Pixel at, float radius, int count, float turn_rad) {
  std::vector<Pixel> points;
  for (int k = 0; k < count; ++k) {
    const float a = turn_rad + 6.2831853F * static_cast<float>(k) / static_cast<float>(count);
    points.push_back(at + Pixel(radius * std::sin(a), -radius * std::cos(a)));
  }
  return points;
}

/// Disc, square, triangle, hexagon, and again.
std::vector<Pixel> form_of(const Loop& loop, Pixel at, float radius) {
  constexpr float kEighth = 0.78539816F;
  if (!loop.numbered) return corners(at, 1.3F * radius, 4, kEighth);
  switch (static_cast<std::size_t>(loop.number - 1) % kForms) {
    case 0:
      return circle(at, radius);
    case 1:
      return corners(at, 1.3F * radius, 4, kEighth);
    case 2:
      return corners(at + Pixel(0, 0.12F * radius), 1.5F * radius, 3, 0);
    default:
      return corners(at, 1.15F * radius, 6, kEighth * 2 / 3);
  }
}

}  // namespace

std::span<const float> pattern_of(const Loop& loop) {
  if (loop.numbered) return {};
  if (loop.series) return kDotted;
  switch (static_cast<std::size_t>(loop.number - 1) % kForms) {
    case 0:
      return {};
    case 1:
      return kDashed;
    case 2:
      return kLong;
    default:
      return kMixed;
  }
}

void paint_badge(Painter& painter, const Loop& loop, Pixel at, float radius, bool lit) {
  const Theme& theme = painter.theme();
  const std::vector<Pixel> form = form_of(loop, at, radius);
  const bool filled = lit || !loop.numbered;
  const sf::Color edge = lit ? theme.current : theme.second_text;
  const sf::Color body = filled ? edge : theme.panel;
  painter.mesh().fill(form, [&](Pixel) { return body; });
  painter.mesh().stroke(form, 1.2F, true, [&](Pixel) { return edge; });
  const sf::Color ink = !filled ? theme.text : theme.is_dark ? theme.ground : theme.panel;
  painter.letters({std::to_string(loop.number), at + Pixel(0, 0.06F * radius), 1.55F * radius, ink,
                   Lettering::Align::kMiddle, true});
}

}  // namespace sixty::gui
