#include "sim/base/math.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>

namespace sixty {
namespace {

/// 1/n!
constexpr std::array<double, 21> inverse_factorials() {
  std::array<double, 21> c = {1};
  double factorial = 1;  // all of them up to 18! have no more than 53 bits that count
  for (std::size_t n = 1; n < c.size(); ++n) {
    factorial *= static_cast<double>(n);
    c[n] = 1 / factorial;
  }
  return c;
}
constexpr std::array<double, 21> kInverseFactorial = inverse_factorials();

/// The library's floor is a call, since not every processor has an instruction for it. Range: |x| <
/// 1e18.
double floor_of(double x) {
  const auto whole = static_cast<double>(static_cast<std::int64_t>(x));
  return whole > x ? whole - 1 : whole;
}

/// 1/first! - z/(first + 2)! + z^2/(first + 4)! ... to 1/last!, every second term apart, so that
/// the processor works on both sums at once.
template <std::size_t first, std::size_t last>
double alternating(double z) {
  static_assert((last - first) % 2 == 0);
  constexpr std::size_t kLastPlus = last - (last - first) % 4;
  constexpr std::size_t kLastMinus = kLastPlus == last ? last - 2 : last;
  const double z2 = z * z;
  double plus = kInverseFactorial[kLastPlus];
  for (std::size_t n = kLastPlus; n > first; n -= 4) plus = kInverseFactorial[n - 4] + z2 * plus;
  double minus = kInverseFactorial[kLastMinus];
  for (std::size_t n = kLastMinus; n > first + 2; n -= 4)
    minus = kInverseFactorial[n - 4] + z2 * minus;
  return plus - z * minus;
}

/// sin and cos of |r| <= pi/4 by their Taylor series (the next term is below 1e-17).
double sin_core(double r) {
  const double z = r * r;
  return r - r * z * alternating<3, 17>(z);
}

double cos_core(double r) {
  const double z = r * r;
  return 1 - z * alternating<2, 18>(z);
}

double sin_of_quarter(double x, int shift) {
  const double quarters = floor_of(x * (2 / kPi) + 0.5);
  // pi/2 in two parts, so that the reduced angle keeps its digits.
  const double r = (x - quarters * 1.57079632679489655800) - quarters * 6.12323399573676603587e-17;
  const auto q = static_cast<std::int64_t>(quarters) + shift;
  const double value = (q & 1) != 0 ? cos_core(r) : sin_core(r);
  return (q & 2) != 0 ? -value : value;
}

/// Coefficients (2n)!/(4^n n!^2 (2n + 1)) of the arcsine's series; the next term is below 1e-17.
constexpr std::array<double, 28> asin_series() {
  std::array<double, 28> c = {};
  double ratio = 1;
  for (std::size_t n = 0; n < c.size(); ++n) {
    const auto k = static_cast<double>(n);
    if (n > 0) ratio *= (2 * k - 1) / (2 * k);
    c[n] = ratio / (2 * k + 1);
  }
  return c;
}
constexpr std::array<double, 28> kAsinSeries = asin_series();

}  // namespace

double det_sin(double x) { return sin_of_quarter(x, 0); }
double det_cos(double x) { return sin_of_quarter(x, 1); }

double det_asin(double x) {
  if (x < 0) return -det_asin(-x);
  if (x > 1) x = 1;
  if (x > 0.5) return kPi / 2 - 2 * det_asin(std::sqrt((1 - x) / 2));
  const double z = x * x;
  // Every fourth term apart, so that the processor works on four sums at once.
  const double z2 = z * z;
  const double z4 = z2 * z2;
  constexpr std::size_t kFours = kAsinSeries.size() / 4;
  static_assert(kAsinSeries.size() % 4 == 0);
  std::array<double, 4> sums = {};
  for (std::size_t n = kFours; n-- > 0;) {
    for (std::size_t k = 0; k < 4; ++k) sums[k] = sums[k] * z4 + kAsinSeries[4 * n + k];
  }
  return x * ((sums[0] + z * sums[1]) + z2 * (sums[2] + z * sums[3]));
}

double det_exp(double x) {
  if (x > 700) x = 700;
  if (x < -700) x = -700;
  const double k = floor_of(x * 1.44269504088896340736 + 0.5);
  const double r = (x - k * 0.693147180369123816490) - k * 1.90821492927058770002e-10;
  // |r| <= 0.35: the next term is below 1e-17. Even and odd terms apart, so that the processor
  // works on both at once.
  const double z = r * r;
  double even = kInverseFactorial[14];
  double odd = kInverseFactorial[13];
  for (std::size_t n = 12; n >= 4; n -= 2) {
    even = even * z + kInverseFactorial[n];
    odd = odd * z + kInverseFactorial[n - 1];
  }
  const double sum = 1 + (r + z * (kInverseFactorial[2] + z * even + r * odd));
  // 2^k by its bits: k lies within +-1010.
  const auto power = std::bit_cast<double>(static_cast<std::uint64_t>(k + 1023) << 52);
  return sum * power;
}

double det_log(double x) {
  if (!(x > 0)) return -745;
  int exponent = 0;
  double m = std::frexp(x, &exponent);  // 0.5 <= m < 1
  if (m < 0.70710678118654752440) {
    m *= 2;
    --exponent;
  }
  const double s = (m - 1) / (m + 1);
  const double z = s * s;
  double power = s;
  double sum = s;
  for (int n = 1; n <= 14; ++n) {
    power *= z;
    sum += power / static_cast<double>(2 * n + 1);
  }
  return 2 * sum + static_cast<double>(exponent) * 0.69314718055994530942;
}

double det_pow(double x, double y) { return det_exp(y * det_log(x)); }

double normal_quantile(double p) {
  // Bisection on the series of the distribution function: slow, exact enough, used at set-up only.
  const auto below = [](double x) {
    double term = x;
    double sum = x;
    for (int n = 1; n < 200; ++n) {
      term *= x * x / static_cast<double>(2 * n + 1);
      sum += term;
    }
    return 0.5 + sum * det_exp(-x * x / 2) / std::sqrt(2 * kPi);
  };
  double low = -7.2;
  double high = 7.2;
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2;
    (below(middle) < p ? low : high) = middle;
  }
  return (low + high) / 2;
}

double period_ratio_by_mean(double k2) {
  double a = 1;
  double b = std::sqrt(1 - k2);
  for (int i = 0; i < 40 && std::fabs(a - b) > 1e-16 * a; ++i) {
    const double mean = (a + b) / 2;
    b = std::sqrt(a * b);
    a = mean;
  }
  return 1 / a;
}

}  // namespace sixty
