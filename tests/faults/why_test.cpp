// Questions about single events, and what an answer must not do.
#include <gtest/gtest.h>

#include <algorithm>

#include "sim/explain/answer.hpp"
#include "sim/explain/chain.hpp"
#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

using explain::Answer;
using explain::Link;
using explain::Question;

Answer ask(const std::vector<std::string>& faults, const std::string& kind, const std::string& part,
           SimTime at, const std::string& name = "bench-minimal") {
  const auto scene = scene_with(name, faults);
  Session looked_at(scene), sound(scene_with(name, {}));
  constexpr SimTime kAbout = 30 * kSecond;
  return explain::answer_to(
      {{{scene->find_id(part).value(), {kind}}}, at, at - kAbout, at + kAbout}, looked_at, sound);
}

std::vector<std::string> parts_of(const Answer& answer, const std::string& name = "bench-minimal") {
  const auto scene = scene_with(name, {});
  std::vector<std::string> names;
  for (const Link& link : answer.links) names.push_back(scene->parts[link.part].name);
  return names;
}

constexpr SimTime kImpulse = 10 * kHour + 15 * kMinute + 35 * kSecond;

TEST(WhyTest, WhatHappenedIsToldFromItsFirstCauseOn) {
  const Answer answer = ask({}, "starts", "hall_clock", kImpulse);
  EXPECT_EQ(answer.kind, Answer::Kind::kHappened);
  EXPECT_LE(answer.links.size(), 5u);
  const std::vector<std::string> parts = parts_of(answer);
  const std::vector<std::string> last(parts.end() - 4, parts.end());
  EXPECT_EQ(last, (std::vector<std::string>{"movement", "arm_b", "minute_relay", "hall_clock"}));
  EXPECT_TRUE(std::is_sorted(answer.links.begin(), answer.links.end(),
                             [](const Link& a, const Link& b) { return a.at < b.at; }));
  const Link& end = answer.links.back();
  EXPECT_EQ(end.quantity, "volts at the coil");
  EXPECT_GT(end.measured, end.expected);
}

/// Else nobody knows what the other one did then.
TEST(WhyTest, ADelayIsToldAfterAPartThatIsToldBeforeIt) {
  const Answer answer = ask({}, "strikes", "bell", 8 * kHour + 15 * kSecond);
  ASSERT_EQ(answer.links.size(), 5u);
  const std::vector<std::string> parts = parts_of(answer);
  EXPECT_EQ(answer.links.front().text.find(" after "), std::string::npos)
      << answer.links.front().text;
  for (std::size_t k = 1; k < parts.size(); ++k) {
    const std::size_t after = answer.links[k].text.find(" after ");
    if (after == std::string::npos) continue;
    EXPECT_EQ(answer.links[k].text.compare(after + 7, parts[k - 1].size(), parts[k - 1]), 0)
        << answer.links[k].text;
  }
}

TEST(WhyTest, NothingIsToldInTheUnitOfWhatItIsHeldAgainst) {
  using Texts = std::pair<std::string, std::string>;
  EXPECT_EQ(explain::both_texts(0.014, 0, "m"), (Texts{"14 mm", "0 mm"}));
  EXPECT_EQ(explain::both_texts(0, 0.0205, "ohm"), (Texts{"0 mohm", "20.5 mohm"}));
  EXPECT_EQ(explain::both_texts(0, 0, "V"), (Texts{"0 V", "0 V"}));
  EXPECT_EQ(explain::both_texts(0.5, 0, "1"), (Texts{"0.5", "0"}));
}

TEST(WhyTest, WhatHappenedWithLessVoltsBeginsWithWhatIsBehindThat) {
  const Answer answer = ask({"F28@line_near:0.7"}, "seats", "hall_clock", kImpulse);
  EXPECT_EQ(answer.kind, Answer::Kind::kHappened);
  EXPECT_EQ(answer.links.size(), 5u);
  EXPECT_EQ(parts_of(answer).front(), "line_near");
  EXPECT_EQ(answer.links.front().quantity, "bad_joint");
  EXPECT_EQ(answer.links[1].quantity, "volts lost");
  EXPECT_NE(answer.links.back().text.find("a sound one had"), std::string::npos);
}

TEST(WhyTest, WhatHappenedAtAnotherTimeBeginsWithWhatIsBehindThat) {
  const Answer answer = ask({"F01@movement"}, "seats", "hall_clock", kImpulse);
  EXPECT_EQ(answer.kind, Answer::Kind::kHappened);
  EXPECT_EQ(parts_of(answer).front(), "movement");
  EXPECT_EQ(answer.links.front().quantity, "crutch_offset");
  EXPECT_NE(answer.links.back().text.find("a sound one has it"), std::string::npos);
}

TEST(WhyTest, WhatComesEarlierThroughAContactThatIsNeverOpenBeginsWithThatContact) {
  const Answer answer = ask({"F55@ring_timing"}, "seats", "zone_relay", 8 * kHour + 5 * kSecond);
  EXPECT_EQ(answer.kind, Answer::Kind::kHappened);
  EXPECT_EQ(parts_of(answer).front(), "ring_timing");
  EXPECT_EQ(answer.links.front().quantity, "stuck");
}

// A clock that is a second behind does the same beat later, and nothing before its cause.
TEST(WhyTest, NoDelayIsLessThanNothing) {
  for (const SimTime at : {8 * kHour + 37 * kSecond, 23 * kHour + 59 * kMinute + 38 * kSecond}) {
    const Answer answer = ask({"F01@movement:1"}, "breaks", "arm_b", at);
    ASSERT_FALSE(answer.links.empty());
    for (const Link& link : answer.links) {
      EXPECT_GE(link.expected, 0) << link.text;
      EXPECT_EQ(link.text.find("(-"), std::string::npos) << link.text;
    }
  }
}

TEST(WhyTest, WhatNeedsLessVoltsIsNotSaidToMissForThat) {
  const Answer answer = ask({"F18@minute_relay:1"}, "starts", "hall_clock", kImpulse);
  EXPECT_EQ(answer.kind, Answer::Kind::kDidNot);
  EXPECT_EQ(parts_of(answer).back(), "minute_relay");
  for (const Link& link : answer.links) EXPECT_NE(link.what, Link::What::kNeed) << link.text;
}

TEST(WhyTest, WhatASoundOneDoesNotDoIsToldDownToThePartBehindIt) {
  const Answer answer = ask({"F21@zone_relay"}, "strikes", "bell", kHour);
  EXPECT_EQ(answer.kind, Answer::Kind::kUnexpected);
  EXPECT_EQ(parts_of(answer).back(), "zone_relay");
  EXPECT_EQ(answer.links.back().quantity, "stuck");
}

TEST(WhyTest, WhatDoesNotComeBackBecauseItNeverWentIsToldFromThere) {
  const Answer answer = ask({"F62@hall_clock:1"}, "returns", "hall_clock", kImpulse + 2 * kSecond);
  EXPECT_EQ(answer.kind, Answer::Kind::kDidNot);
  EXPECT_EQ(answer.links[1].quantity, "volts at the coil");
  EXPECT_EQ(answer.links.back().quantity, "lead");
}

TEST(WhyTest, WhatDidNotHappenIsToldDownToThePartBehindIt) {
  const Answer answer = ask({"F10@rewind:1"}, "strikes", "bell", 8 * kHour + 15 * kSecond);
  EXPECT_EQ(answer.kind, Answer::Kind::kDidNot);
  EXPECT_EQ(parts_of(answer).front(), "bell");
  EXPECT_EQ(parts_of(answer).back(), "rewind");
  EXPECT_EQ(answer.links.back().quantity, "friction");
}

TEST(WhyTest, WhatStandsForLongIsToldFromWhatWentOtherwiseFirst) {
  const Answer answer = ask({"F22@supply:1"}, "seats", "hall_clock", kImpulse);
  EXPECT_EQ(answer.kind, Answer::Kind::kDidNot);
  EXPECT_LE(answer.links.size(), 5u);
  EXPECT_EQ(parts_of(answer).front(), "hall_clock");
  EXPECT_LT(answer.links[1].at, kMinute);
  EXPECT_EQ(parts_of(answer).back(), "supply");
  EXPECT_EQ(answer.links.back().what, Link::What::kValue);
}

TEST(WhyTest, WhatAHandDidAtTheVeryStartIsFound) {
  const Answer answer = ask({"F44@zone_switch"}, "starts", "bell", 8 * kHour + 15 * kSecond);
  EXPECT_EQ(answer.kind, Answer::Kind::kDidNot);
  EXPECT_EQ(parts_of(answer).back(), "zone_switch");
  EXPECT_EQ(answer.links.back().what, Link::What::kHand);
}

TEST(WhyTest, WhatNobodyExpectsIsSaidToBeThat) {
  const Answer answer = ask({}, "starts", "bell", 3 * kHour);
  EXPECT_EQ(answer.kind, Answer::Kind::kNeverExpected);
  EXPECT_TRUE(answer.links.empty());
}

/// "hall_clock" of "F34@hall_clock:1".
std::string part_in(const std::string& fault) {
  const std::string part = fault.substr(fault.find('@') + 1);
  return part.substr(0, part.find(':'));
}

/// The second fault changes something, and has nothing to do with what is asked.
void expect_other_is_not_named(const std::string& scene, const std::string& fault,
                               const std::string& other, const std::string& clock, SimTime at) {
  const Answer answer = ask({fault, other}, "seats", clock, at, scene);
  if (answer.kind != Answer::Kind::kDidNot) return;  // some clocks get by with less
  const std::vector<std::string> parts = parts_of(answer, scene);
  EXPECT_EQ(parts.back(), part_in(fault)) << fault << " with " << other;
  for (const std::string& named : parts)
    EXPECT_NE(named, part_in(other)) << fault << " with " << other;
}

TEST(WhyTest, AFaultThatHasNothingToDoWithItIsNotNamed) {
  for (const char* other : {"F72@tape:0.3", "F41@bell:0.3", "F61@workshop_clock:0.2",
                            "F05@rewind:0.3", "F01@movement:0.2"}) {
    for (const char* fault : {"F13@arm_b:0.95", "F19@minute_relay", "F44@clock_switch",
                              "F28@line_near:1", "F34@hall_clock:1", "F76@line_near"})
      expect_other_is_not_named("bench-minimal", fault, other, "hall_clock", kImpulse);
  }
}

TEST(WhyTest, NorInALargeInstallation) {
  for (const char* other :
       {"F72@tape:0.3", "F41@bell_shop_1:0.3", "F61@clock_214:0.2", "F05@rewind:0.2"}) {
    for (const char* fault : {"F19@minute_relay", "F28@clock_104_run:1", "F30@clock_office:1",
                              "F62@clock_106", "F76@clock_105_run"})
      expect_other_is_not_named("technical-school", fault, other, "clock_106",
                                5 * kMinute + 35 * kSecond);
  }
}

TEST(CompareTest, ASoundInstallationDiffersInNothingFromItself) {
  for (const char* scene : {"bench-minimal", "corner-school"}) {
    Session one(scene_with(scene, {})), other(scene_with(scene, {}));
    const explain::Comparison same = explain::compare(one, other, kDay, false);
    EXPECT_FALSE(same.first);
    EXPECT_TRUE(same.tallies.empty());
  }
}

// Each takes what the other has computed, or computes ahead while it waits, as threads happen to
// come by: no bit may hang on it.
TEST(CompareTest, RunsWithTransientsInCommonGoAsEachWouldAlone) {
  constexpr SimTime kEnd = 8 * kHour + 40 * kMinute;
  const char* const kName = "technical-school";
  const auto scene = scene_with(kName, {"F28@clock_104_run:1"});
  Session ours_alone(scene), sound_alone(scene_with(kName, {}));
  ours_alone.run_until(kEnd);
  sound_alone.run_until(kEnd);
  const auto in_common = explain::session_options();
  Session ours(scene, in_common), sound(scene_with(kName, {}), in_common);
  explain::run_both(ours, sound, kEnd, {});
  EXPECT_EQ(ours.state_hash(), ours_alone.state_hash());
  EXPECT_EQ(sound.state_hash(), sound_alone.state_hash());
  EXPECT_EQ(ours.events(), ours_alone.events());
}

TEST(CompareTest, ASecondRunWithTransientsInCommonComputesNone) {
  const auto in_common = explain::session_options();
  const auto scene = scene_with("bench-minimal", {});
  Session first(scene, in_common), second(scene, in_common);
  first.run_until(kDay);
  second.run_until(kDay);
  EXPECT_GT(first.transients_computed(), 10u);
  EXPECT_EQ(second.transients_computed(), 0u);
}

// The armature begins to move, and the contact opens again before it has arrived.
TEST(CompareTest, ADriveThatIsCutShortIsToldDownToTheContactThatOpened) {
  const auto scene = scene_with("bench-minimal", {"F15@ring_timing:1"});
  Session ours(scene), sound(scene_with("bench-minimal", {}));
  const explain::Comparison c = explain::compare(ours, sound, 9 * kHour, true);
  const std::vector<Link> chain = explain::chain_of(ours, sound, c);
  ASSERT_FALSE(chain.empty());
  EXPECT_EQ(chain.back().part, scene->find_id("ring_timing").value());
  EXPECT_EQ(chain.back().quantity, "brushes_for");
}

/// Every deed is done as when sound, and what stands between rings is too.
TEST(CompareTest, WhatIsOtherOnlyWhileABellIsDrivenIsFoundInThatDrive) {
  for (const auto& [fault, part] : {std::pair{"F77@bell_line:1", "bell_line"},
                                    {"F68@bell:0.05", "bell"},
                                    {"F72@tape:0.5", "tape"}}) {
    const auto scene = scene_with("bench-minimal", {fault});
    Session ours(scene), sound(scene_with("bench-minimal", {}));
    const explain::Comparison c = explain::compare(ours, sound, kDay, false);
    EXPECT_FALSE(c.first) << fault;
    const std::vector<Link> chain = explain::chain_of(ours, sound, c);
    ASSERT_FALSE(chain.empty()) << fault;
    EXPECT_EQ(scene->parts[chain.back().part].name, part) << chain.back().text;
    EXPECT_EQ(chain.back().what, Link::What::kValue) << fault;
  }
}

// Whoever says no severity wants to see something.
TEST(CompareTest, AFaultAsItIsTypicallyIsSeenWithinAWeek) {
  for (const char* fault : {"F10@rewind", "F53@rewind", "F54@rewind", "F81@clock_switch",
                            "F74@week_wheel", "F75@week_wheel", "F77@bell_line"}) {
    Session ours(scene_with("bench-minimal", {fault})), sound(scene_with("bench-minimal", {}));
    const explain::Comparison c = explain::compare(ours, sound, kWeek, true);
    EXPECT_TRUE(c.first || !c.readings.empty()) << fault;
  }
}

TEST(CompareTest, WhatFollowedIsCounted) {
  const auto scene = scene_with("bench-minimal", {"F19@minute_relay,from=1h,until=2h"});
  Session ours(scene), sound(scene_with("bench-minimal", {}));
  const explain::Comparison c = explain::compare(ours, sound, 5 * kHour, false);
  const auto starts = c.tallies.find({scene->find_id("hall_clock").value(), "starts"});
  ASSERT_NE(starts, c.tallies.end());
  EXPECT_EQ(starts->second.missing, 60);
  EXPECT_EQ(starts->second.extra, 0);
}

}  // namespace
}  // namespace sixty
