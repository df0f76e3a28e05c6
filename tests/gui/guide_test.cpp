// The tour's guide: which step is due, and what stops and moves it. And what a tour's file says.
#include "gui/tour/guide.hpp"

#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "gui/tour/saying.hpp"
#include "gui/tour/tour.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using Way = Guide::Way;

TEST(Guide, StepsFollowEachOtherAndTheLastStays) {
  Guide guide({10, 5}, Way::kOnce);
  EXPECT_EQ(guide.begun(), 1U);
  guide.pass(4);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_DOUBLE_EQ(guide.share(), 0.4);
  guide.pass(6);
  EXPECT_EQ(guide.step(), 1U);
  EXPECT_EQ(guide.begun(), 2U);
  EXPECT_TRUE(guide.runs());
  guide.pass(5);
  EXPECT_TRUE(guide.is_over());
  EXPECT_FALSE(guide.runs());
  guide.pass(10 * Guide::kPatience_s);
  EXPECT_TRUE(guide.is_over());
}

TEST(Guide, ALoopBeginsAgain) {
  Guide guide({10, 5}, Way::kLoop, 1);
  guide.pass(5);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_FALSE(guide.is_over());
}

TEST(Guide, ATouchStopsItUntilItIsToldToGoOnFromTheStepsBeginning) {
  Guide guide({10, 5}, Way::kOnce);
  guide.pass(9);
  guide.touch();
  guide.pass(1000);
  EXPECT_TRUE(guide.stands());
  EXPECT_EQ(guide.step(), 0U);
  guide.go_on();
  EXPECT_FALSE(guide.stands());
  EXPECT_EQ(guide.share(), 0);
  EXPECT_EQ(guide.begun(), 2U);
}

TEST(Guide, ALoopThatNobodyTouchesAnyMoreGoesOnByItself) {
  Guide guide({10, 5}, Way::kLoop);
  guide.touch();
  guide.pass(Guide::kPatience_s - 1);
  guide.touch();
  guide.pass(Guide::kPatience_s - 1);
  EXPECT_TRUE(guide.stands());
  guide.pass(2);
  EXPECT_FALSE(guide.stands());
}

TEST(Guide, InATalkEachStepStaysUntilTheNextIsAskedFor) {
  Guide guide({10, 5}, Way::kTalk);
  guide.pass(100);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_FALSE(guide.runs());
  EXPECT_EQ(guide.share(), 1);
  guide.next();
  EXPECT_EQ(guide.step(), 1U);
  EXPECT_TRUE(guide.runs());
  guide.next();
  EXPECT_EQ(guide.step(), 1U);
  guide.back();
  EXPECT_EQ(guide.step(), 0U);
}

std::string told_of(const std::string& text) {
  const std::string path = testing::TempDir() + "tour-" + std::to_string(getpid()) + ".yaml";
  std::ofstream(path) << text;
  Diagnostics mistakes;
  const auto tour = read_tour(path, *bench_scene(), all_parts(), mistakes);
  EXPECT_EQ(tour == nullptr, !mistakes.empty());
  std::filesystem::remove(path);
  return mistakes.to_text();
}

const std::string kScene = "scene: bench-minimal\nsteps:\n  - text: {en: Words.}\n    for: 5 s\n";

std::shared_ptr<const Tour> shipped_tour(const Installation& scene) {
  Diagnostics mistakes;
  auto tour =
      read_tour(SIXTY_SOURCE_DIR "/scenes/tours/overview.yaml", scene, all_parts(), mistakes);
  EXPECT_TRUE(mistakes.empty()) << mistakes.to_text();
  return tour;
}

TEST(Tour, TheShippedOneIsOfItsSceneAndLastsAboutThreeMinutes) {
  const auto scene = bench_scene({}, "technical-school");
  const auto tour = shipped_tour(*scene);
  ASSERT_NE(tour, nullptr);
  EXPECT_GE(tour->lasts_s(), 150);
  EXPECT_LE(tour->lasts_s(), 210);
  EXPECT_TRUE(std::is_sorted(tour->log.begin(), tour->log.end(),
                             [](const Action& a, const Action& b) { return a.at < b.at; }));
}

TEST(Tour, WhatHandsDoInItIsDoneInTheRun) {
  const auto scene = bench_scene({}, "technical-school");
  const auto tour = shipped_tour(*scene);
  ASSERT_NE(tour, nullptr);
  Session session(scene);
  session.replace_log(tour->log);
  const SimTime nine = 9 * kHour + 2 * kMinute;
  session.seek(nine);
  EXPECT_LT(read(session, "clock_hall.error_min"), -14);  // it got no impulse since 08:46
  EXPECT_LT(read(session, "rewind.spring_teeth"), 15);
  session.seek(tour->steps.back().at);
  EXPECT_NEAR(read(session, "clock_hall.error_min"), 0, 1);  // and was stepped on by hand
}

TEST(Tour, MistakesAreToldWithPlaceExpectationAndMend) {
  for (const auto& [text, what] : std::vector<std::pair<std::string, std::string>>{
           {"scene: other\nsteps: []\n", "another scene"},
           {"scene: bench-minimal\nsteps: []\n", "cannot have so many"},
           {kScene + "    at: noon\n", "at: "},
           {kScene + "    at: 5s\n    view: roof\n", "nothing of that name"},
           {kScene + "    at: 5s\n    view: part:none\n", "none"},
           {kScene + "    at: 5s\n    light: [none]\n", "none"},
           {kScene + "    at: 5s\n    speed: -1\n", "speed"},
           {kScene + "    at: 5s\n    stretch: perhaps\n", "neither yes nor no"},
           {kScene + "    at: 5s\n    do: [6s none.press]\n", "none"},
           {kScene + "    at: 5s\n    do: [press]\n", "time and a command"},
           {kScene + "    at: 5s\n    fault: [F13@none]\n", "none"},
           {kScene + "    at: 5s\n    head: {en: \"{none.current}\"}\n", "no such part"},
           {kScene + "    at: 5s\n    head: {en: \"{rewind.none}\"}\n", "none"},
           {kScene + "    at: 5s\n    head: {en: \"{rewind.current\"}\n", "not closed"},
           {kScene + "    at: 5s\n    head: {en: \"{rewind.current:x}\"}\n", "no decimals"},
           {kScene + "    at: 5s\n    head: {en: \"{}\"}\n", "reading belongs"},
           {kScene + "    at: 5s\n    head: {de: Worte}\n", "English words are missing"},
           {kScene + "    at: 5s\n    tune: loud\n", "tune"}}) {
    const std::string told = told_of(text);
    EXPECT_NE(told.find(what), std::string::npos) << text << "\n" << told;
    EXPECT_NE(told.find("mend:"), std::string::npos) << told;
  }
  EXPECT_EQ(told_of(kScene + "    at: 5s\n"), "");
}

TEST(Tour, WordsHoldReadingsAsTheyAre) {
  const auto scene = bench_scene();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const Saying saying =
      read_saying({"", "draws {rewind.current}, {rewind.current:2} or {-rewind.current:0}.", {}},
                  *scene, mistakes);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  EXPECT_EQ(said(saying, *scene, [](const LaneOf&) { return 1.25; }), "draws 1.25 A, 1.25 or -1.");
  EXPECT_EQ(said(in_language({{"en", saying}}, "fr"), *scene, [](const LaneOf&) { return 0.0; })
                .substr(0, 5),
            "draws");
}

}  // namespace
}  // namespace sixty::gui
