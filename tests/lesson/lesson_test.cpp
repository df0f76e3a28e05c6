// What a lesson's file says, and what is refused in it.
#include "sim/lesson/lesson.hpp"

#include "sim/lesson/shelf.hpp"
#include "tests/lesson/written.hpp"

namespace sixty::lesson {
namespace {

const std::string kShow =
    "steps:\n  - show: {en: Look.}\n    at: Mon 08:00\n    to: Mon 08:00:40\n";

TEST(Lesson, IsReadWithAllThatItSays) {
  const Opened made = opened(kHead +
                             "number: 3\nminutes: 9\n"
                             "facts: {pull: {from: arm_b.makes, to: minute_relay.makes}}\n"
                             "steps:\n"
                             "  - name: first\n"
                             "    ask: {en: 'How long?', de: 'Wie lange?'}\n"
                             "    number: pull\n    within: 20 %\n    unit: ms\n"
                             "    at: Mon 08:00\n    to: Mon 08:00:40\n"
                             "    hints: [{en: Short.}, {en: Shorter.}]\n"
                             "    if_wrong: first\n"
                             "  - show: {en: 'It took {pull}.'}\n    at: Mon 08:01\n");
  ASSERT_NE(made.lesson, nullptr);
  const Lesson& lesson = *made.lesson;
  EXPECT_EQ(lesson.number, 3);
  EXPECT_EQ(lesson.minutes, 9);
  ASSERT_EQ(lesson.steps.size(), 2U);
  const Step& first = lesson.steps[0];
  EXPECT_EQ(first.kind, Step::Kind::kAsk);
  EXPECT_EQ(first.question.kind, Question::Kind::kNumber);
  EXPECT_TRUE(first.question.by_share);
  EXPECT_DOUBLE_EQ(first.question.within, 0.2);
  EXPECT_EQ(first.hints.size(), 2U);
  EXPECT_EQ(*first.at, 8 * kHour);
  EXPECT_EQ(lesson.next_of(0, first.question.if_wrong), 0U);
  EXPECT_EQ(lesson.next_of(0, ""), 1U);
  EXPECT_EQ(lesson.next_of(1, ""), 2U);
}

TEST(Lesson, WhatIsWrongIsRefusedWithItsPlace) {
  const std::string ask = "steps:\n  - ask: {en: 'What?'}\n    at: Mon 08:00\n    to: Mon 08:01\n";
  const std::pair<std::string, const char*> wrong[] = {
      {"lesson: {en: A}\ntopic: {en: B}\nscene: elsewhere\n" + kShow, "no such scene"},
      {kHead + "steps: []\n", "cannot have so many"},
      {kHead + "steps:\n  - text: {en: Words.}\n", "a step does one thing"},
      {kHead + "steps:\n  - show: {en: A.}\n", "the first step must say when it is"},
      {kHead + kShow + "    to_do: 1\n", "to_do"},
      {kHead + "steps:\n  - show: {en: A.}\n    at: Mon 08:01\n    to: Mon 08:00\n",
       "before the step begins"},
      {kHead + "steps:\n  - show: {de: Nur deutsch.}\n    at: Mon 08:00\n", "English words"},
      {kHead + "steps:\n  - show: {en: It is 24 volts.}\n    at: Mon 08:00\n",
       "a number stands in the words that nothing proves"},
      {kHead + ask, "does not say how it is answered"},
      {kHead + ask + "    choices: [{text: {en: a}}, {text: {en: b}}]\n",
       "one of several must be right"},
      {kHead + ask + "    number: unknown\n    within: 5 %\n", "fact"},
      {kHead + ask + "    parts: [nobody]\n", "nobody"},
      {kHead + ask + "    order: [{text: {en: a}, event: arm_a.makes}]\n", "to be put in order"},
      {kHead + kShow + "    go: nowhere\n", "nowhere"},
      {kHead + "steps:\n  - task: {en: Do it.}\n    at: Mon 08:00\n    goal: []\n", "model"},
      {kHead + "steps:\n  - explain: {en: So.}\n    at: Mon 08:00\n    why: rings\n",
       "asks about no event"},
      {kHead + "stated: [{words: 24 V}]\n" + kShow, "neither a reason nor a number"},
      {kHead + ask + "    parts: []\n", "no part is named"},
      {kHead + kShow + "    go: a\n    name: a\n", "nobody comes to the end"},
      {kHead + kShow + "  - show: {en: '{minute_relay.volts}.'}\n", "must say when it is"},
      {kHead + "steps:\n  - show: {en: A.}\n    at: 3000d\n", "nobody waits so long"},
      {kHead + "facts: {a: {reading: minute_relay.volts, begin: Mon 08:00}}\n" + kShow,
       "not a beginning with an end"},
      {kHead + "stated: [{words: '7', so: {event: arm_b.makes, never: yes}}]\n" + kShow,
       "does not say when it is so"},
      {kHead + "stated: [{words: 24 V, why: a name}]\nsteps:\n  - show: {en: 'Of 124 V.'}\n"
               "    at: Mon 08:00\n",
       "a number stands in the words"},
      {kHead + ask +
           "    order: [{text: {en: a}, event: arm_a.makes}, {text: {en: b}, event: "
           "arm_a.makes}]\n",
       "stands there twice"}};
  for (const auto& [text, told] : wrong) {
    std::string mistakes;
    EXPECT_EQ(opened(text, mistakes).lesson, nullptr) << text;
    EXPECT_NE(mistakes.find(told), std::string::npos) << text << "\n" << mistakes;
    EXPECT_NE(mistakes.find("test.yaml"), std::string::npos) << mistakes;
  }
}

TEST(Lesson, FiguresMayStandInBracesAndInWhatIsStated) {
  opened(kHead +
         "stated:\n"
         "  - {words: 24 V, why: the name that the supply goes by}\n"
         "  - words: second 35\n"
         "    so: {event: arm_b.makes, take: first, is: 35 s, within: 0.2 s}\n"
         "    begin: Mon 08:00\n    end: Mon 08:01\n"
         "steps:\n  - show: {en: 'The 24 V give {minute_relay.volts:1} at second 35.'}\n"
         "    at: Mon 08:00\n");
}

TEST(Lesson, ThoseOfAFolderAreListedByTheirNumbers) {
  const auto all = lessons_in(SIXTY_SOURCE_DIR "/scenes/lessons");
  ASSERT_FALSE(all.empty());
  for (std::size_t k = 0; k < all.size(); ++k) {
    EXPECT_EQ(all[k].number, static_cast<int>(k + 1)) << all[k].path;
    EXPECT_NE(title_in(all[k], "en"), "") << all[k].path;
    EXPECT_EQ(title_in(all[k], "xx"), title_in(all[k], "en"));
  }
  EXPECT_TRUE(lessons_in("/nowhere").empty());
}

}  // namespace
}  // namespace sixty::lesson
