// What a tour's file says, and what it does to a run.
#include "sim/tour/tour.hpp"

#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "sim/tour/saying.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty {
namespace {

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

TEST(Tour, AllThatAreShippedAreHeldAgainstTheSceneBesideThem) {
  std::size_t tours = 0;
  for (const auto& file : std::filesystem::directory_iterator(SIXTY_SOURCE_DIR "/scenes/tours")) {
    Diagnostics mistakes;
    const auto root = read_yaml(file.path().string(), mistakes);
    ASSERT_TRUE(root && is_tour(*root)) << mistakes.to_text();
    check_tour(*root, file.path().string(), all_parts(), mistakes);
    EXPECT_EQ(mistakes.to_text(), "");
    ++tours;
  }
  EXPECT_GE(tours, 1U);
}

TEST(Tour, OneWithoutItsSceneIsRefused) {
  Diagnostics mistakes;
  const auto root = parse_yaml(kScene + "    at: 5s\n", "nowhere/tour.yaml", mistakes);
  check_tour(*root, "nowhere/tour.yaml", all_parts(), mistakes);
  EXPECT_NE(mistakes.to_text().find("there is no such scene"), std::string::npos);
}

TEST(Tour, WordsHoldReadingsAsTheyAre) {
  const auto scene = bench_scene();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const Saying saying =
      read_saying({"", "draws {rewind.current}, {rewind.current:2} or {-rewind.current:0}.", {}},
                  *scene, {}, mistakes);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  EXPECT_EQ(said(saying, *scene, [](const ReadingOf&) { return 1.25; }),
            "draws 1.25 A, 1.25 or -1.");
  // A comma where the language has one, but not within a unit.
  EXPECT_EQ(quantity_text(0.0315, "N.m", -1, "de"), "31,5 mN.m");
  EXPECT_EQ(quantity_text(24, "V", -1, "de"), "24 V");
  // What is nothing when it is rounded has no sign.
  const std::string nothing = said(saying, *scene, [](const ReadingOf&) { return 1e-9; });
  EXPECT_EQ(nothing.substr(nothing.size() - 8), "00 or 0.");
  EXPECT_EQ(said(in_language({{"en", saying}}, "fr"), *scene, [](const ReadingOf&) { return 0.0; })
                .substr(0, 5),
            "draws");
}

}  // namespace
}  // namespace sixty
