#pragma once

#include <cstdint>

/// Elementary functions that give the same bits on every processor and compiler: only IEEE
/// additions, multiplications, divisions and square roots in a fixed order, no library calls whose
/// result depends on the machine's instruction set.
namespace sixty {

constexpr double kPi = 3.14159265358979323846;
constexpr double kDegree = kPi / 180;  ///< rad
constexpr double kMu0 = 4e-7 * kPi;    ///< magnetic constant, V s/(A m) (value before 2019, exact)

/// Units: rad. Range: |x| < 1e6. Error: under 1e-14 absolute.
double det_sin(double x);
double det_cos(double x);
/// Range: -1 <= x <= 1 (clamped). Error: under 1e-15 relative near 0.
double det_asin(double x);
/// Range: |x| < 700 (clamped).
double det_exp(double x);
/// Range: x > 0; returns -745 for smaller.
double det_log(double x);
/// x to the power y. Range: x > 0.
double det_pow(double x, double y);
/// Value below which a standard normal variable lies with probability p. Range: 1e-12 < p <
/// 1-1e-12.
double normal_quantile(double p);

/// period_ratio() at any swing, by the mean alone.
double period_ratio_by_mean(double k2);
/// Period of a simple pendulum over its small-arc period, (2/pi) K(k), from k2 = sin^2(A/2), A the
/// semi-arc. Range: 0 <= k2 < 1. Source: complete elliptic integral by the arithmetic-geometric
/// mean, Abramowitz & Stegun (1964) section 17.6; below k2 = 0.002 its power series (17.3.11).
inline double period_ratio(double k2) {
  if (k2 >= 0.002) return period_ratio_by_mean(k2);
  return 1 +
         k2 * (1.0 / 4 +
               k2 * (9.0 / 64 + k2 * (25.0 / 256 + k2 * (1225.0 / 16384 + k2 * (3969.0 / 65536)))));
}

/// What is left of `value` beyond a multiple of `whole`, 0 .. whole - 1 also for values below 0.
/// Range: whole > 0.
constexpr std::int64_t floor_mod(std::int64_t value, std::int64_t whole) {
  const std::int64_t rest = value % whole;
  return rest < 0 ? rest + whole : rest;
}

}  // namespace sixty
