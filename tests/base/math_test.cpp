#include "sim/base/math.hpp"

#include <gtest/gtest.h>

#include <boost/math/special_functions/ellint_1.hpp>
#include <cmath>

namespace sixty {
namespace {

double ratio_at_degrees(double degrees) {
  const double s = det_sin(degrees * kPi / 360);
  return period_ratio(s * s);
}

// The C library serves as an independent reference here; results never use it.
TEST(MathTest, SineAndCosineAgreeWithTheLibrary) {
  for (double x = -50; x < 50; x += 0.0371) {
    EXPECT_NEAR(det_sin(x), std::sin(x), 1e-14);
    EXPECT_NEAR(det_cos(x), std::cos(x), 1e-14);
  }
}

TEST(MathTest, ArcSineAgreesWithTheLibrary) {
  for (double x = -1; x <= 1; x += 0.00117) EXPECT_NEAR(det_asin(x), std::asin(x), 2e-15);
  EXPECT_DOUBLE_EQ(det_asin(1), kPi / 2);
}

TEST(MathTest, ExponentialAndLogarithmAgreeWithTheLibrary) {
  for (double x = -600; x < 600; x += 1.37) EXPECT_NEAR(det_exp(x) / std::exp(x), 1, 1e-14);
  for (double x = 1e-12; x < 1e12; x *= 1.7) EXPECT_NEAR(det_log(x), std::log(x), 4e-15 * 30);
  EXPECT_NEAR(det_pow(92, 1.0 / 39), 1.1229321965, 1e-10);  // WIRE-01, ASTM B258 (derived)
}

// Quantiles of the standard normal distribution, from memory of any statistics table.
TEST(MathTest, NormalQuantilesAreThoseOfTheTables) {
  EXPECT_NEAR(normal_quantile(0.5), 0, 1e-12);
  EXPECT_NEAR(normal_quantile(0.975), 1.959963985, 1e-9);
  EXPECT_NEAR(normal_quantile(0.1), -1.281551566, 1e-9);
}

// PEND-07..PEND-12: exact period of the simple pendulum over its small-arc period; standard result
// quoted in public check tables, PEND-12 in closed form.
TEST(MathTest, PeriodRatioIsThatOfTheTables) {
  EXPECT_NEAR(ratio_at_degrees(90), 1.1803405990161, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(10), 1.0019071881432, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(30), 1.0174087975960, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(60), 1.0731820071494, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(120), 1.3728805006184, 2e-11);
  EXPECT_NEAR(ratio_at_degrees(150), 1.7622037295038, 2e-11);
  EXPECT_NEAR(ratio_at_degrees(0.5), 1.0000047596679, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(1), 1.0000190389210, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(2), 1.0000761596716, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(3), 1.0001713742167, 2e-13);
  EXPECT_NEAR(ratio_at_degrees(5), 1.0004761724860, 2e-13);
}

// PEND-06: K(k^2 = 1/2), Abramowitz & Stegun (1964) section 17.
TEST(MathTest, EllipticIntegralAtOneHalfIsThatOfTheHandbook) {
  EXPECT_NEAR(period_ratio(0.5) * kPi / 2, 1.8540746773013719, 1e-13);
}

// PEND-05: series coefficients in the semi-arc, at 20 degrees.
TEST(MathTest, PeriodRatioAgreesWithTheSeriesInTheArc) {
  const double t = 20 * kPi / 180;
  const double z = t * t;
  const double series =
      1 + z * (1.0 / 16 + z * (11.0 / 3072 + z * (173.0 / 737280 + z * 22931.0 / 1321205760)));
  EXPECT_NEAR(series, 1.0076690257539, 1e-13);
  EXPECT_NEAR(ratio_at_degrees(20), 1.0076690257915, 1e-13);
}

// Boost.Math, a general-purpose library, as outside reference.
TEST(MathTest, SeriesAndMeanAgreeWithBoostWhereTheyMeet) {
  for (double k2 = 1e-6; k2 < 0.9; k2 *= 1.5) {
    EXPECT_NEAR(period_ratio(k2), 2 / kPi * boost::math::ellint_1(std::sqrt(k2)), 1e-14 * 40);
  }
}

}  // namespace
}  // namespace sixty
