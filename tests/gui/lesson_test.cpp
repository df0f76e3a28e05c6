// A lesson taken in the real window, with real presses and keys.
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "tests/gui/worked_window.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

constexpr const char* kLesson = R"(lesson: {en: A test}
topic: {en: Testing}
scene: bench-minimal
facts: {volts: {reading: minute_relay.volts, take: most}}
steps:
  - ask: {en: 'How many volts?'}
    number: volts
    within: 20 %
    unit: V
    at: Mon 00:00:34
    to: Mon 00:00:38
    speed: 4
    right: {en: Good.}
    wrong: {en: 'It is {volts}.'}
  - ask: {en: 'In what order?'}
    order:
      - {text: {en: the hand moves}, event: hall_clock.returns}
      - {text: {en: the contact makes}, event: minute_relay.makes}
    at: Mon 00:01:34
    to: Mon 00:01:38
    hints: [{en: Nothing moves by itself.}]
  - task: {en: Step the clocks.}
    at: Mon 00:02:05
    view: case
    goal: [{at: all secondary, reading: steps, take: change, is: 1}]
    right: {en: Done.}
    model: {do: ['Mon 00:02:10 step_all_key.close', 'Mon 00:02:12 step_all_key.open'], done: Mon 00:02:14}
  - explain: {en: Why.}
    at: Mon 00:02:40
    why: step hall_clock @ Mon 00:02:35
)";

class LessonTaken : public WorkedWindow {
 protected:
  void SetUp() override {
    WorkedWindow::SetUp();
    folder_ = fs::path(testing::TempDir()) / ("taken-" + std::to_string(getpid()));
    fs::create_directory(folder_);
    fs::create_symlink(options_.scene, folder_ / "bench-minimal.yaml");
    std::ofstream(folder_ / "lesson.yaml") << kLesson;
    options_.lesson = (folder_ / "lesson.yaml").string();
  }
  void TearDown() override { fs::remove_all(folder_); }

  const LessonPanel& lesson() { return window().lesson(); }
  std::size_t step() { return lesson().sitting()->step(); }
  void until_known(const std::function<bool()>& is_so) {
    for (int k = 0; k < 20'000 && !HasFailure() && !is_so(); ++k) window().step();
    EXPECT_TRUE(is_so());
  }
  void begin(int first) {
    options_.step = first;
    ASSERT_NE(window().lesson().step(), nullptr);
    until_known([&] { return lesson().told().words.has_value(); });
    for (int k = 0; k < 3; ++k) window().step();
  }
  void go_on(float x) {
    const std::size_t before = step();
    EXPECT_TRUE(press("lesson/foot", {"Go on"}, x));
    until([&] { return lesson().sitting()->is_over() || step() != before; });
  }

 private:
  fs::path folder_;
};

constexpr float kBehindTwo = 228, kBehindBack = 90;  // pixels: where the button to go on stands

TEST_F(LessonTaken, AFigureIsAskedForBeforeTheRunShowsIt) {
  begin(1);
  EXPECT_FALSE(window().bench().seen().running);
  EXPECT_EQ(now(), 34 * kSecond);
  EXPECT_FALSE(press("lesson/foot", {"Go on"}, kBehindBack));  // not before there is an answer
  // The field for it, by its place below the words.
  typed("mousemove 60 190");
  for (int y = 150; y < 320 && !ImGui::GetIO().WantTextInput; y += 8) {
    typed("mousemove 60 " + std::to_string(y));
    typed("click 1");
  }
  typed("type '3,5'");
  typed("key Return");
  until_known([&] { return lesson().told().judged.has_value(); });
  EXPECT_EQ(lesson().told().judged->yours, "3.5 V");
  EXPECT_FALSE(lesson().told().judged->verdict.right);
  EXPECT_NEAR(lesson().told().judged->verdict.number, 24, 3);
  EXPECT_NE(lesson().told().judged->remark.find("It is 2"), std::string::npos);
  until([&] { return now() == 38 * kSecond && !window().bench().seen().running; });
  go_on(kBehindTwo);
  ASSERT_EQ(lesson().sitting()->fared().size(), 1U);
  EXPECT_FALSE(lesson().sitting()->fared()[0].right);
}

TEST_F(LessonTaken, HandsDoNothingWhileItAsksAndAllOnceItIsLeft) {
  begin(2);
  Bench& bench = window().bench();
  const std::size_t before = bench.seen().log->size();
  bench.command(part("step_all_key"), "close", 0);
  until([&] { return window().message().find("Hands off") != std::string::npos; });
  EXPECT_EQ(bench.seen().log->size(), before);
  typed("key f");  // to the fault hunt
  EXPECT_FALSE(lesson().is_open());
  bench.command(part("step_all_key"), "close", 0);
  until([&] { return bench.seen().log->size() == before + 1; });
}

TEST_F(LessonTaken, ArrowsAndSpaceChooseAndEnterLeadsOn) {
  begin(2);
  for (int k = 0; k < 12 && !lesson().told().judged; ++k) {
    typed("key Down");
    typed("key space");
    for (int frame = 0; frame < 40; ++frame) window().step();
  }
  ASSERT_TRUE(lesson().told().judged.has_value());  // one of them was the answer's button
  until([&] { return !window().bench().seen().running; });
  typed("key Return");
  until([&] { return step() == 2; });
}

TEST_F(LessonTaken, WhatIsPutInOrderIsHeldAgainstTheRun) {
  begin(2);
  ASSERT_TRUE(press("lesson/step", {"A hint"}));
  EXPECT_EQ(lesson().sitting()->hints(), 1);
  ASSERT_TRUE(press("lesson/step", {"That is my answer"}));
  until_known([&] { return lesson().told().judged.has_value(); });
  EXPECT_EQ(lesson().told().judged->verdict.order, (std::vector<std::size_t>{1, 0}));
  EXPECT_EQ(lesson().told().judged->really, "the contact makes, the hand moves");
}

TEST_F(LessonTaken, ATaskIsDoneWhenHandsHaveBroughtItAbout) {
  begin(3);
  EXPECT_TRUE(window().bench().seen().running);
  typed(to_handle("step_all_key"));
  typed("mousedown 1");
  const SimTime pressed = now();
  until_known([&] { return now() > pressed + 2 * kSecond; });
  typed("mouseup 1");
  until_known([&] { return lesson().sitting()->was_right(); });
  EXPECT_LT(now(), 2 * kMinute + 35 * kSecond);  // before the clock did it by itself
  for (int k = 0; k < 3; ++k) window().step();
  EXPECT_EQ(lesson().told().remark, "Done.");
  go_on(kBehindBack);
}

TEST_F(LessonTaken, WhyIsAnsweredInItsOwnPanelAndTheEndTellsHowItWent) {
  begin(4);
  until_known([&] { return !window().told().links.empty(); });
  go_on(kBehindBack);
  EXPECT_TRUE(lesson().sitting()->is_over());
  ASSERT_TRUE(press("lesson", {"All lessons"}));
  EXPECT_EQ(lesson().sitting(), nullptr);
  typed("key F4");
  EXPECT_FALSE(lesson().is_open());
}

TEST_F(LessonTaken, AnotherSceneOnTheBenchEndsIt) {
  begin(2);
  ASSERT_TRUE(window().take(std::string(SIXTY_SOURCE_DIR) + "/scenes/corner-school.yaml"));
  for (int k = 0; k < 5; ++k) window().step();
  EXPECT_EQ(lesson().sitting(), nullptr);
  EXPECT_TRUE(lesson().is_open());
}

}  // namespace
}  // namespace sixty::gui
