// A real window, worked with real presses and keys; what they do is read from the run.
#include <gtest/gtest.h>
#include <imgui/imgui.h>
#include <imgui/imgui_internal.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "gui/bench/card.hpp"
#include "gui/keep/moment.hpp"
#include "sim/scene/injection.hpp"
#include "tests/gui/worked_window.hpp"

/// Asked by the sanitizer at the end: a display's driver keeps some bytes of its own for good.
// NOLINTNEXTLINE(bugprone-reserved-identifier): that is its name
extern "C" int __lsan_is_turned_off() { return sixty::gui::drives_a_display ? 1 : 0; }

namespace sixty::gui {
namespace {

using Hands = WorkedWindow;

TEST_F(Hands, AKeyIsClosedWhileItIsHeldAndOpensWhenLetGo) {
  hand(to_handle("ring_key") + " click 3");
  until([&] { return window().bench().look().selected == part("ring_key"); });
  until([&] { return reading("closed") == 0; });
  hand(to_handle("ring_key") + " mousedown 1");
  until([&] { return reading("closed") == 1; });
  hand("mouseup 1");
  until([&] { return reading("closed") == 0; });
  EXPECT_EQ(window().bench().seen().can_undo, 2);
}

TEST_F(Hands, ASwitchStaysWhereAHandHasPutIt) {
  hand(to_handle("clock_switch") + " click 3");
  until([&] { return reading("closed") == 1; });
  hand(to_handle("clock_switch") + " click 1");
  until([&] { return reading("closed") == 0; });
  hand(to_handle("clock_switch") + " click 1");
  until([&] { return reading("closed") == 1; });
}

TEST_F(Hands, UndoTakesTheLastDeedBackAndTheTimeToBeforeIt) {
  hand(to_handle("clock_switch") + " click 3");
  until([&] { return reading("closed") == 1; });
  const SimTime before = now();
  hand(to_handle("clock_switch") + " click 1");
  until([&] { return reading("closed") == 0; });
  hand("key ctrl+z");
  until([&] { return reading("closed") == 1 && window().bench().seen().can_undo == 0; });
  EXPECT_LE(now(), before);
}

TEST_F(Hands, SpaceRunsAndPauses) {
  window();
  hand("key space");
  until([&] { return window().bench().seen().running && now() > 10 * kSecond; });
  hand("key space");
  until([&] { return !window().bench().seen().running; });
}

TEST_F(Hands, ArrowsGoFromEventToEventAndWithShiftToWhatBegins) {
  window();
  hand("key Right");
  until([&] { return now() > 10 * kSecond; });
  const SimTime next = now();
  hand("key Left");
  until([&] { return now() < next; });
  const SimTime before = now();
  hand("key shift+Right");
  until([&] { return now() > before; });
}

TEST_F(Hands, AWrittenTimeIsGoneTo) {
  window();
  typed("key g");
  typed("type '2h'");
  typed("key Return");
  until([&] { return now() == 2 * kHour; });
}

/// Wherever the pointer is; and Esc ends it, so that the next press is not lost on it.
TEST_F(Hands, TheFieldForATimeOpensBelowTheBarAndIsClosedByEsc) {
  window();
  typed("mousemove 700 500");
  typed("key g");
  const ImGuiContext& context = *ImGui::GetCurrentContext();
  ASSERT_EQ(context.OpenPopupStack.Size, 1);
  const ImGuiWindow* bar = ImGui::FindWindowByName("bar");
  EXPECT_LE(context.OpenPopupStack[0].Window->Pos.y, bar->Pos.y + bar->Size.y);
  typed("key Escape");
  EXPECT_EQ(context.OpenPopupStack.Size, 0);
  EXPECT_FALSE(ImGui::GetIO().WantTextInput);
}

TEST_F(Hands, TheStripIsDraggedThroughTimeAndItsRulerPressed) {
  options_.at = "10min";
  const float y = window().strip().plot_top() + 40;
  const auto at = [&](float x, float height) {
    return "mousemove " + std::to_string(std::lround(x)) + " " +
           std::to_string(std::lround(height));
  };
  hand(at(700, y) + " mousedown 1 " + at(650, y) + " " + at(600, y) + " mouseup 1");
  const double moved_s = 100 * window().strip().span().per_pixel_ns() * 1e-9;
  until([&] { return std::fabs(to_seconds(now()) - 600 - moved_s) < 0.02 * moved_s; });
  const SimTime there = window().strip().span().time_at(500);
  hand(at(500, window().strip().plot_top() - 8) + " click 1");
  until([&] { return std::llabs(now() - there) < 100 * kMillisecond; });
}

TEST_F(Hands, WhyIsAnsweredAboutTheSelectedPart) {
  options_.changes.fault = {"F60@minute_relay:1"};
  options_.view = "part:minute_relay";
  options_.at = "36s";
  window();
  hand("key w");
  until([&] { return !window().told().busy && !window().told().links.empty(); });
  EXPECT_NE(window().told().headline.find("did not happen"), std::string::npos);
}

TEST_F(Hands, NoSizeOfTheWindowIsTooSmallOrTooLarge) {
  window();
  for (const char* size : {"320 240", "60 40", "1 1", "1500 1100", "900 420"}) {
    hand(std::string("search --onlyvisible --name . windowsize --sync ") + size);
    for (int k = 0; k < 5; ++k) window().step();
    hand("key l key h key 1 key 2 key t");
    for (int k = 0; k < 10; ++k) EXPECT_TRUE(window().step());
  }
}

TEST_F(Hands, FaultsOfTheCommandLineAreInForceUntilTheyAreCleared) {
  options_.changes.fault = {"F60@minute_relay:0.5"};
  Bench& bench = window().bench();
  const PartId relay = part("minute_relay");
  const std::shared_ptr<const Fault> fault = bench.seen().log->front().fault == nullptr
                                                 ? bench.seen().log->back().fault->fault
                                                 : bench.seen().log->front().fault->fault;
  EXPECT_EQ(bench.severity_of(relay, *fault), 0.5);
  EXPECT_FALSE(bench.severity_of(part("rewind"), *fault).has_value());
  bench.clear_fault(relay, fault);
  until([&] { return !bench.severity_of(relay, *fault).has_value(); });
  bench.put_fault(relay, fault, 0.25);
  until([&] { return bench.severity_of(relay, *fault) == 0.25; });
}

/// Two long steps.
std::string tour_file() {
  const std::string path = testing::TempDir() + "walk-" + std::to_string(getpid()) + ".yaml";
  std::ofstream(path) << "scene: bench-minimal\nsteps:\n"
                         "  - {text: {en: One}, at: 10s, for: 600 s}\n"
                         "  - {text: {en: Other}, at: 35s, for: 600 s, view: part:minute_relay}\n";
  return path;
}

TEST_F(Hands, APressStopsATourAndOneMayLookAround) {
  options_.tour = tour_file();
  options_.size = "1280x800";
  window();
  until([&] { return window().bench().seen().running && now() > 10 * kSecond; });
  hand("mousemove 300 300 click 1");
  until([&] { return window().walk()->guide().stands() && !window().bench().seen().running; });
  EXPECT_FALSE(window().walk()->shows());
  hand(to_handle("clock_switch") + " click 3");
  until([&] { return window().bench().look().selected == part("clock_switch"); });
  hand("key Escape");
  until([&] { return window().walk() == nullptr; });
}

TEST_F(Hands, InATalkOneKeyIsOneStep) {
  options_.tour = tour_file();
  options_.size = "1280x800";
  options_.way = Guide::Way::kTalk;
  window();
  hand("key Right");
  until([&] { return window().walk()->guide().step() == 1 && now() >= 35 * kSecond; });
  hand("key Prior");
  until([&] { return window().walk()->guide().step() == 0 && now() < 35 * kSecond; });
}

TEST_F(Hands, ANewcomerIsGreetedWhileItRunsUntilAPartIsPressed) {
  options_.at.clear();
  window().begin();
  EXPECT_TRUE(window().greets());
  until([&] { return now() > kSecond / 2; });
  hand(to_handle("clock_switch") + " click 3");
  until([&] { return window().bench().look().selected == part("clock_switch"); });
  EXPECT_FALSE(window().greets());
}

TEST_F(Hands, OnceTheGreetingIsClosedTheDrawingHasItsRoom) {
  options_.at.clear();
  window();
  const float whole = window().sight().camera().middle.x;
  window().begin();
  EXPECT_LT(window().sight().camera().middle.x, whole - 50);
  typed("key Escape");
  until([&] { return !window().greets(); });
  until([&] { return std::fabs(window().sight().camera().middle.x - whole) < 1; });
}

TEST_F(Hands, AnAnswerThatTakesLongIsGivenUpByEscape) {
  window().bench().runner().jump(150 * kDay);
  until([&] { return now() == 150 * kDay; });
  hand(to_handle("ring_key") + " click 3");
  until([&] { return window().bench().look().selected == part("ring_key"); });
  hand("key w");
  until([&] { return window().told().answers && window().told().come.value_or(0) > kHour; });
  hand("key Escape");
  until([&] { return !window().told().answers && !window().told().busy; });
  EXPECT_TRUE(window().told().headline.empty());
  EXPECT_EQ(window().bench().look().selected, part("ring_key"));
}

TEST_F(Hands, EverythingIsDrawnLargerAndIsStillPressedWhereItIsSeen) {
  options_.scale = 1.5;
  const float edge = window().strip().plot_top();
  EXPECT_LT(edge, 533);  // of a window of 800, in pixels of the drawing
  const Placed* placed = window().bench().stage().find(part("minute_relay"));
  const auto [low, high] = placed->figure.bounds();
  const Pixel at = window().sight().camera().pixel((low + high) * 0.5) * 1.5F;
  hand("mousemove " + std::to_string(std::lround(at.x)) + " " + std::to_string(std::lround(at.y)) +
       " click 1");
  until([&] { return window().bench().look().selected == part("minute_relay"); });
  hand("key ctrl+minus");
  until([&] { return window().strip().plot_top() > edge + 10; });
}

TEST_F(Hands, TheEdgeOfTheStripIsDragged) {
  const float edge = window().strip().plot_top();
  const auto to = [](float y) { return "mousemove 640 " + std::to_string(std::lround(y)); };
  const float top = edge - Strip::kHead - Strip::kRuler;
  hand(to(top - 2) + " mousedown 1 " + to(top - 60) + " " + to(top - 100) + " mouseup 1");
  until([&] { return std::fabs(window().strip().plot_top() - (edge - 98)) < 3; });
}

TEST_F(Hands, ALongWayIsSeenAndEndedByEscape) {
  window().bench().runner().jump(20 * 365 * kDay);
  until([&] { return window().bench().seen().heads_for == 20 * 365 * kDay && now() > kDay; });
  hand("key Escape");
  until([&] { return !window().bench().seen().heads_for; });
  EXPECT_LT(now(), 20 * 365 * kDay);
  window().bench().runner().jump(-5 * kDay);
  until([&] { return now() == 0; });
}

TEST_F(Hands, AMistakenTimeIsMendedWhereItWasWritten) {
  window();
  typed("key g");
  typed("type banana");
  typed("key Return");
  typed("key ctrl+a");
  typed("type 3h");
  typed("key Return");
  until([&] { return now() == 3 * kHour; });
}

TEST_F(Hands, ThePartUnderARestingPointerIsNamedAndNoOtherOnceTheDrawingMoves) {
  hand(to_handle("ring_key"));
  until([&] { return window().bench().look().hovered == part("ring_key"); });
  hand("key 1");
  until([&] { return window().bench().look().hovered != part("ring_key"); });
}

TEST_F(Hands, AKeyHeldAndLetGoWithinOneFrameStillCountsWithTheOther) {
  window();
  typed("key g");
  typed("type 7h");
  typed("key ctrl+a");  // all of it before the next frame
  typed("type 2h");
  typed("key Return");
  until([&] { return now() == 2 * kHour; });
}

TEST_F(Hands, LettersAreNoKeysWhileFilesAreOpenAndEscapeClosesThem) {
  window();
  typed("key o");
  typed("type /tmp/h");
  EXPECT_FALSE(window().bench().seen().twin);
  typed("key Escape");
  typed("key Escape");
  hand("key h");
  until([&] { return window().bench().seen().twin; });
}

TEST_F(Hands, ARefusalOfAFileIsNotToldAgainWhenFilesAreOpenedAnew) {
  window();
  typed("key o");
  typed("type /nowhere/scene.yaml");
  typed("key Return");
  until([&] { return !window().told_of_file().empty(); });
  typed("key Escape");
  typed("key Escape");
  typed("key o");
  EXPECT_TRUE(window().told_of_file().empty());
}

TEST_F(Hands, InstrumentsStandBesideTheDrawingWhichHasItsRoomAgainWithoutThem) {
  window();
  const float whole = window().canvas().width;
  typed("key i");
  const sf::FloatRect beside = window().canvas();
  EXPECT_GT(beside.left, 400);
  until([&] { return !window().sight().travels(); });
  const auto [low, high] = window().bench().stage().case_box();
  EXPECT_GE(window().sight().camera().pixel(low).x, beside.left);
  typed("key i");
  EXPECT_EQ(window().canvas().width, whole);
}

TEST_F(Hands, AFilesWholePathIsToldWhenItWasWritten) {
  const auto before = std::filesystem::current_path();
  const std::filesystem::path folder =
      std::filesystem::path(testing::TempDir()) / ("kept-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  window();
  std::filesystem::current_path(folder);
  typed("key p");
  std::filesystem::current_path(before);
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    ++files;
    const std::string told = window().message();
    EXPECT_NE(told.find(entry.path().filename().string()), std::string::npos) << told;
    EXPECT_NE(told.find(folder.string()), std::string::npos) << told;
  }
  EXPECT_EQ(files, 1U);
  std::filesystem::remove_all(folder);
}

TEST_F(Hands, ThePageOfKeysIsShownAndClosedByItsKey) {
  window();
  typed("key F1");
  EXPECT_TRUE(window().shows_keys());
  typed("key Escape");
  EXPECT_FALSE(window().shows_keys());
}

/// Its words are as good to press as the box before them.
TEST_F(Hands, AFaultIsPutInByAPressOnItsWordsAndTakenOutByAnother) {
  options_.view = "part:clock_switch";
  Bench& bench = window().bench();
  const auto in_force = [&] {
    const auto& log = *bench.seen().log;
    return !log.empty() && log.back().fault != nullptr && !log.back().clears;
  };
  typed("key l");
  const long x = std::lround(window().canvas().left + window().canvas().width) + 54;
  const std::string there = "mousemove " + std::to_string(x) + " ";
  int y = 0;
  for (int scrolled = 0; scrolled < 3 && !in_force(); ++scrolled) {
    typed(there + "400 click 5 click 5 click 5");
    // From below: what can be measured stands above, and would lay an instrument over the faults.
    for (y = 700; y > 300 && !in_force(); y -= 10) typed(there + std::to_string(y) + " click 1");
  }
  ASSERT_TRUE(in_force());
  typed(there + std::to_string(y + 10) + " click 1");
  EXPECT_FALSE(in_force());
}

/// The bar of a small window: nothing of it lies beyond its edge, where nobody can press it.
TEST_F(Hands, TheBarFitsIntoEveryWindowAndTheRestIsBehindOneButton) {
  options_.size = "1280x800";
  window();
  for (const int width : {1280, 960, 900, 800, 700, 640, 480, 360}) {
    hand("search --onlyvisible --name . windowsize --sync " + std::to_string(width) + " 600");
    for (int k = 0; k < 6; ++k) window().step();
    const ImGuiWindow* bar = ImGui::FindWindowByName("bar");
    ASSERT_NE(bar, nullptr);
    EXPECT_LE(bar->ContentSize.x + bar->WindowPadding.x, static_cast<float>(width)) << width;
  }
}

/// Numbers as long as any: it stands at rest, and so loses all of a day.
TEST_F(Hands, NoReadingOfTheCardIsCutOffBesideItsTwins) {
  const ImGuiTable* readings = readings_beside_twins("part:movement", "100ms");
  ASSERT_NE(readings, nullptr);
  const float room = readings->WorkRect.GetWidth(), rate = ImGui::CalcTextSize("-86400 s/day").x;
  EXPECT_GE(beside_twin(room, 0, 0, rate, rate).now_ends, rate);
}

TEST_F(Hands, AMomentThatWasKeptIsOpenedAsASceneIs) {
  const std::string path = testing::TempDir() + "moment-" + std::to_string(getpid()) + ".yaml";
  const Bench& bench = window().bench();
  std::string error;
  const Moment moment = moment_of(bench.shared_installation(), options_.scene, {},
                                  *bench.seen().log, 77 * kSecond, bench.picture().state);
  ASSERT_TRUE(save_moment(moment, path, error)) << error;
  Options options;
  options.scene = path;
  Diagnostics mistakes;
  const Opening opening = open_scene(options, models::registry(), mistakes);
  std::filesystem::remove(path);
  EXPECT_EQ(mistakes.to_text(), "");
  ASSERT_NE(opening.installation, nullptr);
  EXPECT_EQ(opening.at, 77 * kSecond);
  EXPECT_EQ(opening.installation->name, "bench-minimal");
}

}  // namespace
}  // namespace sixty::gui
