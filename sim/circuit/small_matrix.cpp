#include "sim/circuit/small_matrix.hpp"

#include <cmath>
#include <utility>

namespace sixty::circuit {

void SmallMatrix::factor() {
  for (std::size_t i = 0; i < n_; ++i) row_[i] = i;
  for (std::size_t k = 0; k < n_; ++k) {
    std::size_t best = k;
    for (std::size_t i = k + 1; i < n_; ++i) {
      if (std::fabs(at(row_[i], k)) > std::fabs(at(row_[best], k))) best = i;
    }
    std::swap(row_[k], row_[best]);
    const double* pivot = &a_[row_[k] * n_];
    for (std::size_t i = k + 1; i < n_; ++i) {
      double* row = &a_[row_[i] * n_];
      if (row[k] == 0) continue;
      row[k] /= pivot[k];
      const double share = row[k];
      for (std::size_t j = k + 1; j < n_; ++j) row[j] -= share * pivot[j];
    }
  }
}

void SmallMatrix::solve(double* b, double* scratch) const {
  for (std::size_t i = 0; i < n_; ++i) {
    const double* row = &a_[row_[i] * n_];
    double sum = b[row_[i]];
    for (std::size_t j = 0; j < i; ++j) sum -= row[j] * scratch[j];
    scratch[i] = sum;
  }
  for (std::size_t i = n_; i-- > 0;) {
    const double* row = &a_[row_[i] * n_];
    double sum = scratch[i];
    for (std::size_t j = i + 1; j < n_; ++j) sum -= row[j] * b[j];
    b[i] = sum / row[i];
  }
}

}  // namespace sixty::circuit
