#pragma once

#include <cstddef>
#include <vector>

#include "sim/circuit/small_matrix.hpp"

namespace sixty::circuit {

/// How the rates of a network's variables depend on them, and the linear equations that an implicit
/// step makes of that. Variables, in order: linkage, gap and speed of each coil, then the voltage
/// of each capacitor. Of an armature's equations each has only a few entries, so gap and speed are
/// eliminated by hand, and what is factored has one row for each coil and capacitor.
class StiffSystem {
 public:
  struct Motion {
    bool moves = false;
    double pull_slope = 0;  ///< less acceleration for each Vs of linkage, m/s^2 per Wb
    double rate_slope = 0;  ///< less acceleration for each metre of gap, 1/s^2; >= 0
    double drag_slope = 0;  ///< less acceleration for each metre a second, 1/s; >= 0
  };
  /// All slopes become 0, all armatures still.
  void reset(std::size_t coils, std::size_t capacitors);
  std::size_t size() const { return 3 * motions_.size() + capacitors_; }
  /// Slope of a rate (of a coil's linkage, or after all coils of a capacitor's voltage) with such a
  /// variable.
  double& slope(std::size_t row, std::size_t column) { return slopes_[row * rows() + column]; }
  /// Slope of the same with the gap of a coil that moves.
  double& by_gap(std::size_t row, std::size_t coil) {
    return by_gap_[row * motions_.size() + coil];
  }
  Motion& motion(std::size_t coil) { return motions_[coil]; }
  /// Makes ready for (w - slopes) u = b. Range: w > 0. Units: 1/s.
  void factor(double w);
  /// `b`, of size(), becomes u. Range: factored.
  void solve(double* b);

 private:
  std::size_t rows() const { return motions_.size() + capacitors_; }
  std::size_t capacitors_ = 0;
  std::vector<double> slopes_, by_gap_;
  std::vector<Motion> motions_;
  double w_ = 1;
  std::vector<double> stiffness_;  ///< of each moving armature's speed, once its gap is eliminated
  SmallMatrix factors_;
  std::vector<double> rest_gap_, reduced_, scratch_;
};

}  // namespace sixty::circuit
