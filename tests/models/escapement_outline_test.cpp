// The escapement as it is drawn: true geometry, at every moment of a beat.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/movement/escapement_outline.hpp"
#include "sim/base/math.hpp"

namespace sixty::models {
namespace {

constexpr double kDeg = EscapementShape::kDegree;
constexpr double kRadius_mm = 20.5;
constexpr double kMostOverlap_mm = 0.05;

EscapementShape shape() { return {kRadius_mm, 1.0 * kDeg, 0.5 * kDeg, 1.5 * kDeg}; }

bool is_inside(Point p, const std::vector<Point>& outline) {
  bool inside = false;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Point a = outline[k];
    const Point b = outline[(k + 1) % outline.size()];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

double distance_to(Point p, const std::vector<Point>& outline) {
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
double overlap(const std::vector<Point>& corners, const std::vector<Point>& of) {
  double deepest = 0;
  for (const Point p : corners) {
    if (is_inside(p, of)) deepest = std::max(deepest, distance_to(p, of));
  }
  return deepest;
}

std::vector<Point> placed(const std::vector<Point>& outline, const Pose& pose) {
  std::vector<Point> there;
  for (const Point p : outline) there.push_back(pose.of(p));
  return there;
}

using Pallet = EscapementShape::Pallet;

/// Deepest overlap of wheel and pallets with the pallets at an angle and the wheel turned so far
/// from where a tooth locks on a pallet.
double overlap_at(const EscapementShape& s, Pallet locks, double pallets_rad, double turned_rad) {
  const Pose wheel{{0, s.arbor_above()}, EscapementShape::locked_rad(locks) + turned_rad, 1};
  const std::vector<Point> teeth = placed(s.teeth(), wheel);
  double deepest = 0;
  for (const auto& arm : {s.entry_arm(), s.exit_arm()}) {
    const std::vector<Point> there = placed(arm, {{}, pallets_rad, 1});
    deepest = std::max({deepest, overlap(teeth, there), overlap(there, teeth)});
  }
  return deepest;
}

class EscapementOutline : public testing::TestWithParam<Pallet> {};

TEST_P(EscapementOutline, WheelAndPalletsNeverOverlapThroughASwing) {
  const EscapementShape s = shape();
  const double way = GetParam() == Pallet::kEntry ? 1 : -1;
  for (double swung = -2.0; swung <= 1.0; swung += 0.02) {
    const double pallets = way * swung * kDeg;
    EXPECT_LE(overlap_at(s, GetParam(), pallets, s.pushed_rad(GetParam(), pallets)),
              kMostOverlap_mm)
        << swung << " deg";
  }
}

TEST_P(EscapementOutline, TheToothFallsFreelyOntoTheOtherPallet) {
  const EscapementShape s = shape();
  const double way = GetParam() == Pallet::kEntry ? 1 : -1;
  for (double share = 0; share <= 1; share += 0.05) {
    const double turned = (4.5 + 1.5 * share) * kDeg;
    EXPECT_LE(overlap_at(s, GetParam(), way * 1.01 * kDeg, turned), kMostOverlap_mm) << share;
  }
}

TEST_P(EscapementOutline, WheelStandsUntilThePushBeginsAndEndsItOneDropShort) {
  const EscapementShape s = shape();
  const double way = GetParam() == Pallet::kEntry ? 1 : -1;
  EXPECT_EQ(s.pushed_rad(GetParam(), way * -0.6 * kDeg), 0);
  double before = 0;
  for (double swung = -0.5; swung <= 1.0; swung += 0.01) {
    const double now = s.pushed_rad(GetParam(), way * swung * kDeg);
    EXPECT_GE(now, before - 1e-9) << swung;
    before = now;
  }
  EXPECT_NEAR(s.pushed_rad(GetParam(), way * 1.0 * kDeg) / kDeg, 4.5, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(Pallets, EscapementOutline,
                         testing::Values(Pallet::kEntry, Pallet::kExit));

}  // namespace
}  // namespace sixty::models
