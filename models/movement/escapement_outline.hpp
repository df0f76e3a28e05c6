#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/math.hpp"
#include "sim/part/figure.hpp"

namespace sixty::models {

/// Geometry of a deadbeat escapement, apart from what moves it. The wheel turns clockwise about
/// (0, 0) and has thirty teeth; the pallets embrace eight and a half of them, from an arbor
/// straight above. Angles are clockwise from twelve o'clock; the pallets' too, so that at a
/// positive one the bob stands to the left, the entry arm is lifted and the exit arm dips. Source:
/// both locking faces lie on one arc about the pallets' arbor, where lines from it touch the circle
/// of the tips (derived); proportions of teeth and arms: common practice, no source.
struct EscapementShape {
  double radius = 1;      ///< of the circle of the tips
  double escape_rad = 0;  ///< angle of the pallets at which a tooth escapes
  double push_rad = 0;    ///< angle before the dead point at which the push begins
  double drop_rad = 0;    ///< that the wheel falls free

  static constexpr int kTeeth = 30;
  static constexpr double kSpan_rad = 51 * kDegree;  ///< half of what the pallets embrace

  double arbor_above() const;
  /// Outline of the teeth and, beside each of its points, one of the rim's inner edge; for a tooth
  /// that points straight up.
  std::vector<Point> teeth() const;
  std::vector<Point> rim() const;
  /// Outlines of the two arms with their pallets, about the arbor, the pallets at angle 0.
  std::vector<Point> entry_arm() const;
  std::vector<Point> exit_arm() const;
  /// Which pallet a tooth lies on.
  enum class Pallet : std::uint8_t { kEntry, kExit };
  /// How far the wheel has turned from where a tooth locks to where the pallets' angle lets it come
  /// to: 0 on the locking face, then pushing, at most half a tooth's pitch less the drop.
  double pushed_rad(Pallet pallet, double pallets_rad) const;
  /// Angle of the tooth that lies on the locking face.
  static double locked_rad(Pallet pallet) {
    return pallet == Pallet::kEntry ? -kSpan_rad : kSpan_rad;
  }

 private:
  struct Face {
    Point lock, let_go;  ///< the ends of its impulse face
    double lock_radius = 0, let_go_radius = 0;
  };
  Face face(Pallet pallet) const;
  double reach(double angle_rad) const;
  Point on_tips(double angle_rad, double pallets_rad) const;
  std::vector<Point> arm(Pallet pallet) const;
};

}  // namespace sixty::models
