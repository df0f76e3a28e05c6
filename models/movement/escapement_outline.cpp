#include "models/movement/escapement_outline.hpp"

#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::models {
namespace {

constexpr double kPitch = 12 * kDegree;
constexpr double kHalfPitch = 6 * kDegree;
constexpr double kRoot = 0.845, kRim = 0.755;  // of the circle of the tips
constexpr double kTip = 0.38 * kDegree;        // width of a tooth's tip
constexpr double kUndercut = 1.85 * kDegree;   // only the tip touches

Point between(Point a, Point b, double share) { return a + (b - a) * share; }

/// Points of a cubic from a to d, without its first.
void add_cubic(std::vector<Point>& to, Point a, Point b, Point c, Point d, int pieces) {
  for (int k = 1; k <= pieces; ++k) {
    const double t = static_cast<double>(k) / pieces;
    const double u = 1 - t;
    to.push_back(a * (u * u * u) + b * (3 * u * u * t) + c * (3 * u * t * t) + d * (t * t * t));
  }
}

double length_of(Point p) { return std::sqrt(p.x * p.x + p.y * p.y); }

/// Clockwise from twelve o'clock.
double angle_of(Point p) {
  const double angle = det_asin(std::fmin(std::fmax(p.x / length_of(p), -1), 1));
  return p.y <= 0 ? angle : kPi - angle;
}

}  // namespace

double EscapementShape::arbor_above() const { return radius / det_cos(kSpan_rad); }

/// Distance of a tip at that angle from the pallets' arbor.
double EscapementShape::reach(double angle_rad) const {
  const double d = arbor_above();
  return std::sqrt(radius * radius + d * d - 2 * radius * d * det_cos(angle_rad));
}

/// That place of the tips' circle in the pallets' own frame, when they stand at that angle.
Point EscapementShape::on_tips(double angle_rad, double pallets_rad) const {
  const Point p = polar(radius, angle_rad) + Point{0, arbor_above()};
  return Pose{{}, -pallets_rad, 1}.of(p);
}

EscapementShape::Face EscapementShape::face(Pallet pallet) const {
  const bool entry = pallet == Pallet::kEntry;
  const double side = entry ? 1 : -1;  // way of the swing in which it lets a tooth go
  const double lock = locked_rad(pallet);
  const double let_go = lock + kHalfPitch - drop_rad;
  return {on_tips(lock, -side * push_rad), on_tips(let_go, side * escape_rad), reach(lock),
          reach(let_go)};
}

double EscapementShape::pushed_rad(Pallet pallet, double pallets_rad) const {
  const bool entry = pallet == Pallet::kEntry;
  const double swung = entry ? pallets_rad : -pallets_rad;
  if (swung <= -push_rad) return 0;
  const double most = kHalfPitch - drop_rad;
  if (swung >= escape_rad) return most;
  const Face f = face(pallet);
  const Point along = f.let_go - f.lock;
  // The tip lies on the impulse face where it neither cuts into it nor stands off.
  const auto beyond = [&](double pushed) {
    const Point p = on_tips(locked_rad(pallet) + pushed, pallets_rad) - f.lock;
    return along.x * p.y - along.y * p.x;
  };
  const bool rises = beyond(most) > beyond(0);
  double low = 0, high = most;
  for (int k = 0; k < 40; ++k) {
    const double middle = (low + high) / 2;
    ((beyond(middle) > 0) == rises ? high : low) = middle;
  }
  return (low + high) / 2;
}

// Clockwise, each tooth from its back over its tip to its front.
std::vector<Point> EscapementShape::teeth() const {
  std::vector<Point> outline;
  const double root = kRoot * radius;
  for (int k = 0; k < kTeeth; ++k) {
    const double a = k * kPitch;
    const Point behind = polar(root, a - kUndercut - 6.4 * kDegree);
    outline.push_back(behind);
    add_cubic(outline, behind, polar(0.854 * radius, a - kUndercut - 4.6 * kDegree),
              polar(0.915 * radius, a - 2.9 * kDegree), polar(radius, a - kTip), 6);
    outline.push_back(polar(radius, a));
    outline.push_back(polar(root, a - kUndercut));
  }
  return outline;
}

std::vector<Point> EscapementShape::rim() const {
  std::vector<Point> inner;
  for (const Point p : teeth()) inner.push_back(p * (kRim * radius / length_of(p)));
  return inner;
}

std::vector<Point> EscapementShape::arm(Pallet pallet) const {
  const Face f = face(pallet);
  const bool entry = pallet == Pallet::kEntry;
  const double away = entry ? 1 : -1;  // from the middle, clockwise about the arbor
  std::vector<Point> outline{f.lock, f.let_go};
  // The nib follows both arcs, away from the wheel's tips.
  constexpr int kPieces = 16;
  constexpr double kNib = 11 * kDegree;
  const double from_let_go = angle_of(f.let_go);
  for (int k = 1; k <= kPieces; ++k)
    outline.push_back(polar(f.let_go_radius, from_let_go + away * kNib * k / kPieces));
  // Then a curved arm tapers to the hub: its outer edge up, its inner edge back.
  const double from_lock = angle_of(f.lock);
  const Point nib_let_go = outline.back();
  const Point nib_lock = polar(f.lock_radius, from_lock + away * kNib);
  const bool let_go_inside = f.let_go_radius < f.lock_radius;
  const Point out = let_go_inside ? nib_lock : nib_let_go;
  const Point in = let_go_inside ? nib_let_go : nib_lock;
  const double hub = 0.115 * radius;
  const Point hub_out{-away * 0.35 * hub, -0.9 * hub};
  const Point hub_in{-away * 0.9 * hub, 0.45 * hub};
  const double bulge = 0.17 * radius;
  const auto edge = [&](Point a, Point b, double by) {
    const Point middle = between(a, b, 0.45);
    return middle + Point{-away * by, -by * 0.55};
  };
  std::vector<Point> arms;
  const Point out_middle = edge(out, hub_out, bulge);
  const Point in_middle = edge(in, hub_in, bulge * 0.9);
  if (let_go_inside) {
    add_cubic(arms, in, between(in, in_middle, 0.8), between(hub_in, in_middle, 0.6), hub_in, 12);
    arms.push_back(hub_out);
    add_cubic(arms, hub_out, between(hub_out, out_middle, 0.6), between(out, out_middle, 0.8), out,
              12);
  } else {
    add_cubic(arms, out, between(out, out_middle, 0.8), between(hub_out, out_middle, 0.6), hub_out,
              12);
    arms.push_back(hub_in);
    add_cubic(arms, hub_in, between(hub_in, in_middle, 0.6), between(in, in_middle, 0.8), in, 12);
  }
  outline.insert(outline.end(), arms.begin(), arms.end());
  for (int k = kPieces - 1; k >= 1; --k)
    outline.push_back(polar(f.lock_radius, from_lock + away * kNib * k / kPieces));
  return outline;
}

std::vector<Point> EscapementShape::entry_arm() const { return arm(Pallet::kEntry); }
std::vector<Point> EscapementShape::exit_arm() const { return arm(Pallet::kExit); }

}  // namespace sixty::models
