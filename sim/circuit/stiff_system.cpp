#include "sim/circuit/stiff_system.hpp"

namespace sixty::circuit {

void StiffSystem::reset(std::size_t coils, std::size_t capacitors) {
  capacitors_ = capacitors;
  motions_.assign(coils, Motion{});
  slopes_.assign(rows() * rows(), 0.0);
  by_gap_.assign(rows() * coils, 0.0);
}

// With b_x and b_v on the right of an armature's two equations
//   w x - v = b_x,  (w + drag) v + pull psi + rate x = b_v
// and D = w + drag + rate/w these give
//   v = (b_v - rate b_x/w - pull psi)/D,  x = (b_x + v)/w.
void StiffSystem::factor(double w) {
  w_ = w;
  const std::size_t n = rows();
  const std::size_t coils = motions_.size();
  stiffness_.resize(coils);
  factors_.reset(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) factors_.at(i, j) = -slopes_[i * n + j];
    factors_.at(i, i) += w;
  }
  for (std::size_t q = 0; q < coils; ++q) {
    const Motion& m = motions_[q];
    if (!m.moves) continue;
    stiffness_[q] = w + m.drag_slope + m.rate_slope / w;
    const double gap_by_linkage = m.pull_slope / (stiffness_[q] * w);
    for (std::size_t i = 0; i < n; ++i) {
      factors_.at(i, q) += by_gap_[i * coils + q] * gap_by_linkage;
    }
  }
  factors_.factor();
}

void StiffSystem::solve(double* b) {
  const std::size_t n = rows();
  const std::size_t coils = motions_.size();
  rest_gap_.resize(coils);
  reduced_.resize(n);
  scratch_.resize(n);
  for (std::size_t q = 0; q < coils; ++q) {
    reduced_[q] = b[3 * q];
    const Motion& m = motions_[q];
    if (!m.moves) continue;
    const double speed = (b[3 * q + 2] - m.rate_slope * b[3 * q + 1] / w_) / stiffness_[q];
    rest_gap_[q] = (b[3 * q + 1] + speed) / w_;
  }
  for (std::size_t k = 0; k < capacitors_; ++k) reduced_[coils + k] = b[3 * coils + k];
  for (std::size_t q = 0; q < coils; ++q) {
    if (!motions_[q].moves) continue;
    for (std::size_t i = 0; i < n; ++i) reduced_[i] += by_gap_[i * coils + q] * rest_gap_[q];
  }
  factors_.solve(reduced_.data(), scratch_.data());
  for (std::size_t q = 0; q < coils; ++q) {
    const Motion& m = motions_[q];
    b[3 * q] = reduced_[q];
    if (m.moves) {
      const double gap = rest_gap_[q] - m.pull_slope / (stiffness_[q] * w_) * reduced_[q];
      b[3 * q + 2] = w_ * gap - b[3 * q + 1];
      b[3 * q + 1] = gap;
    } else {
      b[3 * q + 1] /= w_;
      b[3 * q + 2] /= w_;
    }
  }
  for (std::size_t k = 0; k < capacitors_; ++k) b[3 * coils + k] = reduced_[coils + k];
}

}  // namespace sixty::circuit
