// Parts exactly alike do the same at the same instant: none may lose what happens to it.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/models/keyed_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// So many parts on one key, closed from 1 s to 3 s.
std::string alike(int count, const std::string& part, const std::string& fed,
                  const std::string& minus, const std::string& plus = "",
                  const std::string& more = "", const std::string& wire = "") {
  std::string parts, feeds, returns, pluses, wires;
  for (int k = 1; k <= count; ++k) {
    parts += fmt::format("  it_{}: {}\n", k, part) + fmt::format(fmt::runtime(more), k);
    feeds += fmt::format(", it_{}.{}", k, fed);
    returns += fmt::format(fmt::runtime(minus), k);
    pluses += fmt::format(fmt::runtime(plus), k);
    wires += fmt::format(fmt::runtime(wire), k);
  }
  return yaml_of({.parts = parts,
                  .fed = feeds,
                  .minus = returns,
                  .plus = pluses,
                  .wires = wires,
                  .script = "  - at 3 s: key.open\n"});
}

TEST(AlikeTest, RelaysMakeAndBreakAllTogether) {
  for (const int count : {2, 3, 5}) {
    Trial trial(alike(count, "{type: relay, sheet: minute_relay, set: {film: 0 ohm, bounces: no}}",
                      "coil_a", ", it_{0}.coil_b, load_{0}.b", ", it_{}.contact_a",
                      "  load_{}: {{type: resistor, set: {{resistance: 1 kohm}}}}\n",
                      "  lit_{0}: [it_{0}.contact_b, load_{0}.a]\n"));
    trial.run_to(2);
    for (int k = 1; k <= count; ++k) {
      EXPECT_EQ(trial.read(fmt::format("it_{}.gap", k)), 0) << k << " of " << count;
      EXPECT_GT(trial.read(fmt::format("load_{}.volts", k)), 20) << k << " of " << count;
    }
    trial.run_to(4);
    for (int k = 1; k <= count; ++k) {
      EXPECT_EQ(trial.read(fmt::format("load_{}.volts", k)), 0) << k << " of " << count;
    }
  }
}

TEST(AlikeTest, BellsStrikeAllTogether) {
  for (const int count : {2, 3, 5}) {
    Trial trial(
        alike(count, "{type: bell, sheet: bell_24v, set: {film: 0 ohm}}", "plus", ", it_{}.minus"));
    trial.run_to(3);
    for (int k = 1; k <= count; ++k) {
      EXPECT_NEAR(trial.read(fmt::format("it_{}.strokes", k)), 25, 3) << k << " of " << count;
    }
  }
}

// Nothing takes the coil's kick: its flux is gone at once, so its armature must go back.
TEST(AlikeTest, CoilCutOffWithNothingAcrossItLetsGo) {
  Trial trial(alike(1, "{type: coil, sheet: relay_coil, set: {shunt: 0 ohm}}", "a", ", it_{}.b"));
  trial.run_to(5);
  EXPECT_EQ(trial.read("it_1.flux_linkage"), 0);
  EXPECT_NEAR(trial.read("it_1.gap"), 2e-3, 1e-9);
  EXPECT_TRUE(trial.when("it_1", "returns", 3));
}

}  // namespace
}  // namespace sixty
