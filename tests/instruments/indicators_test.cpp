// Pointer and digits alone, against closed forms.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/instruments/digital.hpp"
#include "sim/instruments/meter.hpp"
#include "sim/instruments/needle.hpp"
#include "sim/instruments/recorder.hpp"
#include "sim/instruments/thermometer.hpp"

namespace sixty::instruments {
namespace {

constexpr double kZeta = Needle::kDamping;
const double kW = 2 * M_PI / Needle::kFreePeriod_s;

/// Laid on while nothing flows.
Needle resting(double full_scale) {
  Needle needle(full_scale);
  needle.follow(0, 0, 1);
  return needle;
}

// Unit step response of a second-order system, M_p = exp(-zeta pi / sqrt(1 - zeta^2)) at
// t_p = pi / w_d: K. Ogata, "Modern Control Engineering", section on transient response (from
// memory).
TEST(Needle, OvershootsAStepAsASecondOrderSystemDoes) {
  Needle needle = resting(50);
  needle.follow(24, 24, 5);
  const double overshoot = std::exp(-kZeta * M_PI / std::sqrt(1 - kZeta * kZeta));
  EXPECT_NEAR(needle.shown().most.value, 24 * (1 + overshoot), 24 * 1e-4);
  EXPECT_NEAR(needle.shown().most.at_s, 1 + M_PI / (kW * std::sqrt(1 - kZeta * kZeta)), 0.011);
  EXPECT_NEAR(needle.reading(), 24, 24 * 1e-5);
}

// Impulse response of the same system: its peak is w exp(-zeta/sqrt(1-zeta^2) acos zeta) for each
// unit of area.
TEST(Needle, IsFarTooSlowForAPulseOfTwentyMilliseconds) {
  Needle needle = resting(50);
  needle.follow(24, 24, 0.02);
  needle.follow(0, 0, 3);
  const double peak =
      24 * 0.02 * kW * std::exp(-kZeta / std::sqrt(1 - kZeta * kZeta) * std::acos(kZeta));
  EXPECT_NEAR(needle.shown().most.value, peak, 0.01 * peak);
  EXPECT_LT(needle.shown().most.value, 1.5);
}

TEST(Needle, RestsOnItsStops) {
  Needle needle = resting(10);
  needle.follow(24, 24, 3);
  EXPECT_DOUBLE_EQ(needle.reading(), 10.5);
  needle.follow(-24, -24, 3);
  EXPECT_DOUBLE_EQ(needle.reading(), -0.5);
  needle.follow(5, 5, 4);
  EXPECT_NEAR(needle.reading(), 5, 1e-4);
}

TEST(Needle, IsAlreadyAtRestOnWhatItWasLaidOn) {
  Needle needle(50);
  needle.follow(24, 24, 0.5);
  EXPECT_DOUBLE_EQ(needle.shown().least.value, 24);
}

RC_GTEST_PROP(Needle, SwingsAlikeHoweverItsDriveIsCutUp, ()) {
  const double from = *rc::gen::inRange(0, 240) / 10.0, to = *rc::gen::inRange(0, 240) / 10.0;
  const int pieces = *rc::gen::inRange(2, 60);
  Needle whole = resting(50), cut = resting(50);
  whole.follow(from, to, 0.3);
  for (int k = 0; k < pieces; ++k) {
    const auto at = [&](int n) { return from + (to - from) * n / pieces; };
    cut.follow(at(k), at(k + 1), 0.3 / pieces);
  }
  RC_ASSERT(std::fabs(whole.reading() - cut.reading()) < 1e-9);
}

// Mean of a full-wave rectified sine, 2/pi of its peak: any handbook of power electronics.
TEST(Digital, ReadsTheMeanOfARectifiedWave) {
  Digital digital;
  const int pieces = 200;
  for (int half = 0; half < 30; ++half) {
    for (int k = 0; k < pieces; ++k) {
      digital.follow(34 * std::sin(M_PI * k / pieces), 34 * std::sin(M_PI * (k + 1) / pieces),
                     0.01 / pieces);
    }
  }
  EXPECT_NEAR(digital.reading(), 34 * 2 / M_PI, 0.002);
  // The millisecond beside the peak: 34 V times the mean of a cosine over a tenth of pi.
  EXPECT_NEAR(digital.shown().most.value, 34 * std::sin(0.1 * M_PI) / (0.1 * M_PI), 0.01);
  EXPECT_LT(digital.shown().least.value, 34 * std::sin(M_PI * 0.1));
}

TEST(Digital, CatchesAPulseOfTwentyMilliseconds) {
  Digital digital;
  digital.follow(0, 0, 1.0003);
  digital.follow(24, 24, 0.02);
  digital.follow(0, 0, 1);
  EXPECT_DOUBLE_EQ(digital.shown().most.value, 24);
  EXPECT_NEAR(digital.shown().most.at_s, 1.0003, 0.003);
  EXPECT_EQ(digital.reading(), 0);
}

TEST(Digital, ShowsOneLongPieceAsItShowsManyShortOnes) {
  Digital whole, cut;
  for (const double v : {3.0, 7.0}) {
    whole.follow(v, v, 1.2345);
    for (int k = 0; k < 12345; ++k) cut.follow(v, v, 1e-4);
  }
  EXPECT_NEAR(whole.reading(), cut.reading(), 1e-9);
  EXPECT_DOUBLE_EQ(whole.shown().least.value, cut.shown().least.value);
}

// GUM (JCGM 100:2008) 4.3.7: what lies anywhere within +-a has the standard uncertainty a/sqrt(3);
// 6.2.1 with k = 2.
TEST(Meter, TellsTwiceTheStandardUncertaintyOfItsLimits) {
  const MeterSheet sheet{"", "V", false, {}, 0.01, 0, 0};
  EXPECT_NEAR(sheet.uncertainty(30, 100), 2 * 0.3 / std::sqrt(3.0), 1e-12);
}

TEST(Meter, ErrsWithinItsLimitsAndAlwaysAlike) {
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    for (const bool needle : {false, true}) {
      const MeterSheet& sheet = voltmeter(needle);
      const MeterRange range = sheet.ranges[2];
      Meter a(sheet, range, seed), b(sheet, range, seed);
      a.indicator().follow(23.7, 23.7, 5);
      b.indicator().follow(23.7, 23.7, 5);
      EXPECT_EQ(a.last().value, b.last().value);
      const double limit = sheet.of_reading * 23.7 +
                           (sheet.of_scale + sheet.resolution / 2 + 1e-6) * range.full_scale;
      EXPECT_NEAR(a.last().value, 23.7, limit);
    }
  }
}

TEST(Meter, HasTheTruthWithinItsUncertaintyNineteenTimesInTwenty) {
  int within = 0;
  for (std::uint64_t seed = 0; seed < 1000; ++seed) {
    Meter meter(voltmeter(true), voltmeter(true).ranges[2], seed);
    meter.indicator().follow(23.7, 23.7, 5);
    if (std::fabs(meter.last().value - 23.7) <= meter.last().uncertainty) ++within;
  }
  EXPECT_GE(within, 950);
}

TEST(Recorder, HasRangesOfOneTwoAndFive) {
  EXPECT_NEAR(range_for(1.7), 2, 1e-12);
  EXPECT_NEAR(range_for(2.1), 5, 1e-12);
  EXPECT_NEAR(range_for(0.051), 0.1, 1e-12);
}

// First-order lag: 63.2 % of a step after one time constant.
TEST(Thermometer, LagsBehind) {
  Thermometer thermometer(293.15);
  for (int k = 0; k < 30; ++k) thermometer.follow(303.15, 1);
  const double error = Thermometer(293.15).shown_k(1) - 293.15;
  EXPECT_NEAR(thermometer.shown_k(1) - error, 293.15 + 6.32, 0.11);
}

}  // namespace
}  // namespace sixty::instruments
