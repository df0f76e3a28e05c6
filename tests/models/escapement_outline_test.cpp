// The escapement as it is drawn: true geometry, at every moment of a beat.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/movement/escapement_outline.hpp"
#include "sim/base/math.hpp"
#include "tests/models/outlines.hpp"

namespace sixty::models {
namespace {

constexpr double kRadius_mm = 20.5;
constexpr double kMostOverlap_mm = 0.05;

EscapementShape shape() { return {kRadius_mm, 1.0 * kDegree, 0.5 * kDegree, 1.5 * kDegree}; }

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
    const double pallets = way * swung * kDegree;
    EXPECT_LE(overlap_at(s, GetParam(), pallets, s.pushed_rad(GetParam(), pallets)),
              kMostOverlap_mm)
        << swung << " deg";
  }
}

TEST_P(EscapementOutline, TheToothFallsFreelyOntoTheOtherPallet) {
  const EscapementShape s = shape();
  const double way = GetParam() == Pallet::kEntry ? 1 : -1;
  for (double share = 0; share <= 1; share += 0.05) {
    const double turned = (4.5 + 1.5 * share) * kDegree;
    EXPECT_LE(overlap_at(s, GetParam(), way * 1.01 * kDegree, turned), kMostOverlap_mm) << share;
  }
}

TEST_P(EscapementOutline, WheelStandsUntilThePushBeginsAndEndsItOneDropShort) {
  const EscapementShape s = shape();
  const double way = GetParam() == Pallet::kEntry ? 1 : -1;
  EXPECT_EQ(s.pushed_rad(GetParam(), way * -0.6 * kDegree), 0);
  double before = 0;
  for (double swung = -0.5; swung <= 1.0; swung += 0.01) {
    const double now = s.pushed_rad(GetParam(), way * swung * kDegree);
    EXPECT_GE(now, before - 1e-9) << swung;
    before = now;
  }
  EXPECT_NEAR(s.pushed_rad(GetParam(), way * 1.0 * kDegree) / kDegree, 4.5, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(Pallets, EscapementOutline,
                         testing::Values(Pallet::kEntry, Pallet::kExit));

}  // namespace
}  // namespace sixty::models
