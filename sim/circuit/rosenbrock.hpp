#pragma once

#include <cstddef>
#include <vector>

#include "sim/circuit/stiff_system.hpp"

namespace sixty::circuit {

/// Coefficients of the stiffly accurate, L-stable Rosenbrock method of order 4(3) in six stages.
/// Source: E. Hairer, G. Wanner, "Solving Ordinary Differential Equations II", 2nd ed. (1996),
/// section IV.7, method RODAS.
struct Rosenbrock {
  static constexpr double kGamma = 0.25;
  static constexpr double kA[5][4] = {
      {},
      {1.544},
      {0.9466785280815826, 0.2557011698983284},
      {3.314825187068521, 2.896124015972201, 0.9986419139977817},
      {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950}};
  static constexpr double kC[6][5] = {
      {},
      {-5.6688},
      {-2.430093356833875, -0.2063599157091915},
      {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
      {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
      {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136,
       -6.058818238834054}};
  static constexpr double kTime[6] = {0, 0.386, 0.21, 0.63, 1, 1};
  static constexpr double kSlope[6] = {0.25, -0.1043, 0.1035, -0.0362, 0, 0};
};

/// A method's working place, kept from step to step.
struct RosenbrockWork {
  std::vector<double> u[6];
  std::vector<double> stage;
};

/// Where stage `s` looks at the rates.
inline void rosenbrock_stage(std::size_t s, const double* y0, RosenbrockWork& work) {
  for (std::size_t i = 0; i < work.stage.size(); ++i) {
    double y = s == 5 ? work.stage[i] + work.u[4][i] : y0[i];
    for (std::size_t q = 0; q < s && s < 5; ++q) y += Rosenbrock::kA[s][q] * work.u[q][i];
    work.stage[i] = y;
  }
}

/// One step of all variables from `y0`, where the rates are `f0`, their slopes with the
/// variables are in `system` and their explicit slope in time is `slope`. `rates(y, dt, f)` gives
/// the rates at a time dt into the step. Leaves the end in `y1`; `work.u[5]` is the difference of
/// the two orders.
template <class Rates>
void rosenbrock_step(const double* y0, const double* f0, StiffSystem& system, const double* slope,
                     double h, Rates&& rates, RosenbrockWork& work, double* y1) {
  const std::size_t n = system.size();
  system.factor(1 / (h * Rosenbrock::kGamma));
  work.stage.resize(n);
  for (std::size_t s = 0; s < 6; ++s) {
    work.u[s].assign(f0, f0 + n);
    double* u = work.u[s].data();
    if (s > 0) {
      rosenbrock_stage(s, y0, work);
      rates(static_cast<const double*>(work.stage.data()), Rosenbrock::kTime[s] * h, u);
    }
    for (std::size_t i = 0; i < n; ++i) {
      double sum = 0;
      for (std::size_t q = 0; q < s; ++q) sum += Rosenbrock::kC[s][q] * work.u[q][i];
      u[i] += sum / h + h * Rosenbrock::kSlope[s] * slope[i];
    }
    system.solve(u);
  }
  for (std::size_t i = 0; i < n; ++i) y1[i] = work.stage[i] + work.u[5][i];
}

}  // namespace sixty::circuit
