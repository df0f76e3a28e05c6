#include "gui/views/ghost.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace sixty::gui {
namespace {

constexpr float kElsewhere_px = 1.5F;
constexpr std::array kDashes_px{5.0F, 3.0F};
constexpr float kWidth_px = 1.5F;

class GhostPainter {
 public:
  explicit GhostPainter(Painter& painter) : painter_(painter) {}

  void paint(const Figure& is, const Figure& twin) {
    if (is.shapes().size() != twin.shapes().size()) return;  // built otherwise: no piece is another
    for (std::size_t k = 0; k < is.shapes().size(); ++k) {
      if (is_elsewhere(is, is.shapes()[k], twin, twin.shapes()[k])) outline(twin, twin.shapes()[k]);
    }
  }

 private:
  Pixel pixel(Point p) const { return painter_.camera().pixel(p); }

  bool is_elsewhere(const Figure& is, const Shape& ours, const Figure& twin,
                    const Shape& theirs) const {
    if (ours.form != theirs.form || ours.count != theirs.count) return false;
    const std::span<const Point> a = is.points(ours), b = twin.points(theirs);
    for (std::size_t k = 0; k < a.size(); ++k) {
      const Point off = b[k] - a[k];
      if (painter_.camera().pixels(std::fabs(off.x) + std::fabs(off.y)) > kElsewhere_px)
        return true;
    }
    return false;
  }

  void outline(const Figure& twin, const Shape& shape) {
    std::vector<Pixel> way;
    std::span<const Point> points = twin.points(shape);
    if (shape.form == Shape::Form::kBand) points = points.first(points.size() / 2);
    for (const Point p : points) way.push_back(pixel(p));
    if (shape.form == Shape::Form::kText) return;
    if (shape.form == Shape::Form::kDisc)
      way = circle(way[0], painter_.camera().pixels(shape.width));
    if (shape.form != Shape::Form::kLine) way.push_back(way.front());
    painter_.dashes(way, kWidth_px, painter_.theme().text, kDashes_px);
  }

  Painter& painter_;
};

/// A frame of which but the corners are drawn: names stand above parts and below them.
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

}  // namespace

void paint_ghost(const Picture& picture, Painter& painter) {
  GhostPainter ghosts(painter);
  const std::vector<Placed>& parts = picture.stage.parts();
  for (std::size_t k = 0; k < parts.size() && k < picture.twin->figures.size(); ++k) {
    if (painter.sees(parts[k].figure.bounds()))
      ghosts.paint(parts[k].figure, picture.twin->figures[k]);
  }
}

void paint_chain(const Stage& stage, std::span<const PartId> parts, std::size_t lit,
                 Painter& painter) {
  constexpr float kRadius = 11, kApart = 25;
  const Theme& theme = painter.theme();
  const auto paint = [&](std::size_t k, int above) {
    const Placed* placed = stage.find(parts[k]);
    if (placed == nullptr || placed->figure.shapes().empty()) return;
    const auto [low, high] = placed->figure.bounds();
    const Pixel a = painter.camera().pixel(low) - Pixel(8, 8);
    const Pixel b = painter.camera().pixel(high) + Pixel(8, 8);
    const sf::Color colour = k == lit ? theme.wrong : theme.second_text;
    paint_corners(painter, a, b, k == lit ? 3 : 1.5F, colour);
    // Down its side: above it and below it names stand.
    const Pixel at = a + Pixel(0, kApart * static_cast<float>(above));
    painter.mesh().disc(at, kRadius + 2, theme.ground, theme.ground);
    painter.mesh().disc(at, kRadius, colour, colour);
    painter.letters({std::to_string(k + 1), at, 13, theme.ground, Lettering::Align::kMiddle, true});
  };
  std::map<PartId, int> count;  // several links may be about one part
  int above_lit = 0;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const int above = count[parts[k]]++;
    if (k == lit)
      above_lit = above;
    else
      paint(k, above);
  }
  // Over those of the same part that come later, and over neighbours.
  if (lit < parts.size()) paint(lit, above_lit);
}

namespace {

void paint_terminals(const Placed& placed, Painter& painter) {
  if (placed.figure.terminals().empty()) return;
  const float radius = painter.camera().pixels(ring_of(placed.figure));
  if (radius < kLeastRing_px) return;
  const float width = radius < 4 ? 1.4F : 2;
  for (const auto& [name, at] : placed.figure.terminals()) {
    const Pixel middle = painter.camera().pixel(at);
    const std::vector<Pixel> ring = circle(middle, std::min(radius, kMostRing_px));
    // It is seen on ivory as on slate.
    painter.mesh().stroke(ring, width + 2, true, [&](Pixel) { return painter.theme().ground; });
    painter.mesh().stroke(ring, width, true, [&](Pixel) { return painter.theme().text; });
  }
}

using Extent = std::pair<Pixel, Pixel>;
constexpr float kHalf = 12;  // of a flag; pixels

Extent extent_of_flag(Pixel at) {
  const Pixel half(kHalf + 3, kHalf + 3);
  return {at - half, at + half};
}

bool meet(const Extent& a, const Extent& b) {
  return a.first.x < b.second.x && a.second.x > b.first.x && a.first.y < b.second.y &&
         a.second.y > b.first.y;
}

/// Flags of one pair lie to one side, its plus above and its minus below: so they keep apart where
/// terminals are near each other. Where words or another flag are in the way, it lies farther off,
/// or on the other side.
Pixel place_of_flag(const MeterTip& tip, Pixel at, const std::vector<Extent>& taken) {
  const float side = tip.letter == "B" ? -1 : 1;
  const float up = tip.sign == MeterTip::Sign::kMinus ? 1 : -1;
  const Pixel first = at + Pixel(22 * side, 24 * up);
  constexpr std::array kFarther{1.0F, 1.6F, 2.2F, 2.8F};
  const std::array turns{Pixel(1, 1), Pixel(1, 0), Pixel(0, 1), Pixel(-1, 1), Pixel(1, -1)};
  for (const float farther : kFarther) {
    for (const Pixel turn : turns) {
      const Pixel place = at + Pixel(22 * side * turn.x * farther, 24 * up * turn.y * farther);
      const Extent box = extent_of_flag(place);
      if (std::none_of(taken.begin(), taken.end(), [&](const Extent& e) { return meet(box, e); }))
        return place;
    }
  }
  return first;
}

/// A flag whose shape tells the pair.
void paint_flag(const MeterTip& tip, Pixel at, Painter& painter) {
  const Theme& theme = painter.theme();
  if (tip.letter == "B") {
    painter.rectangle(at - Pixel(kHalf + 1, kHalf + 1), {2 * kHalf + 2, 2 * kHalf + 2},
                      theme.ground);
    painter.rectangle(at - Pixel(kHalf, kHalf), {2 * kHalf, 2 * kHalf}, theme.grab);
  } else {
    painter.mesh().disc(at, kHalf + 2, theme.ground, theme.ground);
    painter.mesh().disc(at, kHalf + 1, theme.grab, theme.grab);
  }
  const char* sign = tip.sign == MeterTip::Sign::kPlus    ? "+"
                     : tip.sign == MeterTip::Sign::kMinus ? "\u2212"
                                                          : "";
  painter.letters({tip.letter + sign, at, 13, theme.ground, Lettering::Align::kMiddle, true});
}

void paint_tip(const MeterTip& tip, Pixel at, Pixel flag, Painter& painter) {
  const Theme& theme = painter.theme();
  painter.line(std::array{at, flag}, 5, theme.ground);
  painter.line(std::array{at, flag}, 3, theme.grab);
  if (tip.sign == MeterTip::Sign::kThrough) {
    painter.mesh().stroke(circle(at, 8), 3, true, [&](Pixel) { return theme.grab; });
  } else {
    painter.mesh().disc(at, 5, theme.ground, theme.ground);
    painter.mesh().disc(at, 4, theme.grab, theme.grab);
  }
  paint_flag(tip, flag, painter);
}

}  // namespace

void paint_tips(const Stage& stage, std::span<const MeterTip> tips, bool all_terminals,
                const Drawn& drawn, Painter& painter) {
  if (all_terminals) {
    for (const Placed& placed : stage.parts()) {
      if (drawn.has(placed.part)) paint_terminals(placed, painter);
    }
  }
  std::vector<Extent> taken;
  for (const Lettering& words : painter.letterings()) taken.push_back(extent_of(words));
  for (const MeterTip& tip : tips) {
    const Placed* placed = drawn.has(tip.part) ? stage.find(tip.part) : nullptr;
    if (placed == nullptr) continue;
    const auto terminal = placed->figure.terminals().find(tip.terminal);
    if (terminal == placed->figure.terminals().end()) continue;
    const Pixel at = painter.camera().pixel(terminal->second);
    const Pixel flag = place_of_flag(tip, at, taken);
    taken.push_back(extent_of_flag(flag));
    paint_tip(tip, at, flag, painter);
  }
}

}  // namespace sixty::gui
