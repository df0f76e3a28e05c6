// A ring needs hole, pin, timing contact, cut-out and volts: with any one of them gone there is
// none, and the full trace names that one alone, with what was measured and what was needed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kTimingCloses_s = 75;  // 08:00:15
constexpr double kPaperMoves_s = 65;    // 08:00:05

/// From a minute before a ring that the timetable asks for to half a minute after it.
std::unique_ptr<Trial> minutes_about_a_ring(const std::string& script) {
  std::string yaml = bench_minimal();
  yaml.replace(yaml.find("2026-01-05T00:00:00"), 19, "2026-01-05T07:59:00");
  auto trial = std::make_unique<Trial>(yaml + script);
  if (trial->sound()) trial->run_to(105);
  return trial;
}

/// What was not met when the zone's relay was driven in vain for the first time from an instant on.
std::vector<Trial::Needed> missing_at(const Trial& trial, double from_s) {
  std::vector<Trial::Needed> missing;
  for (const Trial::Happened& h : trial.events()) {
    if (h.part != "zone_relay" || h.kind != "held" || h.at_s < from_s) continue;
    std::copy_if(h.conditions.begin(), h.conditions.end(), std::back_inserter(missing),
                 [](const Trial::Needed& n) { return !n.met; });
    break;
  }
  return missing;
}

TEST(RingConditionsTest, WithAllOfThemItRings) {
  const auto trial = minutes_about_a_ring("");
  const auto& events = trial->events();
  const auto start = std::find_if(events.begin(), events.end(), [](const Trial::Happened& h) {
    return h.part == "zone_relay" && h.kind == "starts";
  });
  ASSERT_NE(start, events.end());
  EXPECT_NEAR(start->at_s, kTimingCloses_s, 0.1);
  std::vector<std::string> names;
  for (const Trial::Needed& n : start->conditions) {
    names.push_back(n.what);
    EXPECT_TRUE(n.met) << n.what;
  }
  EXPECT_THAT(names, testing::ElementsAre("ring_timing", "tape contact 1", "week_wheel contact 1",
                                          "zone_switch", "volts at the coil"));
  EXPECT_GT(trial->count("bell", "strikes"), 50U);
}

TEST(RingConditionsTest, HoleAndPinWaitForTheTimingContact) {
  const auto trial = minutes_about_a_ring("");
  const auto missing = missing_at(*trial, kPaperMoves_s);
  ASSERT_EQ(missing.size(), 1U);
  EXPECT_EQ(missing[0].what, "ring_timing");
  EXPECT_LT(*trial->when("zone_relay", "held", kPaperMoves_s), kTimingCloses_s - 5);
  EXPECT_GT(*trial->when("bell", "strikes"), kTimingCloses_s);
}

struct Gone {
  const char* script;
  const char* names;  ///< the condition
};

class RingConditionTest : public testing::TestWithParam<Gone> {};

TEST_P(RingConditionTest, GoneAloneKeepsTheBellSilentAndIsNamed) {
  const auto trial = minutes_about_a_ring(GetParam().script);
  EXPECT_EQ(trial->count("zone_relay", "makes"), 0U);
  EXPECT_EQ(trial->count("bell", "strikes"), 0U);
  const auto missing = missing_at(*trial, kTimingCloses_s - 1);
  ASSERT_EQ(missing.size(), 1U);
  EXPECT_EQ(missing[0].what, GetParam().names);
  EXPECT_LT(missing[0].measured, missing[0].needed);
}

INSTANTIATE_TEST_SUITE_P(
    Each, RingConditionTest,
    testing::Values(Gone{"  - at 1 s: tape.patch_1 480 row\n", "tape contact 1"},
                    Gone{"  - at 1 s: week_wheel.pull_pin_1 0\n", "week_wheel contact 1"},
                    Gone{"  - at 1 s: zone_switch.open\n", "zone_switch"},
                    Gone{"  - at 1 s: zone_relay.set_spring 4 N\n"
                         "  - at 2 s: zone_relay.set_gap 3 mm\n",
                         "volts at the coil"}));

}  // namespace
}  // namespace sixty
