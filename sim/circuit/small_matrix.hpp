#pragma once

#include <cstddef>
#include <vector>

namespace sixty::circuit {

/// A square matrix, row by row, and its LU factors once factored.
/// Method: Gaussian elimination with partial pivoting, in one fixed order of operations.
class SmallMatrix {
 public:
  void reset(std::size_t n) {
    n_ = n;
    a_.assign(n * n, 0.0);
    row_.resize(n);
  }
  std::size_t size() const { return n_; }
  double& at(std::size_t i, std::size_t j) { return a_[i * n_ + j]; }
  double at(std::size_t i, std::size_t j) const { return a_[i * n_ + j]; }
  void factor();
  /// Range: factored. `b` becomes the solution; `scratch` of size n.
  void solve(double* b, double* scratch) const;

 private:
  std::size_t n_ = 0;
  std::vector<double> a_;
  std::vector<std::size_t> row_;
};

}  // namespace sixty::circuit
