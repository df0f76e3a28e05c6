#include "sim/part/figure.hpp"

#include <algorithm>
#include <array>

#include "sim/base/math.hpp"

namespace sixty {

Point Pose::of(Point p) const {
  const double c = det_cos(turn_rad) * scale;
  const double s = det_sin(turn_rad) * scale;
  return {at.x + p.x * c - p.y * s, at.y + p.x * s + p.y * c};
}

Pose Pose::of(const Pose& inner) const {
  return {of(inner.at), turn_rad + inner.turn_rad, scale * inner.scale};
}

Point polar(double radius, double angle_rad) {
  return {radius * det_sin(angle_rad), -radius * det_cos(angle_rad)};
}

void Figure::clear(bool close) {
  pose_ = Pose();
  close_ = false;
  wants_close_ = close;
  shapes_.clear();
  points_.clear();
  texts_.clear();
  labels_.clear();
  sparks_.clear();
  handles_.clear();
  remarks_.clear();
  focus_.reset();
  terminals_.clear();
  anchors_.clear();
}

Shape& Figure::add(Shape::Form form, Material material, double lift) {
  Shape shape;
  shape.form = form;
  shape.material = material;
  shape.lift = lift * pose_.scale;
  shape.close = close_;
  shape.first = static_cast<std::uint32_t>(points_.size());
  shapes_.push_back(shape);
  return shapes_.back();
}

void Figure::put(Shape& shape, std::span<const Point> points) {
  for (const Point p : points) points_.push_back(pose_.of(p));
  shape.count += static_cast<std::uint32_t>(points.size());
}

Shape& Figure::area(Material material, std::span<const Point> outline, double lift) {
  Shape& shape = add(Shape::Form::kArea, material, lift);
  put(shape, outline);
  return shape;
}

Shape& Figure::band(Material material, std::span<const Point> outer, std::span<const Point> inner,
                    double lift) {
  Shape& shape = add(Shape::Form::kBand, material, lift);
  put(shape, outer);
  put(shape, inner);
  return shape;
}

Shape& Figure::line(Material material, std::span<const Point> points, double width, double lift) {
  Shape& shape = add(Shape::Form::kLine, material, lift);
  put(shape, points);
  shape.width = width * pose_.scale;
  return shape;
}

Shape& Figure::disc(Material material, Point centre, double radius, double lift) {
  Shape& shape = add(Shape::Form::kDisc, material, lift);
  put(shape, std::array{centre});
  shape.width = radius * pose_.scale;
  return shape;
}

void Figure::text(Material material, Point centre, double height, std::string_view text) {
  Shape& shape = add(Shape::Form::kText, material, 0);
  put(shape, std::array{centre});
  shape.width = height * pose_.scale;
  shape.text = static_cast<std::uint32_t>(texts_.size());
  texts_.emplace_back(text);
}

Shape& Figure::box(Material material, Point a, Point b, double lift) {
  return area(material, std::array{a, Point{b.x, a.y}, b, Point{a.x, b.y}}, lift);
}

void Figure::label(Point at, std::string_view text, Point words) {
  labels_.push_back({std::string(text), pose_.of(at), pose_.of(words), close_});
}

void Figure::spark(Point at, double current_a) { sparks_.push_back({pose_.of(at), current_a}); }

void Figure::handle(std::string_view press, std::string_view release, Point corner, Point opposite,
                    double value) {
  const Point a = pose_.of(corner), b = pose_.of(opposite);
  handles_.push_back({std::string(press),
                      std::string(release),
                      value,
                      {std::min(a.x, b.x), std::min(a.y, b.y)},
                      {std::max(a.x, b.x), std::max(a.y, b.y)}});
}

void Figure::remark(Remark::Lean lean, std::string_view text, Point at, double radius) {
  remarks_.push_back({lean, std::string(text), pose_.of(at), radius * pose_.scale});
}

void Figure::terminal(std::string_view name, Point at) {
  terminals_.insert_or_assign(std::string(name), pose_.of(at));
}

void Figure::anchor(std::string_view link, const Pose& pose) {
  anchors_.insert_or_assign(std::string(link), pose_.of(pose));
}

std::pair<Point, Point> Figure::bounds() const {
  std::pair<Point, Point> box{{0, 0}, {0, 0}};
  bool first = true;
  const auto take = [&](Point p, double around) {
    const Point low{p.x - around, p.y - around}, high{p.x + around, p.y + around};
    if (first) box = {low, high};
    first = false;
    box.first = {std::min(box.first.x, low.x), std::min(box.first.y, low.y)};
    box.second = {std::max(box.second.x, high.x), std::max(box.second.y, high.y)};
  };
  for (const Shape& shape : shapes_) {
    if (shape.close) continue;
    const bool is_disc = shape.form == Shape::Form::kDisc;
    for (const Point p : points(shape)) take(p, is_disc ? shape.width : 0);
  }
  return box;
}

}  // namespace sixty
