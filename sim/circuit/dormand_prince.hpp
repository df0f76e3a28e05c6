#pragma once

#include <cstddef>
#include <iterator>
#include <type_traits>
#include <utility>

namespace sixty::circuit {

/// Coefficients of the Dormand-Prince 5(4) pair. Source: J. R. Dormand, P. J. Prince, "A family of
/// embedded Runge-Kutta formulae", J. Comp. Appl. Math. 6 (1980) 19-26.
struct DormandPrince {
  static constexpr double kA[6][6] = {
      {1.0 / 5, 0, 0, 0, 0, 0},
      {3.0 / 40, 9.0 / 40, 0, 0, 0, 0},
      {44.0 / 45, -56.0 / 15, 32.0 / 9, 0, 0, 0},
      {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729, 0, 0},
      {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656, 0},
      {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84}};
  static constexpr double kC[6] = {1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1};
  static constexpr double kE[7] = {71.0 / 57600,      0,          -71.0 / 16695, 71.0 / 1920,
                                   -17253.0 / 339200, 22.0 / 525, -1.0 / 40};
};

/// Where stage S looks at the rates. How many terms it has is known to the compiler, which so takes
/// several variables at once; their order stays.
template <std::size_t S, std::size_t... Q, class Stages>
void dormand_prince_stage(std::size_t n, const double* y0, double h, const Stages& k,
                          double* target, std::index_sequence<Q...>) {
  const double* const rates[] = {std::data(k[Q])...};
  for (std::size_t i = 0; i < n; ++i)
    target[i] = y0[i] + h * (0.0 + ... + (DormandPrince::kA[S][Q] * rates[Q][i]));
}

/// One step of `n` variables. `rates(y, dt, f)` gives the rates at a time dt into the step; `k[0]`
/// must hold those at its start. Leaves the end in `y1` and its rates in `k[6]`.
template <class Rates, class Stages>
void dormand_prince_step(std::size_t n, const double* y0, double h, Rates&& rates, Stages& k,
                         double* stage, double* y1) {
  const auto go = [&]<std::size_t S>(std::integral_constant<std::size_t, S>) {
    double* const target = S == 5 ? y1 : stage;
    dormand_prince_stage<S>(n, y0, h, k, target, std::make_index_sequence<S + 1>());
    rates(static_cast<const double*>(target), DormandPrince::kC[S] * h, std::data(k[S + 1]));
  };
  [&]<std::size_t... S>(std::index_sequence<S...>) {
    (go(std::integral_constant<std::size_t, S>()), ...);
  }
  (std::make_index_sequence<6>());
}

/// Difference between the fifth and fourth order result of variable i.
template <class Stages>
double dormand_prince_error(const Stages& k, std::size_t i, double h) {
  double e = 0;
  for (std::size_t q = 0; q < 7; ++q) e += DormandPrince::kE[q] * k[q][i];
  return e < 0 ? -e * h : e * h;
}

/// Largest error of a step that is accepted, relative to each variable's scale.
constexpr double kRelativeTolerance = 5e-6;

}  // namespace sixty::circuit
