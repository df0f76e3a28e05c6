// The built program is asked why: what questions it understands, and what it answers.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "tests/cli/child.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;

const std::string kSchool = SIXTY_SOURCE_DIR "/scenes/technical-school.yaml";

nlohmann::json answer(const std::string& scene, const std::string& question, Words more = {}) {
  Words words{"why", scene, question, "--json"};
  words.insert(words.end(), more.begin(), more.end());
  const Ended ended = run_program_with(words);
  EXPECT_EQ(ended.code, 0) << ended.err;
  return nlohmann::json::parse(ended.out);
}

TEST(Why, AskedForAZoneItMeansAllThatRingThere) {
  const auto all = answer(kSchool, "ring zone-2 @ Mon 07:00");
  EXPECT_EQ(all["asked"], 3);
  EXPECT_EQ(all["did"], 3);
  EXPECT_EQ(all["kind"], "strikes");
  EXPECT_EQ(all["part"], "bell_shop_1");
  EXPECT_EQ(all["at_s"].get<int>(), 7 * 3600 + 15);
}

TEST(Why, AskedForALoopOrARoomItMeansWhatIsThere) {
  EXPECT_EQ(answer(kSchool, "step first floor @ Mon 07:00")["asked"], 11);
  EXPECT_EQ(answer(kSchool, "step shop-2 @ Mon 07:00")["part"], "clock_shop_2");
}

TEST(Why, OfSeveralTheFirstThatFailedIsTold) {
  const auto all =
      answer(kSchool, "step first-floor @ Mon 00:01", {"--fault", "F28@clock_104_run:1"});
  EXPECT_EQ(all["happened"], false);
  EXPECT_EQ(all["did_when_sound"], 11);
  EXPECT_LT(all["did"], 11);
  EXPECT_EQ(all["links"].back()["part"], "clock_104_run");
}

TEST(Why, AMinuteIsMeantWhereNoSecondsAreNamed) {
  EXPECT_EQ(answer(kMinimal, "starts hall_clock @ Mon 10:15")["at_s"].get<int>(),
            10 * 3600 + 15 * 60 + 35);
}

TEST(Why, NamesMayBeWrittenAsPeopleDo) {
  EXPECT_EQ(answer(kMinimal, "step Hall-Clock @ Mon 10:15")["part"], "hall_clock");
}

TEST(Why, AnswersInSentencesWithTimesAndVolts) {
  const Ended ended = run_program_with({"why", kMinimal, "ring bell @ Mon 08:00"});
  EXPECT_EQ(ended.code, 0);
  EXPECT_THAT(ended.out, HasSubstr("the clapper strikes the gong"));
  EXPECT_THAT(ended.out, HasSubstr("stood at its coil"));
  EXPECT_THAT(ended.out, HasSubstr("and it\n     needs"));
}

}  // namespace
}  // namespace sixty::cli
