// The run beside the window: goes on, stands, steps and jumps as it is told, and shows it.
#include "gui/bench/runner.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "models/part_list.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::gui {
namespace {

std::shared_ptr<const Installation> bench_minimal() {
  static const Registry parts = models::registry();
  Diagnostics mistakes;
  auto loaded =
      load_scene(std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml", parts, {}, mistakes);
  EXPECT_NE(loaded, nullptr) << mistakes.to_text();
  return loaded;
}

PartId part_named(const Installation& scene, const char* name) {
  return static_cast<PartId>(scene.find(name) - scene.parts.data());
}

double reading(const Runner::Seen& seen, const Installation& scene, const char* name) {
  const auto& readings = scene.parts[seen.picture->watched].kind->declaration.readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].name == name) return seen.picture->readings[k];
  }
  ADD_FAILURE() << name;
  return 0;
}

TEST(Runner, StandsUntilItIsToldToRun) {
  Runner runner(bench_minimal(), 10 * kSecond);
  EXPECT_EQ(runner.see_all().picture->at, 10 * kSecond);
  EXPECT_FALSE(runner.see().running);
}

TEST(Runner, JumpsForwardAndBackToTheSamePicture) {
  const auto scene = bench_minimal();
  Runner runner(scene, 0);
  runner.watch(part_named(*scene, "rewind"));
  runner.jump(5 * kSecond + 300 * kMillisecond);
  const double current = reading(runner.see_all(), *scene, "current");
  EXPECT_GT(current, 0.5);
  runner.jump(kMinute);
  runner.jump(5 * kSecond + 300 * kMillisecond);
  EXPECT_EQ(reading(runner.see_all(), *scene, "current"), current);
}

TEST(Runner, StepsFromEventToEventAndBackAgain) {
  Runner runner(bench_minimal(), 4 * kSecond);
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
  const auto scene = bench_minimal();
  const PartId key = part_named(*scene, "ring_key");
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

TEST(Runner, RunsAtTheSpeedAskedFor) {
  Runner runner(bench_minimal(), 0);
  runner.set_speed(3600);
  runner.set_running(true);
  SimTime at = 0;
  // As long as it takes: the machine may be busy.
  for (int k = 0; k < 1000 && at < kHour; ++k) {
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
    at = runner.see().picture->at;
  }
  EXPECT_GE(at, kHour);
  runner.set_running(false);
  const SimTime stood = runner.see_all().picture->at;
  std::this_thread::sleep_for(std::chrono::milliseconds(50));
  EXPECT_LE(runner.see().picture->at - stood, kHour);
}

}  // namespace
}  // namespace sixty::gui
