#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/part/figure.hpp"

namespace sixty {

inline bool is_inside(Point p, const std::vector<Point>& outline) {
  bool inside = false;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Point a = outline[k];
    const Point b = outline[(k + 1) % outline.size()];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

inline double distance_to(Point p, const std::vector<Point>& outline) {
  double least = 1e9;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Point a = outline[k];
    const Point way = outline[(k + 1) % outline.size()] - a;
    const double length2 = way.x * way.x + way.y * way.y;
    const Point from = p - a;
    const double share =
        std::clamp((from.x * way.x + from.y * way.y) / std::max(length2, 1e-12), 0.0, 1.0);
    const Point off = from - way * share;
    least = std::min(least, std::sqrt(off.x * off.x + off.y * off.y));
  }
  return least;
}

/// How deep any corner of one outline lies in the other.
inline double overlap(const std::vector<Point>& corners, const std::vector<Point>& of) {
  double deepest = 0;
  for (const Point p : corners) {
    if (is_inside(p, of)) deepest = std::max(deepest, distance_to(p, of));
  }
  return deepest;
}

}  // namespace sixty
