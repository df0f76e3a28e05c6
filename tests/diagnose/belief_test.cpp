#include "sim/diagnose/belief.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

// DIAG-01 .. DIAG-15: ids of published or derived values. Sources: S. Russell & P. Norvig,
// Artificial Intelligence: A Modern Approach, chapter on probabilistic reasoning (the alarm); J. A.
// Rice, Mathematical Statistics and Data Analysis (the screening); C. E. Shannon (1948); J. de
// Kleer & B. C. Williams, Artificial Intelligence 32 (1987) (chains of stages).
namespace sixty::diagnose {
namespace {

/// The alarm: burglary and earthquake as four hypotheses.
struct Alarm {
  std::vector<double> prior{0.001 * 0.002, 0.001 * 0.998, 0.999 * 0.002, 0.999 * 0.998};
  std::array<double, 4> rings{0.95, 0.94, 0.29, 0.001};
};

TEST(Belief, OfABurglaryAfterTwoCallsIsThePublishedOne) {
  const Alarm alarm;
  std::vector<double> logs;
  for (const double rings : alarm.rings)
    logs.push_back(std::log(rings * 0.90 * 0.70 + (1 - rings) * 0.05 * 0.01));
  const auto belief = posterior(alarm.prior, logs);
  EXPECT_NEAR(belief[0] + belief[1], 0.28417183536439294, 1e-12);  // DIAG-02
}

TEST(Belief, IsExplainedAwayByAnotherCause) {
  const Alarm alarm;
  std::vector<double> logs;
  for (const double rings : alarm.rings) logs.push_back(std::log(rings));
  const auto rung = posterior(alarm.prior, logs);
  EXPECT_NEAR(rung[0] + rung[1], 0.37355122828, 1e-11);  // DIAG-05
  const std::vector<double> quake{alarm.prior[0], 0, alarm.prior[2], 0};
  EXPECT_NEAR(posterior(quake, logs)[0], 0.0032684235877, 1e-12);
}

TEST(Belief, AfterAScreeningTestIsThePublishedOne) {
  const std::vector<double> prior{0.01, 0.99}, logs{std::log(0.8), std::log(0.1)};
  EXPECT_NEAR(posterior(prior, logs)[0], 0.075, 5e-4);  // DIAG-06
}

TEST(Belief, SurvivesLikelihoodsThatVanish) {
  const std::vector<double> prior{0.5, 0.5}, logs{-5000, -5001};
  EXPECT_NEAR(posterior(prior, logs)[0], 1 / (1 + std::exp(-1)), 1e-12);
}

TEST(Belief, IsSharedAlikeWhereNothingIsPossible) {
  const std::vector<double> nothing{0, 0, 0, 0};
  for (const double share : normalised(nothing)) EXPECT_DOUBLE_EQ(share, 0.25);
}

TEST(Entropy, OfATwoWaySplitIsThePublishedOne) {
  const auto split = [](double p) { return entropy_bit(std::vector<double>{p, 1 - p}); };
  EXPECT_NEAR(split(0.25), 0.81127812446, 1e-11);  // DIAG-07
  EXPECT_NEAR(split(0.2), 0.72192809489, 1e-11);
  EXPECT_NEAR(split(0.1), 0.46899559359, 1e-11);
  EXPECT_NEAR(split(0.5), 1, 1e-12);
  EXPECT_EQ(split(0), 0);
}

/// Stages in a row, one of them faulty: what a probe behind stage `k` (from 1) leaves.
double left_behind(const std::vector<double>& weights, std::size_t k) {
  const auto beliefs = normalised(weights);
  std::vector<double> wrong;
  for (std::size_t stage = 0; stage < beliefs.size(); ++stage) wrong.push_back(stage < k ? 1 : 0);
  return entropy_after_bit(beliefs, wrong);
}

TEST(NextProbe, OfFourEqualStagesIsInTheMiddle) {
  const std::vector<double> equal(4, 1);
  EXPECT_NEAR(left_behind(equal, 1), 1.1887218755, 1e-9);  // DIAG-13
  EXPECT_NEAR(left_behind(equal, 2), 1, 1e-9);
  EXPECT_NEAR(left_behind(equal, 3), 1.1887218755, 1e-9);
}

TEST(NextProbe, MovesToAStageThatFailsMoreOften) {
  const std::vector<double> weights{0.025, 0.01, 0.01, 0.01};
  EXPECT_NEAR(left_behind(weights, 1), 0.86452500039, 1e-9);  // DIAG-14
  EXPECT_NEAR(left_behind(weights, 2), 0.91289490727, 1e-9);
  EXPECT_NEAR(left_behind(weights, 3), 1.1745167762, 1e-9);
}

TEST(NextProbe, HalvesEightEqualStagesEachTime) {
  EXPECT_NEAR(left_behind(std::vector<double>(8, 1), 4), 2, 1e-12);  // DIAG-15
  EXPECT_NEAR(left_behind(std::vector<double>(4, 1), 2), 1, 1e-12);
  EXPECT_NEAR(left_behind(std::vector<double>(2, 1), 1), 0, 1e-12);
}

}  // namespace
}  // namespace sixty::diagnose
