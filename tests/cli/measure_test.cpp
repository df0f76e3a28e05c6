// The built program measures: what it prints, as text and as JSON, and what it refuses.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "sim/instruments/uncertain.hpp"
#include "tests/cli/child.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

Ended measure(Words more) {
  Words words{"measure", kMinimal};
  words.insert(words.end(), more.begin(), more.end());
  return run_program_with(words);
}

nlohmann::json readings(Words more) {
  more.emplace_back("--json");
  const Ended ended = measure(more);
  EXPECT_EQ(ended.code, 0) << ended.err;
  const auto whole = nlohmann::json::parse(ended.out);
  EXPECT_EQ(whole["format"], "sixtybeats-measure/1");
  return whole["readings"];
}

const std::string kMinute = "Mon 08:00:34..Mon 08:00:38";

TEST(Measure, AnswersEachMeterInItsOrder) {
  const auto all = readings({"--meter", "V:hall_clock", "--meter", "listen:hall_clock", "--meter",
                             "tally:hall_clock.seats", "--during", kMinute});
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0]["meter"], "V:hall_clock");
  EXPECT_NEAR(all[0]["most"]["value"].get<double>(), 23.7, 0.5);
  EXPECT_GT(all[0]["most"]["uncertainty"].get<double>(), 0.1);
  EXPECT_EQ(all[1]["heard"].size(), 4U);
  EXPECT_EQ(all[2]["counts"]["seats"], 1);
}

TEST(Measure, TellsWhatReallyStoodThereIfAsked) {
  const Words words{"--meter", "V:hall_clock,as=needle", "--during", kMinute};
  EXPECT_THAT(measure(words).out, Not(HasSubstr("really there")));
  Words truth = words;
  truth.emplace_back("--truth");
  EXPECT_THAT(measure(truth).out, HasSubstr("really there: from "));
}

TEST(Measure, WarnsOfTheKickOfACoil) {
  EXPECT_THAT(measure({"--meter", "V:minute_relay.coil", "--during", kMinute}).out,
              HasSubstr("Caution: up to"));
}

TEST(Measure, AnInstantIsLookedAtForTwoSeconds) {
  const Ended ended = measure({"--meter", "V:supply", "--during", "Mon 08:00"});
  EXPECT_THAT(ended.out, HasSubstr("Measured from Mon 08:00:00 to Mon 08:00:02\n"));
}

TEST(Measure, RefusesWhatMakesNoSense) {
  const auto refused = [](const Words& words) {
    const Ended ended = measure(words);
    EXPECT_EQ(ended.code, 2);
    EXPECT_EQ(ended.out, "");
    return ended.err;
  };
  EXPECT_THAT(refused({"--meter", "V:supply"}), HasSubstr("--during: when to measure is not said"));
  EXPECT_THAT(refused({"--during", kMinute}), HasSubstr("--meter: what to measure is not said"));
  EXPECT_THAT(refused({"--meter", "V:supply", "--during", "Mon 08:00..Sun 07:00:00.5", "--do",
                       "Sun 09:00 supply.x"}),
              HasSubstr("supply"));
  EXPECT_THAT(refused({"--meter", "V:supply", "--during", "Mon 08:00:37..Mon 08:00:34"}),
              HasSubstr("--during: ends before it begins"));
  EXPECT_THAT(refused({"--meter", "V:supply", "--during", "2h..1h"}),
              HasSubstr("no span to measure in"));
  EXPECT_THAT(refused({"--meter", "V:supply", "--during", "0s..2w"}),
              HasSubstr("no span to measure in"));
  EXPECT_THAT(refused({"--meter", "record:V:supply", "--during", "0s..1h", "--sample", "1us"}),
              HasSubstr("too many samples"));
  EXPECT_THAT(refused({"--meter", "V:suply", "--during", kMinute}),
              HasSubstr("did you mean \"supply\"?"));
}

using instruments::uncertain;

TEST(Uncertain, IsToldToTwoDigitsWithAPrefixThatSuits) {
  EXPECT_EQ(uncertain(24.0512, 0.1423, "V"), "(24.05 ± 0.14) V");
  EXPECT_EQ(uncertain(0.0531, 0.0141, "A"), "(53 ± 14) mA");
  EXPECT_EQ(uncertain(-0.0002, 0.000353, "A"), "(-0.20 ± 0.35) mA");
  EXPECT_EQ(uncertain(1234567, 9900, "ohm"), "(1.2346 ± 0.0099) Mohm");
  EXPECT_EQ(uncertain(-0.00001, 0.1, "V"), "(0.00 ± 0.10) V");
  EXPECT_EQ(uncertain(8.27, 0.1, "s/day"), "(8.27 ± 0.10) s/day");
}

}  // namespace
}  // namespace sixty::cli
