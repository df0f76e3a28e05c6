#include "gui/paint/mesh.hpp"

#include <GL/glu.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <memory>

#include "sim/base/math.hpp"

namespace sixty::gui {
namespace {

constexpr float kPi_f = static_cast<float>(kPi);

Pixel times(Pixel p, float k) { return {p.x * k, p.y * k}; }

float length(Pixel p) { return std::sqrt(p.x * p.x + p.y * p.y); }

Pixel unit(Pixel p) {
  const float l = length(p);
  return l > 1e-6F ? Pixel(p.x / l, p.y / l) : Pixel(0, 0);
}

/// To the left of the way from a to b, as seen.
Pixel left_of(Pixel a, Pixel b) {
  const Pixel way = unit(b - a);
  return {way.y, -way.x};
}

/// At a corner, the way along which both edges' borders meet; not farther out than three widths.
Pixel mitre(Pixel before, Pixel after) {
  const Pixel sum = unit(before + after);
  const float share = sum.x * after.x + sum.y * after.y;
  return times(sum, 1 / std::max(share, 0.34F));
}

float area_of(std::span<const Pixel> outline) {
  float twice = 0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Pixel a = outline[k];
    const Pixel b = outline[(k + 1) % outline.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

bool is_convex(std::span<const Pixel> outline) {
  bool left = false;
  bool right = false;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Pixel a = outline[k];
    const Pixel b = outline[(k + 1) % outline.size()];
    const Pixel c = outline[(k + 2) % outline.size()];
    const float turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    left = left || turn < 0;
    right = right || turn > 0;
  }
  return !(left && right);
}

/// What the utility library gives back, as triangles.
struct Cut {
  std::vector<Pixel>* out;
  GLenum form = GL_TRIANGLES;
  std::vector<Pixel> run;
  std::deque<std::array<GLdouble, 3>> points;  // stay where they are as more come

  void take(Pixel p) {
    run.push_back(p);
    const std::size_t n = run.size();
    if (form == GL_TRIANGLES) {
      if (n % 3 == 0) out->insert(out->end(), run.end() - 3, run.end());
    } else if (n >= 3) {
      out->push_back(form == GL_TRIANGLE_FAN ? run.front() : run[n - 3]);
      out->push_back(run[n - 2]);
      out->push_back(run[n - 1]);
    }
  }
};

extern "C" {
void begin_cut(GLenum form, void* cut) {
  static_cast<Cut*>(cut)->form = form;
  static_cast<Cut*>(cut)->run.clear();
}
void take_vertex(void* vertex, void* cut) {
  const auto* p = static_cast<const GLdouble*>(vertex);
  static_cast<Cut*>(cut)->take({static_cast<float>(p[0]), static_cast<float>(p[1])});
}
void join_vertex(GLdouble at[3], void* [4], GLfloat[4], void** made, void* cut) {
  auto& points = static_cast<Cut*>(cut)->points;
  points.push_back({at[0], at[1], at[2]});
  *made = points.back().data();
}
}

using Callback = void (*)();

void cut_up(std::span<const Pixel> outline, std::vector<Pixel>& out) {
  const std::unique_ptr<GLUtesselator, void (*)(GLUtesselator*)> cutter(gluNewTess(),
                                                                        gluDeleteTess);
  Cut cut{&out, GL_TRIANGLES, {}, {}};
  gluTessCallback(cutter.get(), GLU_TESS_BEGIN_DATA, reinterpret_cast<Callback>(begin_cut));
  gluTessCallback(cutter.get(), GLU_TESS_VERTEX_DATA, reinterpret_cast<Callback>(take_vertex));
  gluTessCallback(cutter.get(), GLU_TESS_COMBINE_DATA, reinterpret_cast<Callback>(join_vertex));
  gluTessProperty(cutter.get(), GLU_TESS_WINDING_RULE, GLU_TESS_WINDING_NONZERO);
  gluTessNormal(cutter.get(), 0, 0, 1);
  gluTessBeginPolygon(cutter.get(), &cut);
  gluTessBeginContour(cutter.get());
  for (const Pixel p : outline) {
    cut.points.push_back({p.x, p.y, 0});
    gluTessVertex(cutter.get(), cut.points.back().data(), cut.points.back().data());
  }
  gluTessEndContour(cutter.get());
  gluTessEndPolygon(cutter.get());
}

}  // namespace

const std::vector<Pixel>& Mesh::triangles_of(std::span<const Pixel> outline) {
  triangles_.clear();
  if (outline.size() < 3) return triangles_;
  if (is_convex(outline)) {
    for (std::size_t k = 2; k < outline.size(); ++k) {
      for (const Pixel p : {outline[0], outline[k - 1], outline[k]}) triangles_.push_back(p);
    }
  } else {
    cut_up(outline, triangles_);
  }
  return triangles_;
}

void Mesh::fade(std::span<const Pixel> outline, float inside, float outside, sf::Color colour) {
  const std::size_t n = outline.size();
  if (n < 3) return;
  const sf::Color none = with_alpha(colour, 0);
  const auto way = [&](std::size_t k) {
    const Pixel before = left_of(outline[(k + n - 1) % n], outline[k]);
    return mitre(before, left_of(outline[k], outline[(k + 1) % n]));
  };
  Pixel out = way(0);
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t next = (k + 1) % n;
    const Pixel next_out = way(next);
    const Pixel in_a = outline[k] - times(out, inside);
    const Pixel in_b = outline[next] - times(next_out, inside);
    const Pixel out_a = outline[k] + times(out, outside);
    const Pixel out_b = outline[next] + times(next_out, outside);
    vertices_.emplace_back(in_a, colour);
    vertices_.emplace_back(in_b, colour);
    vertices_.emplace_back(out_a, none);
    vertices_.emplace_back(out_a, none);
    vertices_.emplace_back(in_b, colour);
    vertices_.emplace_back(out_b, none);
    out = next_out;
  }
}

/// One strip along the way. Where it fades lies between the vertices: strips of its own for that
/// would be three times as many triangles, most of them thinner than what is computed at once.
void Mesh::stroke_with(std::span<const Pixel> points, float width, bool closed) {
  const std::size_t n = points.size();
  if (n < 2) return;
  const float core = std::max(width - 1, 0.0F) / 2;
  const auto side = [&](std::size_t k) {
    const bool first = k == 0 && !closed;
    const bool last = k + 1 == n && !closed;
    const Pixel before = left_of(points[(k + n - 1) % n], points[k]);
    const Pixel after = left_of(points[k], points[(k + 1) % n]);
    return times(first ? after : last ? before : mitre(before, after), core + 1);
  };
  const std::size_t pieces = closed ? n : n - 1;
  Pixel out = side(0);
  for (std::size_t k = 0; k < pieces; ++k) {
    const std::size_t next = (k + 1) % n;
    const Pixel next_out = side(next);
    strip({points[k], out}, {points[next], next_out}, core, sf::Color());
    out = next_out;
  }
}

/// From one end to the other, each with the way from its middle to its left border.
void Mesh::strip(End a, End b, float core, sf::Color colour) {
  const sf::Vector2f left(core + 1, core), right(-core - 1, core);
  vertices_.emplace_back(a.at - a.out, colour, right);
  vertices_.emplace_back(b.at - b.out, colour, right);
  vertices_.emplace_back(a.at + a.out, colour, left);
  vertices_.emplace_back(a.at + a.out, colour, left);
  vertices_.emplace_back(b.at - b.out, colour, right);
  vertices_.emplace_back(b.at + b.out, colour, left);
}

void Mesh::shine(std::span<const Pixel> points, float width, sf::Color colour) {
  for (std::size_t k = 0; k + 1 < points.size(); ++k) {
    const Pixel out = times(left_of(points[k], points[k + 1]), width / 2);
    strip({points[k], out}, {points[k + 1], out}, 0, colour);
  }
}

void Mesh::disc(Pixel centre, float radius, sf::Color middle, sf::Color rim) {
  const std::vector<Pixel> edge = circle(centre, radius);
  for (std::size_t k = 0; k < edge.size(); ++k) {
    vertices_.emplace_back(centre, middle);
    vertices_.emplace_back(edge[k], rim);
    vertices_.emplace_back(edge[(k + 1) % edge.size()], rim);
  }
  fade(edge, 0, 1, rim);
}

void make_clockwise(std::vector<Pixel>& outline) {
  if (area_of(outline) < 0) std::reverse(outline.begin(), outline.end());
}

int sides_of_circle(float radius) {
  // A chord stays within a quarter of a pixel of its arc.
  const float half = std::acos(1 - 0.25F / std::max(radius, 1.0F));
  return std::clamp(static_cast<int>(kPi_f / half) + 1, radius < 5 ? 8 : 12, 180);
}

std::vector<Pixel> circle(Pixel centre, float radius) {
  std::vector<Pixel> points;
  const int n = sides_of_circle(radius);
  for (int k = 0; k < n; ++k) {
    const float a = 2 * kPi_f * static_cast<float>(k) / static_cast<float>(n);
    points.push_back(centre + Pixel(radius * std::sin(a), -radius * std::cos(a)));
  }
  return points;
}

sf::Color mix(sf::Color a, sf::Color b, float share_of_b) {
  const float t = std::clamp(share_of_b, 0.0F, 1.0F);
  const auto part = [t](sf::Uint8 x, sf::Uint8 y) {
    // As std::lround does it, which is a call into a library, thousands of times in a frame.
    const float value = static_cast<float>(x) * (1 - t) + static_cast<float>(y) * t;
    const int whole = static_cast<int>(value);
    return static_cast<sf::Uint8>(whole + (value - static_cast<float>(whole) >= 0.5F ? 1 : 0));
  };
  return {part(a.r, b.r), part(a.g, b.g), part(a.b, b.b), part(a.a, b.a)};
}

sf::Color with_alpha(sf::Color colour, float alpha) {
  colour.a = static_cast<sf::Uint8>(std::lround(255 * std::clamp(alpha, 0.0F, 1.0F)));
  return colour;
}

}  // namespace sixty::gui
