// The run beside the window: goes on, stands, steps and jumps as it is told, and shows it.
#include "gui/bench/runner.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

double reading(const Runner::Seen& seen, const Installation& scene, const char* name) {
  const auto& readings = scene.parts[seen.picture->watched].kind->declaration.readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].name == name) return seen.picture->readings[k];
  }
  ADD_FAILURE() << name;
  return 0;
}

TEST(Runner, StandsUntilItIsToldToRun) {
  Runner runner(bench_scene(), 10 * kSecond);
  EXPECT_EQ(runner.see_all().picture->at, 10 * kSecond);
  EXPECT_FALSE(runner.see().running);
}

/// The first picture does not wait for the run to come to where it is asked to begin.
TEST(Runner, IsSeenOnItsWayWhereItIsNotWaitedFor) {
  Runner runner(bench_scene(), 9 * kHour, nullptr, {}, 0);
  EXPECT_LT(runner.see().picture->at, 9 * kHour);
  EXPECT_EQ(runner.see_all().picture->at, 9 * kHour);
  EXPECT_FALSE(runner.see().heads_for);
}

TEST(Runner, JumpsForwardAndBackToTheSamePicture) {
  const auto scene = bench_scene();
  Runner runner(scene, 0);
  runner.watch(scene->find_id("rewind").value());
  runner.jump(5 * kSecond + 300 * kMillisecond);
  const double current = reading(runner.see_all(), *scene, "current");
  EXPECT_GT(current, 0.5);
  runner.jump(kMinute);
  runner.jump(5 * kSecond + 300 * kMillisecond);
  EXPECT_EQ(reading(runner.see_all(), *scene, "current"), current);
}

TEST(Runner, StepsFromEventToEventAndBackAgain) {
  Runner runner(bench_scene(), 4 * kSecond);
  std::vector<SimTime> there;
  for (int k = 0; k < 6; ++k) {
    runner.step(true);
    there.push_back(runner.see_all().picture->at);
  }
  EXPECT_TRUE(std::is_sorted(there.begin(), there.end()));
  EXPECT_GT(there.back(), there.front());
  runner.step(false);
  EXPECT_LT(runner.see_all().picture->at, there.back());
}

TEST(Runner, AHandActsAtOnce) {
  const auto scene = bench_scene();
  const PartId key = scene->find_id("ring_key").value();
  Runner runner(scene, kMinute);
  runner.watch(key);
  EXPECT_EQ(reading(runner.see_all(), *scene, "closed"), 0);
  const auto& commands = scene->parts[key].kind->declaration.commands;
  const auto press = std::find_if(commands.begin(), commands.end(),
                                  [](const CommandDecl& c) { return c.name == "press"; });
  Action action;
  action.part = key;
  action.command = static_cast<std::size_t>(press - commands.begin());
  runner.act(action);
  runner.jump(kMinute + 50 * kMillisecond);
  EXPECT_EQ(reading(runner.see_all(), *scene, "closed"), 1);
}

TEST(Runner, GoesOnWhileItRunsAndStandsWhenItIsToldTo) {
  Runner runner(bench_scene(), 0);
  PartId watched = 0;
  // Each question is answered behind a piece of the run.
  const auto next = [&] {
    watched = 1 - watched;
    runner.watch(watched);
    return runner.see_all().picture->at;
  };
  runner.set_speed(3600);
  runner.set_running(true);
  SimTime at = 0;
  while (at < kHour) {
    const SimTime before = at;
    at = next();
    ASSERT_GE(at, before);
  }
  runner.set_running(false);
  next();
  const SimTime stood = next();
  EXPECT_EQ(next(), stood);
}

}  // namespace
}  // namespace sixty::gui
