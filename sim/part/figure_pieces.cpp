#include "sim/part/figure_pieces.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/math.hpp"

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
