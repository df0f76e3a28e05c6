#include "gui/paint/painter.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/paint/text_width.hpp"

namespace sixty::gui {
namespace {

constexpr double kLeast_a = 1e-3;     // less is no current to be seen
constexpr float kLeastShare = 0.24F;  // so that 0.2 A beside 1 A is still seen
constexpr float kSmallDisc = 5;       // pixels: smaller ones have no edge of their own
constexpr float kOutline = 1.5F, kDetail = 1.0F;
constexpr float kLarge = 0.45F;        // of the window
constexpr float kLargeLooked = 0.33F;  // the same, of the part that is looked at
constexpr std::array kGhost{7.0F, 5.0F};
constexpr float kMostHalo = 6;                          // pixels
constexpr float kGlowWidth = 6.5F, kGlowAlpha = 0.38F;  // to a pixel of the wire

/// Fades from the first colour at the top left of a box to the second at its bottom right.
struct Gradient {
  Pixel low, high;
  sf::Color a, b;
  sf::Color operator()(Pixel p) const {
    const float along = (p.x - low.x) + (p.y - low.y);
    const float whole = (high.x - low.x) + (high.y - low.y);
    return mix(a, b, whole > 0 ? along / whole : 0);
  }
};

Gradient gradient(std::span<const Pixel> points, const Finish& finish) {
  Gradient g{points[0], points[0], finish.top_left, finish.bottom_right};
  for (const Pixel p : points) {
    g.low = {std::min(g.low.x, p.x), std::min(g.low.y, p.y)};
    g.high = {std::max(g.high.x, p.x), std::max(g.high.y, p.y)};
  }
  return g;
}

auto plain(sf::Color colour) {
  return [colour](Pixel) { return colour; };
}

}  // namespace

Pixel Camera::pixel(Point p) const {
  return {middle.x + pixels(p.x - centre.x), middle.y + pixels(p.y - centre.y)};
}

Point Camera::point(Pixel p) const {
  return {centre.x + (p.x - middle.x) / zoom, centre.y + (p.y - middle.y) / zoom};
}

std::vector<Pixel> Painter::pixels(std::span<const Point> points) const {
  std::vector<Pixel> all;
  all.reserve(points.size());
  for (const Point p : points) all.push_back(camera_.pixel(p));
  return all;
}

bool Painter::sees(std::pair<Point, Point> box) const {
  const Pixel low = camera_.pixel(box.first);
  const Pixel high = camera_.pixel(box.second);
  return high.x >= 0 && high.y >= 0 && low.x <= size_.x && low.y <= size_.y;
}

/// Whether any of it, with its edges, its shadow and its light, lies within what is shown.
bool Painter::shows(const Shape& shape, std::span<const Pixel> points) const {
  if (points.empty()) return false;
  Pixel low = points[0], high = points[0];
  for (const Pixel p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const float wide = camera_.pixels(shape.width), fall = 2 * camera_.pixels(shape.lift);
  const float light = shape.current_a == 0 ? 0 : kGlowWidth * kMostHalo;
  const float about = (shape.form == Shape::Form::kText ? 20 : 2) * wide + fall + light + 4;
  return high.x >= low_.x - about && high.y >= low_.y - about && low.x <= high_.x + about &&
         low.y <= high_.y + about;
}

float Painter::share_of_full(double current_a) const {
  const double amount = std::fabs(current_a);
  if (amount < kLeast_a || full_a_ <= 0) return 0;
  const double share = std::min(amount / full_a_, 1.0);
  return kLeastShare + (1 - kLeastShare) * static_cast<float>(share);
}

bool Painter::is_large(const Figure& figure) const {
  const auto [low, high] = figure.bounds();
  const float large = figure.wants_close() ? kLargeLooked : kLarge;
  return camera_.pixels(high.x - low.x) > large * size_.x ||
         camera_.pixels(high.y - low.y) > large * size_.y;
}

void Painter::draw_moved(const Figure& figure, Point from, Point to, double scale) {
  const Camera before = camera_;
  camera_.centre = from;
  camera_.middle = before.pixel(to);
  camera_.zoom = before.zoom * scale;
  draw(figure);
  camera_ = before;
}

/// Where something should be, as an outline of dashes.
void Painter::ghost(const Shape& shape, std::span<const Pixel> points) {
  std::vector<Pixel> way(points.begin(), points.end());
  if (shape.form == Shape::Form::kDisc) way = circle(points[0], camera_.pixels(shape.width));
  if (shape.form != Shape::Form::kLine) way.push_back(way.front());
  const float width = std::clamp(0.6F * camera_.pixels(shape.width), 1.5F, 6.0F);
  std::array<float, 2> pattern{};
  for (std::size_t k = 0; k < 2; ++k) pattern[k] = kGhost[k] * std::max(width / 3, 0.6F);
  // It may lie on something light.
  dashes(way, width, light_theme().wrong, pattern);
}

void Painter::draw(const Figure& figure) {
  const bool large = is_large(figure);
  for (const Shape& shape : figure.shapes()) {
    if (shape.close && !large) continue;
    std::vector<Pixel> points = pixels(figure.points(shape));
    if (!shows(shape, points)) continue;
    if (shape.ghost) {
      if (!hides_wrong_) ghost(shape, points);
      continue;
    }
    switch (shape.form) {
      case Shape::Form::kArea:
        area(shape, std::move(points));
        break;
      case Shape::Form::kBand:
        band(shape, points);
        break;
      case Shape::Form::kDisc:
        disc(shape, points[0]);
        break;
      case Shape::Form::kLine:
        stroke(shape, points);
        break;
      case Shape::Form::kText:
        letters({figure.text_of(shape), points[0], camera_.pixels(shape.width),
                 theme_.finish(shape.material).top_left, Lettering::Align::kMiddle, false});
        break;
    }
  }
  for (const Spark& s : figure.sparks()) spark(s);
}

void Painter::area(const Shape& shape, std::vector<Pixel> outline) {
  if (outline.size() < 3) return;
  make_clockwise(outline);
  const Finish& finish = theme_.finish(shape.material);
  shadow(outline, shape.lift);
  mesh_.fill(outline, gradient(outline, finish));
  edges(outline, finish);
}

void Painter::band(const Shape& shape, std::span<const Pixel> points) {
  const Finish& finish = theme_.finish(shape.material);
  const std::size_t half = points.size() / 2;
  std::vector<Pixel> outer(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(half));
  std::vector<Pixel> inner(points.begin() + static_cast<std::ptrdiff_t>(half), points.end());
  std::vector<Pixel> turned = outer;
  make_clockwise(turned);
  shadow_between(outer, inner, shape.lift);
  mesh_.fill_between(outer, inner, gradient(points, finish));
  edges(turned, finish);
  std::vector<Pixel> hole = inner;
  make_clockwise(hole);
  std::reverse(hole.begin(), hole.end());
  edges(hole, finish);
}

void Painter::disc(const Shape& shape, Pixel centre) {
  const float radius = camera_.pixels(shape.width);
  if (radius < 0.4F) return;
  const Finish& finish = theme_.finish(shape.material);
  const float lit = 0.75F * share_of_full(shape.current_a);
  if (radius < kSmallDisc) {
    const sf::Color whole = mix(finish.top_left, finish.bottom_right, 0.4F);
    mesh_.disc(centre, radius, mix(whole, theme_.current, lit),
               mix(mix(whole, finish.outline, 0.55F), theme_.current, lit));
    return;
  }
  const std::vector<Pixel> rim = circle(centre, radius);
  shadow(rim, shape.lift);
  Gradient colours = gradient(rim, finish);
  colours.a = mix(colours.a, theme_.is_dark ? theme_.current_core : theme_.current, lit);
  colours.b = mix(colours.b, theme_.current, lit);
  mesh_.fill(rim, colours);
  edges(rim, finish);
}

void Painter::stroke(const Shape& shape, std::span<const Pixel> points) {
  if (points.size() < 2) return;
  const Finish& finish = theme_.finish(shape.material);
  const float width = camera_.pixels(shape.width);
  if (width > 2.5F) mesh_.stroke(points, width + 1.6F, false, plain(finish.outline));
  const Gradient colours = gradient(points, finish);
  // Thin steel is seen by its light on a dark ground, and by its dark on a light one.
  mesh_.stroke(points, width, false, [&](Pixel p) {
    return theme_.is_dark ? mix(colours(p), finish.light, 0.15F)
                          : mix(colours(p), finish.outline, 0.4F);
  });
  if (shape.current_a != 0) glow(points, shape.current_a, width);
}

/// A dark line all round, and a light one just inside where the edge faces the light.
void Painter::edges(std::span<const Pixel> outline, const Finish& finish) {
  const std::size_t n = outline.size();
  constexpr float kFrom = 0.70710678F;  // the light comes from the top left
  for (std::size_t k = 0; k < n; ++k) {
    const Pixel a = outline[k];
    const Pixel b = outline[(k + 1) % n];
    const Pixel way = b - a;
    const float length = std::sqrt(way.x * way.x + way.y * way.y);
    if (length < 1.5F) continue;
    const Pixel out(way.y / length, -way.x / length);
    const float facing = -(out.x + out.y) * kFrom;
    if (facing <= 0.1F) continue;
    const Pixel inset(out.x * -1.6F, out.y * -1.6F);
    const std::array<Pixel, 2> piece{a + inset, b + inset};
    mesh_.stroke(piece, kDetail, false, plain(with_alpha(finish.light, 0.75F * facing)));
  }
  mesh_.stroke(outline, kOutline, true, plain(finish.outline));
}

/// Where what lies so high above what is behind it throws its shadow; the light comes from the top
/// left. Nothing where that is too little to be seen.
float Painter::fall(std::vector<Pixel>& outline, double lift) const {
  const float d = camera_.pixels(lift);
  for (Pixel& p : outline) p += Pixel(0.7F * d, d);
  return d < 0.8F ? 0 : 0.8F * d + 1;
}

void Painter::shadow(std::vector<Pixel> outline, double lift) {
  const float soft = fall(outline, lift);
  if (soft == 0) return;
  mesh_.fill(outline, plain(theme_.shadow));
  mesh_.fade(outline, 0, soft, theme_.shadow);
}

/// Light falls through what is hollow.
void Painter::shadow_between(std::vector<Pixel> outer, std::vector<Pixel> inner, double lift) {
  const float soft = fall(outer, lift);
  if (soft == 0) return;
  fall(inner, lift);
  mesh_.fill_between(outer, inner, plain(theme_.shadow));
  make_clockwise(outer);
  mesh_.fade(outer, 0, soft, theme_.shadow);
}

void Painter::glow(std::span<const Pixel> points, double current_a, float wide) {
  const float share = share_of_full(current_a);
  if (share == 0) return;
  const float halo = std::clamp(wide, 0.8F, kMostHalo);
  if (theme_.is_dark) {
    mesh_.shine(points, kGlowWidth * halo * (0.55F + 0.45F * share),
                with_alpha(theme_.current, kGlowAlpha * (0.35F + 0.65F * share)));
  } else {
    mesh_.stroke(points, wide + 2 * halo, false,
                 plain(with_alpha(theme_.current_bed, 0.07F + 0.13F * share)));
  }
  mesh_.stroke(points, std::max(wide, 1.0F) + (theme_.is_dark ? 0.0F : 1.2F), false,
               plain(with_alpha(theme_.current, 0.45F + 0.55F * share)));
  if (share > 0.5F && theme_.is_dark)
    mesh_.stroke(points, std::max(0.43F * wide, 1.0F), false, plain(theme_.current_core));
}

void Painter::wire(std::span<const Point> way, double current_a, double scale) {
  const std::vector<Pixel> points = pixels(way);
  const float width = std::clamp(camera_.pixels(3 * scale), 1.0F, 6.0F);
  mesh_.stroke(points, width + std::clamp(camera_.pixels(4 * scale), 1.0F, 6.0F), false,
               plain(theme_.ground));
  mesh_.stroke(points, width, false, plain(theme_.wire));
  glow(points, current_a, width);
}

void Painter::spark(const Spark& spark) {
  if (std::fabs(spark.current_a) < kLeast_a) return;
  const Pixel at = camera_.pixel(spark.at);
  const float size = std::max(camera_.pixels(16), 6.0F);
  if (theme_.is_dark) {
    mesh_.disc(at, 2.6F * size, with_alpha(theme_.current, 0.55F), with_alpha(theme_.current, 0));
    mesh_.disc(at, size * 0.55F, sf::Color::White, with_alpha(theme_.current_core, 0));
  }
  constexpr int kRays = 12;
  for (int k = 0; k < kRays; ++k) {
    const float a = 6.2831853F * static_cast<float>(k) / kRays;
    const float reach = size * (k % 2 == 0 ? 1.0F : 0.62F);
    const std::array<Pixel, 2> ray{
        at + Pixel(0.25F * size * std::cos(a), 0.25F * size * std::sin(a)),
        at + Pixel(reach * std::cos(a), reach * std::sin(a))};
    mesh_.stroke(ray, 1.4F, false, plain(theme_.is_dark ? theme_.current_core : theme_.current));
  }
}

void Painter::cover(Pixel corner, Pixel size) {
  const auto is_covered = [&](const Lettering& l) {
    const auto [low, high] = extent_of(l);
    return low.x < corner.x + size.x && high.x > corner.x && low.y < corner.y + size.y &&
           high.y > corner.y;
  };
  letterings_.erase(std::remove_if(letterings_.begin(), letterings_.end(), is_covered),
                    letterings_.end());
}

std::pair<Pixel, Pixel> extent_of(const Lettering& l) {
  const float wide = text_width(l.text, l.size, l.bold);
  const float shift = l.align == Lettering::Align::kLeft    ? 0
                      : l.align == Lettering::Align::kRight ? wide
                                                            : wide / 2;
  const Pixel low(l.at.x - shift, l.at.y - 0.5F * l.size);
  return {low, low + Pixel(wide, l.size)};
}

void Painter::rectangle(Pixel corner, Pixel size, sf::Color colour) {
  mesh_.rectangle(corner, size, colour);
}

void Painter::line(std::span<const Pixel> points, float width, sf::Color colour) {
  mesh_.stroke(points, width, false, plain(colour));
}

void Painter::dashes(std::span<const Pixel> points, float width, sf::Color colour,
                     std::span<const float> pattern) {
  if (pattern.empty()) {
    line(points, width, colour);
    return;
  }
  std::size_t piece = 0;
  float left = pattern[0];
  std::vector<Pixel> dash;
  for (std::size_t k = 0; k + 1 < points.size(); ++k) {
    const Pixel way = points[k + 1] - points[k];
    const float length = std::sqrt(way.x * way.x + way.y * way.y);
    if (length < 1e-3F) continue;
    float at = 0;
    if (piece % 2 == 0) dash.push_back(points[k]);
    while (length - at > left) {
      at += left;
      const Pixel turn = points[k] + way * (at / length);
      dash.push_back(turn);
      if (piece % 2 == 0) {
        line(dash, width, colour);
        dash.clear();
      }
      piece = (piece + 1) % pattern.size();
      left = std::max(pattern[piece], 0.5F);
    }
    left -= length - at;
    if (piece % 2 == 0) dash.push_back(points[k + 1]);
  }
  if (dash.size() > 1) line(dash, width, colour);
}

}  // namespace sixty::gui
