#include "gui/views/building_painter.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/paint/text_width.hpp"
#include "gui/views/badge.hpp"
#include "gui/views/line_painter.hpp"
#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr float kMostBadge = 15;  // pixels
constexpr float kLeastEm = 11.3F, kSmallestEm = 9, kMostEm = 22;

/// Of "room 101", "101": in a plan that says enough. The name, where that is not how it ends.
std::string number_alone(const std::string& name) {
  const std::size_t gap = name.rfind(' ');
  if (gap == std::string::npos || name.size() - gap < 3) return name;
  const bool is_number =
      std::all_of(name.begin() + static_cast<std::ptrdiff_t>(gap) + 1, name.end(),
                  [](unsigned char c) { return c >= '0' && c <= '9'; });
  return is_number ? name.substr(gap + 1) : name;
}

class BuildingPainter {
 public:
  BuildingPainter(const Stage& stage, Painter& painter)
      : house_(stage.house()), stage_(stage), painter_(painter) {
    const Theme& t = painter.theme();
    wall_ = t.is_dark ? mix(t.raised, t.rule, 0.45F) : mix(t.raised, t.rule, 0.4F);
    edge_ = mix(t.rule, t.edge, 0.45F);
    ceiling_ = room_colour(t);
    foot_ = t.is_dark ? mix(t.panel, t.ground, 0.55F) : mix(t.panel, t.ground, 0.8F);
  }

  void paint() {
    paint_ground();
    paint_roof();
    paint_walls();
    for (const Chamber& room : house_.chambers) paint_room(room);
    paint_case();
    paint_lines(stage_, painter_);
  }

 private:
  Pixel pixel(Point p) const { return painter_.camera().pixel(p); }
  float px(double plan) const { return painter_.camera().pixels(plan * kUnit); }

  void box(Point low, Point high, sf::Color colour) {
    const Pixel a = pixel(low);
    painter_.rectangle(a, pixel(high) - a, colour);
  }

  /// From one colour at the top to another at the foot.
  void fade_box(Point low, Point high, sf::Color top, sf::Color foot) {
    const Pixel a = pixel(low), b = pixel(high);
    const std::array<Pixel, 4> outline{a, Pixel(b.x, a.y), b, Pixel(a.x, b.y)};
    painter_.mesh().fill(
        outline, [&](Pixel p) { return mix(top, foot, (p.y - a.y) / std::max(b.y - a.y, 1.0F)); });
  }

  void stroke(Point a, Point b, float width, sf::Color colour) {
    painter_.line(std::array<Pixel, 2>{pixel(a), pixel(b)}, width, colour);
  }

  void paint_ground() {
    const Theme& t = painter_.theme();
    const double foot = house_.ground + kSlab;
    const double left = house_.box.first.x - 12 * kUnit, right = house_.box.second.x + 12 * kUnit;
    fade_box({left, house_.ground}, {right, foot}, wall_, mix(wall_, t.ground, 0.35F));
    stroke({left, house_.ground}, {right, house_.ground}, std::max(px(1.5), 1.0F), edge_);
  }

  void paint_roof() {
    const Theme& t = painter_.theme();
    const double over = 12 * kUnit, high = house_.eaves - house_.ridge;
    const double inset = std::min(1.4 * high, (house_.right - house_.left) / 4);
    const std::array<Pixel, 4> outline{pixel({house_.left - over / 2 + inset, house_.ridge}),
                                       pixel({house_.right + over / 2 - inset, house_.ridge}),
                                       pixel({house_.right + over, house_.eaves}),
                                       pixel({house_.left - over, house_.eaves})};
    const sf::Color top = mix(t.ground, wall_, 0.55F);
    const sf::Color low = mix(t.ground, wall_, 0.9F);
    const float from = outline[0].y, to = outline[2].y;
    painter_.mesh().fill(
        outline, [&](Pixel p) { return mix(top, low, (p.y - from) / std::max(to - from, 1.0F)); });
    constexpr int kSeams = 26;
    for (int k = 1; k < kSeams; ++k) {
      const float share = static_cast<float>(k) / kSeams;
      const Pixel a = outline[0] + (outline[1] - outline[0]) * share;
      const Pixel b = outline[3] + (outline[2] - outline[3]) * share;
      painter_.line(std::array<Pixel, 2>{a, b}, 1, mix(low, edge_, 0.35F));
    }
    painter_.mesh().stroke(outline, std::max(px(1.5), 1.0F), true, [&](Pixel) { return edge_; });
    // The eaves carry it all round.
    box({house_.left - over, house_.eaves}, {house_.right + over, house_.eaves + 5 * kUnit}, wall_);
    stroke({house_.left - over, house_.eaves}, {house_.right + over, house_.eaves},
           std::max(px(1.5), 1.0F), edge_);
  }

  void paint_walls() {
    box({house_.left, house_.eaves + 5 * kUnit}, {house_.right, house_.ground}, wall_);
    if (house_.shaft > house_.left && !house_.storeys.empty())
      box({house_.left + 5 * kUnit, house_.storeys.front().ceiling},
          {house_.shaft - 2 * kUnit, house_.storeys.back().floor}, ceiling_);
    for (const Storey& storey : house_.storeys)
      stroke({house_.left, storey.floor}, {house_.right, storey.floor}, std::max(px(1.2), 1.0F),
             edge_);
  }

  void paint_room(const Chamber& room) {
    const double wall = 1.6 * kUnit;
    const Point low{room.corner.x + wall, room.corner.y};
    const Point high{room.opposite.x - wall, room.opposite.y};
    if (room.outside) {
      paint_outside(room);
    } else {
      fade_box(low, high, ceiling_, foot_);
      stroke({high.x, low.y}, {high.x, high.y}, 1, edge_);
      stroke({low.x, low.y}, high.y > low.y ? Point{low.x, high.y} : low, 1,
             mix(wall_, painter_.theme().ground, 0.5F));
    }
    stroke({low.x, high.y}, high, std::max(px(1.2), 1.0F), edge_);
    write_name(room);
  }

  /// A post at its far end, to which the lines are led over.
  void paint_outside(const Chamber& room) {
    const double x = room.opposite.x - 4 * kUnit;
    const double top = room.corner.y + 4 * kUnit;
    stroke({x, top}, {x, room.opposite.y}, std::max(px(4), 1.5F), wall_);
    stroke({x - 2 * kUnit, top}, {x - 2 * kUnit, room.opposite.y}, 1, edge_);
  }

  /// Where its middle is seen. Units: pixels.
  float middle_of(const Chamber& room) const {
    return pixel({(room.corner.x + room.opposite.x) / 2, 0}).x;
  }

  std::string name_of(const Chamber& room) const {
    return words_of_key(room.loop ? words_of(stage_.lines().loops()[*room.loop]) : room.name);
  }

  /// A name wider than its room reaches under the next ones, as far as it does not come near the
  /// names of those.
  bool runs_into_another(const Chamber& room, float em) const {
    const float wide = text_width(name_of(room), em);
    return std::any_of(stage_.chambers().begin(), stage_.chambers().end(),
                       [&](const Chamber& other) {
                         if (other.name == room.name || other.name.empty()) return false;
                         if (std::fabs(other.opposite.y - room.opposite.y) > kSlab / 2)
                           return false;
                         const float apart = std::fabs(middle_of(other) - middle_of(room));
                         return apart < (wide + text_width(name_of(other), em)) / 2 + 0.7F * em;
                       });
  }

  void write_name(const Chamber& room) {
    float em = name_em(painter_);
    std::string name = name_of(room);
    const float wide = painter_.camera().pixels(room.opposite.x - room.corner.x) - 2;
    if (em == 0 || name.empty()) return;
    if (runs_into_another(room, em)) {
      name = number_alone(name);
      // Rooms are as wide as their names at the size of the plan, which may be too small to be
      // read.
      if (text_width(name, em) > wide)
        em = std::min(em, std::max(13 * plan_px(painter_), kSmallestEm));
      if (text_width(name, em) > wide) return;
    }
    const Pixel at = pixel({(room.corner.x + room.opposite.x) / 2, room.opposite.y + kSlab / 2});
    painter_.letters(
        {name, at, em, painter_.theme().second_text, Lettering::Align::kMiddle, false});
  }

  /// A cabinet of brass-bound wood would be an invention: a plain frame, dark within.
  void paint_case() {
    const auto [low, high] = stage_.case_box();
    const double around = 4 * kUnit;
    box(low - Point{around, around}, high + Point{around, around / 2}, wall_);
    const Pixel a = pixel(low - Point{around, around}), b = pixel(high + Point{around, around / 2});
    const std::array<Pixel, 5> frame{a, Pixel(b.x, a.y), b, Pixel(a.x, b.y), a};
    painter_.line(frame, 1, edge_);
  }

  const House& house_;
  const Stage& stage_;
  Painter& painter_;
  sf::Color wall_, edge_, ceiling_, foot_;
};

bool is_lit(const Stage& stage, const Painter& painter, std::size_t loop) {
  return painter.share_of_full(stage.lines().loop_a(loop)) > 0;
}

/// A sign stays one, however near it is.
float badge_radius(const Painter& painter) {
  return std::clamp(6.5F * plan_px(painter), 6.0F, kMostBadge);
}

void paint_part_badges(const Stage& stage, Painter& painter) {
  const float radius = badge_radius(painter);
  const float name = radius < kMostBadge ? 0 : kMostBadge;  // that the part's name takes up
  for (std::size_t k = 0; k < stage.lines().loops().size(); ++k) {
    const Loop& loop = stage.lines().loops()[k];
    if (!loop.numbered) continue;
    for (std::size_t i = 0; i < loop.parts.size(); ++i) {
      const Placed* placed = stage.find(loop.parts[i]);
      if (placed == nullptr || !painter.sees(placed->figure.bounds())) continue;
      const Pixel at =
          painter.camera().pixel(placed->pose.at + Point{0, 0.72 * stage.house().radius});
      const bool lit = painter.share_of_full(stage.lines().part_a(k, i)) > 0;
      paint_badge(painter, loop, at + Pixel(0, 1.5F * radius + name), radius, lit);
    }
  }
}

}  // namespace

sf::Color room_colour(const Theme& t) {
  return t.is_dark ? mix(t.panel, t.raised, 0.35F) : t.panel;
}

float name_em(const Painter& painter) {
  const float s = plan_px(painter);
  const float em = std::clamp(13 * s, kLeastEm, kMostEm);
  // Between small storeys, small ones; they are read as long as they are no smaller than that.
  const float most = painter.camera().pixels(kSlab) / 1.22F;
  return most < kSmallestEm ? 0 : std::min(em, most);
}

void paint_building(const Stage& stage, Painter& painter) {
  BuildingPainter(stage, painter).paint();
}

void paint_building_signs(const Stage& stage, Painter& painter) {
  paint_part_badges(stage, painter);
  const float radius = badge_radius(painter);
  for (const Tag& tag : stage.lines().tags())
    paint_badge(painter, stage.lines().loops()[tag.loop], painter.camera().pixel(tag.at), radius,
                is_lit(stage, painter, tag.loop));
  if (name_em(painter) > 0) paint_legend(stage, painter, name_em(painter));
}

}  // namespace sixty::gui
