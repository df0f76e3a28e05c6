// Lessons taken through, and held against their runs.
#include "sim/lesson/play.hpp"

#include <cmath>

#include "sim/lesson/shelf.hpp"
#include "tests/lesson/written.hpp"

namespace sixty::lesson {
namespace {

Played played(const std::string& text) {
  const Opened made = opened(kHead + text);
  Judge judge(made.lesson, made.installation);
  return play(judge);
}

const std::string kOrder =
    "steps:\n  - ask: {en: 'In what order?'}\n    at: Mon 08:00\n    to: Mon 08:00:40\n    order:\n"
    "      - {text: {en: the clock steps}, event: hall_clock.returns}\n"
    "      - {text: {en: the relay makes}, event: minute_relay.makes}\n"
    "      - {text: {en: the spring is wound}, event: rewind.winds}\n";

TEST(Play, TheRunItselfTellsInWhatOrderThingsHappen) {
  const Played done = played(kOrder);
  EXPECT_TRUE(done.is_sound());
  EXPECT_EQ(std::get<std::vector<std::size_t>>(*done.steps[0].reply),
            (std::vector<std::size_t>{2, 1, 0}));
}

TEST(Play, ANumberIsRightWithinWhatIsAllowedAndNoFurther) {
  const Opened made = opened(kHead +
                             "facts: {volts: {reading: minute_relay.volts, take: most}}\n"
                             "steps:\n  - ask: {en: 'How many?'}\n    number: volts\n"
                             "    within: 10 %\n    at: Mon 08:00\n    to: Mon 08:00:40\n");
  Judge judge(made.lesson, made.installation);
  const auto& log = made.installation->script;
  const double really = judge.number(0, 0, log);
  EXPECT_NEAR(really, 24, 3);
  for (const auto& [share, right] :
       {std::pair{1.0, true}, {1.09, true}, {0.91, true}, {1.11, false}, {0.89, false}})
    EXPECT_EQ(judge.verdict(0, share * really, log).right, right) << share;
}

TEST(Play, WhatTheLessonClaimsAndTheRunDoesNotShowIsAFlaw) {
  const std::string asked =
      "steps:\n  - ask: {en: 'Will it?'}\n    at: Mon 08:00\n    to: Mon 08:00:40\n"
      "    choices: [{text: {en: yes}, right: yes}, {text: {en: no}}]\n";
  EXPECT_TRUE(played(asked + "    proves: [{event: bell.strikes, above: 1}]\n").is_sound());
  const Played wrong = played(asked + "    proves: [{event: bell.strikes, never: yes}]\n");
  EXPECT_FALSE(wrong.is_sound());
  EXPECT_NE(wrong.steps[0].flaw.find("bell.strikes"), std::string::npos) << wrong.steps[0].flaw;
}

TEST(Play, StepsThatOnlyAWrongReplyLeadsToAreHeldAgainstTheRunToo) {
  const auto with_detour = [](const char* claim) {
    return played(
        "steps:\n  - ask: {en: 'Will it?'}\n    at: Mon 08:00\n    to: Mon 08:00:40\n    go: end\n"
        "    choices: [{text: {en: yes}, right: yes}, {text: {en: no}, go: detour}]\n"
        "  - name: detour\n    show: {en: Look.}\n    at: Mon 08:00\n    to: Mon 08:00:40\n"
        "    proves: [{event: bell.strikes, " +
        std::string(claim) + "}]\n  - name: end\n    show: {en: The end.}\n");
  };
  const Played sound = with_detour("above: 1");
  EXPECT_TRUE(sound.is_sound());
  ASSERT_EQ(sound.steps.size(), 3U);
  EXPECT_TRUE(sound.steps[2].aside);
  EXPECT_FALSE(with_detour("never: yes").is_sound());
}

TEST(Play, WordsWithANumberThatTheRunHasNotAreAFlaw) {
  const Played done = played(
      "facts: {never_s: {event: minute_relay.held, take: first}}\n"
      "steps:\n  - show: {en: Look.}\n    after: {en: 'After {never_s}.'}\n"
      "    at: Mon 08:00\n    to: Mon 08:00:40\n");
  EXPECT_NE(done.steps[0].flaw.find("never_s"), std::string::npos) << done.steps[0].flaw;
}

TEST(Play, WhatIsStatedIsHeldAgainstTheRun) {
  const auto stated = [](const char* second) {
    return played(std::string("stated:\n  - words: second ") + second +
                  "\n    so: {event: arm_b.makes, take: first, is: " + second +
                  " s, within: 0.2 s}\n    begin: Mon 08:00\n    end: Mon 08:01\n"
                  "steps:\n  - show: {en: At second " +
                  second + ".}\n    at: Mon 08:00\n");
  };
  EXPECT_TRUE(stated("35").is_sound());
  EXPECT_FALSE(stated("36").is_sound());
}

const std::string kTask =
    "steps:\n  - task: {en: Step them.}\n    at: Mon 08:00:05\n"
    "    goal: [{at: all secondary, reading: steps, take: change, is: 1}]\n";

TEST(Play, ATaskIsSolvedByItsModelAnswerAndNotByNothing) {
  const std::string model =
      "    model: {do: ['Mon 08:00:10 step_all_key.close', 'Mon 08:00:12 step_all_key.open'],"
      " done: Mon 08:00:20}\n";
  EXPECT_TRUE(played(kTask + model).is_sound());
  EXPECT_FALSE(played(kTask + "    model: {do: [], done: Mon 08:00:20}\n").is_sound());
  // The minute's own impulse does it too.
  EXPECT_FALSE(played(kTask + "    model: {do: [], done: Mon 08:00:50}\n").is_sound());
  EXPECT_FALSE(played(kTask + "    only: [ring_key]\n" + model).is_sound());
  EXPECT_TRUE(played(kTask + "    only: [step_all_key]\n" + model).is_sound());
}

TEST(Play, WhyIsAnsweredWithThisRunsNumbers) {
  const Played done = played(
      "steps:\n  - explain: {en: So.}\n    at: Mon 08:00\n    fault: "
      "['one-clock-sticks@hall_clock:0.9']\n"
      "    why: step hall_clock @ Mon 08:00:35\n");
  ASSERT_TRUE(done.steps[0].why.has_value());
  EXPECT_FALSE(done.steps[0].why->links.empty());
}

TEST(Sitting, OnlyTheFirstReplyCountsAndLeadsOn) {
  const Opened made =
      opened(kHead +
             "steps:\n"
             "  - ask: {en: 'Which?'}\n    at: Mon 08:00\n    to: Mon 08:01\n"
             "    hints: [{en: The first.}]\n    if_wrong: again\n"
             "    choices: [{text: {en: a}, right: yes, says: {en: Yes.}}, {text: {en: b}}]\n"
             "  - show: {en: Well done.}\n    go: end\n"
             "  - name: again\n    show: {en: Once more.}\n"
             "  - name: end\n    show: {en: The end.}\n");
  Sitting sitting(made.lesson, made.installation->script);
  sitting.hint();
  sitting.hint();
  EXPECT_EQ(sitting.hints(), 1);
  sitting.replied(std::size_t{1}, Verdict{false, 0, {}, ""});
  sitting.replied(std::size_t{0}, Verdict{true, 0, {}, ""});
  EXPECT_FALSE(sitting.was_right());
  sitting.go_on();
  EXPECT_EQ(sitting.now().name, "again");
  ASSERT_EQ(sitting.fared().size(), 1U);
  EXPECT_FALSE(sitting.fared()[0].right);
  EXPECT_EQ(sitting.fared()[0].hints, 1);
  sitting.go_on();
  sitting.go_on();
  EXPECT_TRUE(sitting.is_over());
  EXPECT_EQ(sitting.way(), (std::vector<std::size_t>{0, 2, 3, 4}));
}

TEST(Sitting, WhatWasDoneStaysOnlyWhereTheTaskKeepsIt) {
  for (const bool keeps : {false, true}) {
    const Opened made = opened(kHead + kTask + (keeps ? "    keeps: yes\n" : "") +
                               "    model: {do: [], done: Mon 08:00:20}\n"
                               "  - show: {en: Later.}\n    do: ['Mon 08:02 ring_key.close']\n");
    Sitting sitting(made.lesson, made.installation->script);
    std::vector<Action> log = sitting.log();
    log.push_back(log.front());
    sitting.reached(log);
    sitting.go_on();
    EXPECT_EQ(sitting.log().size(), made.installation->script.size() + (keeps ? 2 : 1));
    sitting.begin(0);
    EXPECT_EQ(sitting.log().size(), made.installation->script.size());
  }
}

TEST(Play, WhatIsToBePutInOrderMustAllCome) {
  const Played done = played(
      "steps:\n  - ask: {en: 'In what order?'}\n    at: Mon 08:00\n    to: Mon 08:00:30\n    "
      "order:\n"
      "      - {text: {en: a}, event: arm_a.makes}\n      - {text: {en: b}, event: arm_b.makes}\n");
  EXPECT_NE(done.steps[0].flaw.find("does not all come"), std::string::npos);
}

TEST(Sitting, DeedsOfAStepThatIsComeToAgainAreThereOnce) {
  const Opened made = opened(kHead +
                             "steps:\n  - name: again\n    ask: {en: 'Which?'}\n    at: Mon 08:00\n"
                             "    do: ['Mon 08:00:10 ring_key.close']\n    if_wrong: again\n"
                             "    choices: [{text: {en: a}, right: yes}, {text: {en: b}}]\n");
  Sitting sitting(made.lesson, made.installation->script);
  const std::size_t once = sitting.log().size();
  for (int k = 0; k < 3; ++k) {
    sitting.replied(std::size_t{1}, Verdict{false, 0, {}, ""});
    sitting.go_on();
    EXPECT_EQ(sitting.log().size(), once);
  }
  EXPECT_EQ(sitting.fared().size(), 1U);
}

TEST(Course, EveryShippedLessonPlaysThroughAndClaimsNothingThatItsRunDoesNotShow) {
  ASSERT_EQ(lessons_in(SIXTY_SOURCE_DIR "/scenes/lessons").size(), 12U);
  for (const Listed& listed : lessons_in(SIXTY_SOURCE_DIR "/scenes/lessons")) {
    Diagnostics mistakes;
    const Opened made = open_lesson(listed.path, all_parts(), mistakes);
    ASSERT_NE(made.lesson, nullptr) << mistakes.to_text();
    Judge judge(made.lesson, made.installation);
    const Played done = play(judge);
    EXPECT_EQ(done.flaw_of_stated, "") << listed.path;
    std::size_t asked = 0, tasks = 0;
    for (const PlayedStep& step : done.steps) {
      const Step& of = made.lesson->steps[step.step];
      EXPECT_EQ(step.flaw, "") << listed.path << ":" << of.line;
      asked += of.kind == Step::Kind::kAsk ? 1 : 0;
      tasks += of.kind == Step::Kind::kTask ? 1 : 0;
    }
    EXPECT_GE(asked, 3U) << listed.path;
    EXPECT_GE(tasks, 1U) << listed.path;
    EXPECT_GE(made.lesson->minutes, 8) << listed.path;
    EXPECT_LE(made.lesson->minutes, 15) << listed.path;
  }
}

}  // namespace
}  // namespace sixty::lesson
