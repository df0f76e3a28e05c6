// The report as a technician reads it.
#include <gmock/gmock.h>

#include <regex>

#include "tests/cli/child.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

const std::string kBench = SIXTY_SOURCE_DIR "/tests/cli/scenes/bench.yaml";

// On one line, as wrapping is not what is asked here.
std::string report_of(std::vector<std::string> words) {
  words.insert(words.begin(), "run");
  const Ended ended = run_program_with(std::move(words));
  EXPECT_EQ(ended.code, 0) << ended.err;
  return std::regex_replace(ended.out, std::regex("\\s+"), " ");
}

const char* const kPluralOfOne = "(^|[^0-9.,])1 (times|rings|strokes|steps|rows|windings|events) ";

TEST(WordingTest, WhatHasNotHappenedIsSaidSo) {
  const std::string text = report_of({kMinimal, "--for", "10s"});
  EXPECT_THAT(text, HasSubstr("ring_timing, arm_b: never closed. "));
  EXPECT_THAT(text, HasSubstr("minute_relay: never pulled; pulls in at "));
  EXPECT_THAT(text, HasSubstr("bell: zone 1, never rang; missed 0, unasked 0."));
  EXPECT_THAT(text, Not(testing::ContainsRegex(" 0 (times|ohm)")));
  EXPECT_THAT(report_of({kBench, "--for", "1ms"}), HasSubstr(" 0 mAh used."));
}

TEST(WordingTest, WhatHasHappenedOnceIsNoPlural) {
  const std::string ring = report_of({kMinimal, "--for", "8h2m"});
  EXPECT_THAT(ring, HasSubstr("zone_relay: pulled once; "));
  EXPECT_THAT(ring, testing::ContainsRegex("bell: zone 1, rang once with [0-9]+ strokes; "));
  const std::string minute = report_of({kMinimal, "--for", "1m", "--set", "supply.emf=15 V"});
  EXPECT_THAT(minute, HasSubstr("minute_relay was driven once without pulling in: "));
  const std::string late =
      report_of({kMinimal, "--for", "8h2m", "--do", "Mon 07:58 zone_switch.open", "--do",
                 "Mon 08:01:50 tape.set_row 480 row"});
  EXPECT_THAT(late, HasSubstr("zone 1 missed 1 ring, at Mon 08:00:"));
  EXPECT_THAT(late, HasSubstr("bell: missed 1 ring."));
  EXPECT_THAT(late, HasSubstr(", 1 row behind time."));
  const std::string winding = report_of({kMinimal, "--for", "1m", "--set", "supply.emf=15 V"});
  EXPECT_THAT(winding, HasSubstr("rewind: 1 winding missed; it leaves the spring"));
  for (const std::string& text : {ring, minute, late, winding}) {
    EXPECT_FALSE(std::regex_search(text, std::regex(kPluralOfOne))) << text;
  }
}

TEST(WordingTest, AContactThatDoesNotSparkIsSaidToHaveNone) {
  const std::string text = report_of({kMinimal, "--for", "1h"});
  EXPECT_THAT(text, testing::ContainsRegex("ring_timing: closed 60 times, last through [0-9.]+ "
                                           "mohm; no sparks\\."));
}

TEST(WordingTest, ASentenceEndsInOneStop) {
  EXPECT_THAT(report_of({kMinimal, "--for", "1m"}), HasSubstr("at place 0, Mon a.m., in time. "));
}

}  // namespace
}  // namespace sixty::cli
