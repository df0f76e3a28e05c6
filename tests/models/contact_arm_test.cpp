// Contacts on the escape arbor.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// An arm over a resistor; the clock goes on its spring alone.
std::string scene(const std::string& arm = "", const std::string& load = "1 kohm") {
  return R"(scene: One arm
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  movement: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind.spring}}
  rewind: {type: rewind, sheet: solenoid_24v}
  arm:
    type: contact_arm
    sheet: silver_arm
    set: {makes_at: 58 beat, dwell: 5 beat)" +
         arm + R"(}
    connect: {mounted_on: movement.escape_arbor}
  load: {type: resistor, set: {resistance: )" +
         load + R"(}}
wires:
  plus: [supply.plus, arm.blade]
  out: [arm.anvil, load.a]
  minus: [supply.minus, load.b]
script:
  - at 0 s: movement.start 1.75 deg
)";
}

TEST(ContactArmTest, ClosesForItsBeatsAlsoOverTheFullMinute) {
  Trial trial(scene());
  trial.run_to(130);
  const auto makes = trial.when("arm", "makes", 30);
  ASSERT_TRUE(makes);
  const auto breaks = trial.when("arm", "breaks", *makes + 0.1);
  ASSERT_TRUE(breaks);
  EXPECT_NEAR(*makes, 57.7, 0.1);  // the first drop comes 0.7 s after letting go
  EXPECT_NEAR(*breaks - *makes, 5, 0.01);
}

TEST(ContactArmTest, BeginsTheMinuteClosedWhereItsPlaceIs) {
  Trial trial(scene());
  trial.run_to(0.2);
  EXPECT_EQ(trial.read("arm.closed"), 1);
  trial.run_to(4);
  EXPECT_EQ(trial.read("arm.closed"), 0);
}

TEST(ContactArmTest, NarrowsTheCurrentByForceAndHardness) {
  // CONT-04, closed form after Holm: (rho/2) sqrt(pi H/F), here 1.409 mohm at 0.05 N.
  Trial trial(scene(", film: 0 ohm"));
  trial.run_to(61);
  const double holm = 1.59e-8 / 2 * std::sqrt(3.14159265358979 * 5e8 / 0.05);
  EXPECT_NEAR(trial.read("arm.resistance"), holm, holm * 1e-9);
}

TEST(ContactArmTest, ACleanOneHasItsMedianFilm) {
  Trial trial(scene());
  trial.run_to(60);
  const double first = trial.read("arm.resistance");
  EXPECT_GT(first, 0.005);  // 5 to 50 mohm: common practice, no source
  EXPECT_LT(first, 0.050);
  trial.run_to(1200);
  EXPECT_EQ(trial.read("arm.resistance"), first);
}

TEST(ContactArmTest, ADullOneDrawsItsFilmAnewFromFourValues) {
  Trial trial(scene(", film: 60 mohm"));
  std::set<double> seen;
  for (int minute = 1; minute <= 20; ++minute) {
    trial.run_to(60 * minute);
    seen.insert(trial.read("arm.resistance"));
  }
  EXPECT_EQ(seen.size(), 4U);
}

TEST(ContactArmTest, SparksOnlyWithCurrentEnoughForAnArc) {
  // CONT-14: under 0.4 A, or under 12 V, silver draws no arc; a resistor kicks back nothing.
  Trial weak(scene("", "100 ohm"));
  weak.run_to(130);
  EXPECT_EQ(weak.read("arm.spark_energy"), 0);
  Trial strong(scene("", "20 ohm"));
  strong.run_to(130);
  EXPECT_GT(strong.read("arm.spark_energy"), 0);
  EXPECT_NEAR(strong.read("arm.eroded"), strong.read("arm.spark_energy") * 1e-14, 1e-20);
}

TEST(ContactArmTest, StopsTheClockAtItsPlaceWhenItPressesTooHard) {
  // Three times the pressure on a dry arm (0.2) takes all the torque there is.
  Trial trial(scene(", contact_force: 0.16 N, friction: 0.2"));
  trial.run_to(200);
  ASSERT_TRUE(trial.when("movement", "stands"));
  EXPECT_EQ(trial.read("arm.closed"), 1);
  EXPECT_EQ(trial.read("movement.position"), 0);  // the arm is on its contact from the start
}

}  // namespace
}  // namespace sixty
