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
  std::map<PartId, int> count;  // several links may be about one part
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const Placed* placed = stage.find(parts[k]);
    if (placed == nullptr || placed->figure.shapes().empty()) continue;
    const auto [low, high] = placed->figure.bounds();
    const Pixel a = painter.camera().pixel(low) - Pixel(8, 8);
    const Pixel b = painter.camera().pixel(high) + Pixel(8, 8);
    const sf::Color colour = k == lit ? theme.wrong : theme.second_text;
    const float width = k == lit ? 2.5F : 1;
    painter.line(std::array{a, Pixel(b.x, a.y), b, Pixel(a.x, b.y), a}, width, colour);
    const Pixel at = a + Pixel(kApart * static_cast<float>(count[parts[k]]++), 0);
    painter.mesh().disc(at, kRadius + 2, theme.ground, theme.ground);
    painter.mesh().disc(at, kRadius, colour, colour);
    painter.letters({std::to_string(k + 1), at, 13, theme.ground, Lettering::Align::kMiddle, true});
  }
}

namespace {

void paint_terminals(const Placed& placed, Painter& painter) {
  for (const auto& [name, at] : placed.figure.terminals()) {
    const std::vector<Pixel> ring = circle(painter.camera().pixel(at), 6);
    painter.mesh().stroke(ring, 2, true, [&](Pixel) { return painter.theme().text; });
  }
}

}  // namespace

void paint_tips(const Stage& stage, std::span<const MeterTip> tips, bool all_terminals,
                Painter& painter) {
  const Theme& theme = painter.theme();
  if (all_terminals) {
    for (const Placed& placed : stage.parts()) paint_terminals(placed, painter);
  }
  for (std::size_t k = 0; k < tips.size(); ++k) {
    const Placed* placed = stage.find(tips[k].part);
    if (placed == nullptr) continue;
    const auto terminal = placed->figure.terminals().find(tips[k].terminal);
    if (terminal == placed->figure.terminals().end()) continue;
    const Pixel at = painter.camera().pixel(terminal->second);
    const Pixel flag = at + Pixel(16, -22);
    painter.line(std::array{at, flag}, 3, theme.grab);
    painter.mesh().disc(at, 4, theme.grab, theme.grab);
    painter.mesh().disc(flag, 10, theme.grab, theme.grab);
    painter.letters({k == 0 ? "+" : "-", flag, 15, theme.ground, Lettering::Align::kMiddle, true});
  }
}

}  // namespace sixty::gui
