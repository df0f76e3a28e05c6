// What the rewind puts into the spring is what the train takes out of it, whatever the train.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kSixDegrees = 3.14159265358979323846 / 30;
constexpr double kDay = 86400;
constexpr double kLook = 10;  // s between two looks

/// Sums over a day of the whole installation, by looks at it.
struct Day {
  double beats = 0;
  std::size_t wound = 0;    ///< teeth put in
  double fallen_teeth = 0;  ///< at the start, less those left
  double put_in_j = 0;      ///< by what the spring's torque was at each tooth
  double fallen_j = 0;      ///< energy of the spring at the start, less what is left
  double driven_j = 0;      ///< at the escape arbor, torque x angle
};

double spring_j(Trial& trial) {
  return trial.read("rewind.spring_torque") * trial.read("rewind.spring_teeth") * kSixDegrees / 2;
}

/// Teeth that have gone in between two looks.
std::size_t teeth_gained(const Trial& trial, std::size_t& seen) {
  std::size_t count = 0;
  for (; seen < trial.events().size(); ++seen) {
    const Trial::Happened& h = trial.events()[seen];
    count += h.part == "rewind" && h.kind == "winds" && h.acted ? 1 : 0;
  }
  return count;
}

Day day_of(double ratio) {
  // A spring that suits the train: the pendulum gets the same at each ratio.
  Trial trial(bench_minimal(), {fmt::format("movement.train_ratio={}", ratio),
                                fmt::format("rewind.stiffness={} mN.m/rad", ratio / 6)});
  Day day;
  const double at_start = trial.read("rewind.spring_teeth");
  const double stored_j = spring_j(trial);
  std::size_t seen = 0;
  double beats = 0, torque = trial.read("movement.escape_torque");
  const double stiffness = trial.read("rewind.spring_torque") / at_start / kSixDegrees;
  for (double t = kLook; t <= kDay; t += kLook) {
    trial.run_to(t);
    const double beats_now = trial.read("movement.position");
    const double torque_now = trial.read("movement.escape_torque");
    day.driven_j += (torque + torque_now) / 2 * (beats_now - beats) * kSixDegrees;
    beats = beats_now;
    torque = torque_now;
    const std::size_t gained = teeth_gained(trial, seen);
    day.wound += gained;
    const double teeth = trial.read("rewind.spring_teeth") - 0.5;  // in the middle of the tooth
    day.put_in_j += static_cast<double>(gained) * stiffness * teeth * kSixDegrees * kSixDegrees;
  }
  day.beats = beats;
  day.fallen_teeth = at_start - trial.read("rewind.spring_teeth");
  day.fallen_j = stored_j - spring_j(trial);
  return day;
}

class DriveBalanceTest : public testing::TestWithParam<double> {};

TEST_P(DriveBalanceTest, TrainTakesAsManyTurnsAsTheRewindGives) {
  const Day day = day_of(GetParam());
  EXPECT_GT(day.beats, 5000);
  EXPECT_GT(day.wound, 90U);
  EXPECT_NEAR(day.beats / GetParam(), static_cast<double>(day.wound) + day.fallen_teeth, 1e-6);
}

// The looks are ten seconds apart, and a tooth that goes in between two of them is missing in the
// mean of their torques for a part of that time: some thousandths.
TEST_P(DriveBalanceTest, TrainTakesAsMuchEnergyAsTheRewindGives) {
  const Day day = day_of(GetParam());
  const double given_j = day.put_in_j + day.fallen_j;
  EXPECT_GT(given_j, 0.2);
  EXPECT_NEAR(day.driven_j / 0.70, given_j, 0.01 * given_j);  // efficiency of the train
}

INSTANTIATE_TEST_SUITE_P(Ratios, DriveBalanceTest, testing::Values(52.0, 60.0, 112.5));

}  // namespace
}  // namespace sixty
