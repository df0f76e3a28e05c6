#include "sim/part/figure_pieces.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "sim/base/math.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty {

std::vector<Point> arc_of(Point centre, double radius, double from_rad, double to_rad, int pieces) {
  std::vector<Point> points;
  for (int k = 0; k <= pieces; ++k)
    points.push_back(centre + polar(radius, from_rad + (to_rad - from_rad) * k / pieces));
  return points;
}

std::vector<Point> spiral_of(double inner, double outer, double turns, double from_rad) {
  std::vector<Point> points;
  const int pieces = std::max(static_cast<int>(turns * 28), 12);
  for (int k = 0; k <= pieces; ++k) {
    const double share = static_cast<double>(k) / pieces;
    points.push_back(polar(inner + (outer - inner) * share, from_rad + 2 * kPi * turns * share));
  }
  return points;
}

std::vector<Point> helix_of(Point a, Point b, double radius, int coils) {
  const Point way = b - a;
  const double length = std::sqrt(way.x * way.x + way.y * way.y);
  const Point along = way * (1 / std::max(length, 1e-9));
  const Point across{along.y * radius, -along.x * radius};
  std::vector<Point> points{a};
  for (int k = 0; k < 2 * coils; ++k)
    points.push_back(a + way * ((k + 0.5) / (2 * coils)) + across * (k % 2 == 0 ? 1 : -1));
  points.push_back(b);
  return points;
}

void draw_screw(Figure& f, Point at, double radius, double slot_rad) {
  f.disc(Material::kSteel, at, radius, 1);
  const Point half = polar(0.7 * radius, slot_rad);
  f.line(Material::kHollow, std::array{at - half, at + half}, 0.3 * radius);
}

void draw_winding(Figure& f, Point corner, Point opposite, double radius, double current_a) {
  f.box(Material::kHollow, corner, opposite);
  const double row = radius * std::sqrt(3.0);
  bool odd = false;
  for (double y = corner.y + radius; y <= opposite.y - radius + 1e-9; y += row) {
    for (double x = corner.x + (odd ? 2 : 1) * radius; x <= opposite.x - radius + 1e-9;
         x += 2 * radius) {
      f.disc(Material::kCopper, {x, y}, 0.88 * radius).current_a = current_a;
    }
    odd = !odd;
  }
}

void draw_arrow(Figure& f, Material material, Point from, Point to, double width) {
  const Point way = to - from;
  const double length = std::sqrt(way.x * way.x + way.y * way.y);
  const Point along = way * (1 / std::max(length, 1e-9));
  const Point across{-along.y, along.x};
  const double head = std::min(4.5 * width, length);
  const Point neck = to - along * head;
  f.line(material, std::array{from, neck}, width);
  f.area(material, std::array{to, neck + across * (0.42 * head), neck - across * (0.42 * head)});
}

void draw_flux(Figure& f, Point a, Point b, double core_y, bool leftwards, double share) {
  if (share < 0.01) return;
  const double weight = std::clamp(share, 0.0, 1.0);
  const int lines = 1 + static_cast<int>(2.999 * weight);
  constexpr double kApart = 3;
  const double width = 0.7 + 0.7 * weight;
  // Round the rectangle so that it goes the right way along the core's side.
  const bool clockwise = leftwards == (core_y == b.y);
  for (int k = 0; k < lines; ++k) {
    const double in = kApart * (k - 0.5 * (lines - 1));
    const Point low{a.x + in, a.y + in}, high{b.x - in, b.y - in};
    const std::array<Point, 4> corners{low, Point{high.x, low.y}, high, Point{low.x, high.y}};
    for (std::size_t side = 0; side < 4; ++side) {
      const Point from = corners[side], to = corners[(side + 1) % 4];
      const Point middle = from + (to - from) * 0.56, before = from + (to - from) * 0.44;
      f.line(Material::kFlux, std::array{from, to}, width);
      if (k != lines / 2) continue;
      draw_arrow(f, Material::kFlux, clockwise ? before : middle, clockwise ? middle : before,
                 1.5 * width);
    }
  }
}

std::string measure_text(const char* what, double value, const char* unit) {
  // Of a gap that is closed there are no millimetres; metres it never had.
  const bool is_closed = value == 0 && std::string_view(unit) == "m";
  return std::string(tr(what)) + " " + (is_closed ? "0 mm" : spoken_quantity(value, unit));
}

namespace {

void draw_tray(Figure& f) {
  for (const auto& [terminal, x] : {std::pair("plus", -100.0), std::pair("minus", 100.0)}) {
    f.box(Material::kBrass, {x - 5, -12}, {x + 5, 4}, 2);
    f.terminal(terminal, {x, -8});
  }
  f.box(Material::kSlate, {-118, 0}, {118, 122}, 5);
  f.name_at({0, -22});
}

}  // namespace

void draw_cells(Figure& f, const Pose& at, std::size_t cells) {
  const Figure::Within within(f, at);
  draw_tray(f);
  const std::size_t in_row = std::max<std::size_t>((cells + 1) / 2, 4);
  const double wide = std::min(216.0 / static_cast<double>(in_row), 54.0);
  for (std::size_t k = 0; k < cells; ++k) {
    const double x = -108 + wide * static_cast<double>(k % in_row);
    const double y = k < in_row ? 16 : 70;
    f.box(Material::kSteel, {x + 2, y}, {x + wide - 2, y + 42}, 2);
    f.box(Material::kBrass, {x + 2, y}, {x + wide - 2, y + 9});
    f.box(Material::kBrass, {x + wide / 2 - 3, y - 5}, {x + wide / 2 + 3, y});
  }
}

void draw_transformer(Figure& f, const Pose& at) {
  const Figure::Within within(f, at);
  draw_tray(f);
  f.box(Material::kIron, {-70, 14}, {60, 108}, 3);
  f.box(Material::kHollow, {-44, 34}, {34, 88});
  for (const double x : {-52.0, 26.0}) draw_winding(f, {x, 34}, {x + 26, 88}, 3.4, 0);
  for (int k = 0; k < 4; ++k) f.box(Material::kSteel, {78, 18 + 22.0 * k}, {106, 34 + 22.0 * k}, 2);
}

void draw_spokes(Figure& f, Material material, int spokes, double hub, double rim, double wide) {
  for (int k = 0; k < spokes; ++k) {
    const Figure::Within spoke(f, {{}, 2 * kPi * k / spokes, 1});
    f.area(material,
           std::array{Point{-1.8 * wide, -hub}, Point{-1.2 * wide, -0.5 * (hub + rim)},
                      Point{-wide, -0.85 * rim}, Point{-1.7 * wide, -rim}, Point{1.7 * wide, -rim},
                      Point{wide, -0.85 * rim}, Point{1.2 * wide, -0.5 * (hub + rim)},
                      Point{1.8 * wide, -hub}},
           3);
  }
}

}  // namespace sixty
