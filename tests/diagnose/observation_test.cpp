// What files of signs and of observations say, and how vague words are weighed.
#include "sim/diagnose/observation.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "sim/diagnose/likelihood.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

std::string mistakes_of(const std::string& text) { return BenchLibrary::get().mistakes_in(text); }

std::string in_list(const std::string& entry) {
  return mistakes_of("observations: bench-minimal\nseen:\n  - {" + entry + "}\n");
}

TEST(Observations, OfAnUnknownPlaceAreRefusedWithTheNearest) {
  const std::string told = in_list("at: hall_clok, sign: slow");
  EXPECT_NE(told.find("told.yaml:3"), std::string::npos) << told;
  EXPECT_NE(told.find("hall_clock"), std::string::npos) << told;
}

TEST(Observations, OfASignThatThePartDoesNotHaveAreRefused) {
  EXPECT_NE(in_list("at: hall_clock, sign: blown").find("stands"), std::string::npos);
}

TEST(Observations, OfAnotherSceneAreRefused) {
  EXPECT_NE(mistakes_of("observations: other\nseen:\n  - {at: bell, sign: silent}\n"), "");
}

TEST(Observations, WithTwoAnswersAtOnceAreRefused) {
  EXPECT_NE(in_list("at: hall_clock, sign: slow, about: 5, at_least: 3"), "");
  EXPECT_NE(in_list("at: hall_clock, sign: slow, about: 5, answer: no"), "");
}

TEST(Observations, OfAbsurdAmountsAreRefused) {
  EXPECT_NE(in_list("at: hall_clock, sign: slow, about: -5"), "");
  EXPECT_NE(in_list("at: hall_clock, sign: volts_low, reads: 5 kg"), "");
  EXPECT_NE(in_list("at: hall_clock, sign: slow, when: Nevermas"), "");
}

TEST(Observations, WithAWordThatSaysNeitherYesNorNoAreRefused) {
  EXPECT_NE(in_list("at: hall_clock, sign: slow, answer: perhaps"), "");
  EXPECT_NE(in_list("at: hall_clock, sign: slow, some: many"), "");
  EXPECT_NE(in_list("at: hall_clock, sign: slow, checked: [yes]"), "");
  EXPECT_EQ(in_list("at: hall_clock, sign: slow, some: yes, checked: no"), "");
}

TEST(Observations, ThatAreNoneAreRefused) {
  EXPECT_NE(mistakes_of("observations: bench-minimal\nseen: []\n"), "");
  EXPECT_NE(mistakes_of("observations: bench-minimal\n"), "");
  EXPECT_NE(mistakes_of("- 1\n"), "");
}

TEST(Observations, NotLookedAtSpeakForNothingAndAgainstNothing) {
  const BenchLibrary& bench = BenchLibrary::get();
  const std::vector<Observation> told{
      bench.observed("at: all secondary, sign: stands"),
      bench.observed("at: bell, sign: silent, answer: not looked at")};
  const Ranking ranking = rank(bench.library(), told, {});
  for (const Ranked& one : ranking.ranked) EXPECT_NEAR(one.chances[1], 1, 1e-9);
  EXPECT_NEAR(ranking.expected[1], 1, 1e-9);
}

TEST(Observations, ArePutDownAndReadBackTheSame) {
  const Library& library = BenchLibrary::get().library();
  const BenchLibrary& bench = BenchLibrary::get();
  const std::vector<Observation> told{
      bench.observed("at: all secondary, sign: slow, about: 5"),
      bench.observed("at: bell, sign: silent, answer: no"),
      bench.observed("at: all secondary, sign: stands, some: yes"),
      bench.observed("at: hall_clock, sign: volts_low, reads: 18.2 V")};
  const std::string text =
      observations_text(told, library.signs, "bench-minimal", *library.installation);
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root = parse_yaml(text, "again", diagnostics);
  ASSERT_TRUE(root) << diagnostics.to_text();
  const auto again = read_observations(*root, "again", *library.installation, library.signs,
                                       library.watch, mistakes);
  ASSERT_EQ(again.size(), told.size()) << text << diagnostics.to_text();
  for (std::size_t k = 0; k < told.size(); ++k) {
    EXPECT_EQ(again[k].which, told[k].which);
    EXPECT_EQ(again[k].how, told[k].how);
    EXPECT_EQ(again[k].all, told[k].all);
    EXPECT_NEAR(again[k].amount, told[k].amount, 1e-3 * told[k].amount);
  }
}

/// How likely an observation of the hall clock is where its sign departs by so many steps.
double chance(const std::string& text, double steps) {
  const Library& library = BenchLibrary::get().library();
  const Observation one = BenchLibrary::get().observed(text);
  std::vector<float> departures(library.usual.size(), 0);
  for (const std::size_t k : one.which) departures[k] = static_cast<float>(steps);
  return chance_of(one, departures, library.usual, library.signs, {});
}

TEST(Likelihood, OfASignGrowsWithHowClearItIs) {
  const std::string slow = "at: hall_clock, sign: slow";
  EXPECT_EQ(chance(slow, 0), 0);
  EXPECT_NEAR(chance(slow, -1), 0.5, 1e-9);  // slow: below what is usual
  EXPECT_GT(chance(slow, -3), 0.95);
  EXPECT_EQ(chance(slow, 3), 0);
}

TEST(Likelihood, OfNoIsWhatIsLeftOfYes) {
  for (const double steps : {0.0, -1.0, -4.0}) {
    EXPECT_NEAR(chance("at: hall_clock, sign: slow, answer: no", steps),
                1 - chance("at: hall_clock, sign: slow", steps), 1e-9);
  }
}

TEST(Likelihood, OfAnAmountIsLargestThere) {
  const std::string five = "at: hall_clock, sign: slow, about: 5";
  EXPECT_NEAR(chance(five, -5), 1, 1e-9);
  EXPECT_GT(chance(five, -6), 0.5);
  EXPECT_LT(chance(five, -50), 0.01);
  EXPECT_LT(chance(five, 0), 0.01);
}

TEST(Likelihood, OfAtLeastHoldsForAllThatIsMore) {
  const std::string five = "at: hall_clock, sign: slow, at_least: 5";
  EXPECT_GT(chance(five, -50), 0.99);
  EXPECT_LT(chance(five, -1), 0.05);
}

TEST(Likelihood, OfAllClocksIsTheShareOfThem) {
  const Library& library = BenchLibrary::get().library();
  const Observation all = BenchLibrary::get().observed("at: all secondary, sign: slow");
  ASSERT_EQ(all.which.size(), 2u);
  std::vector<float> departures(library.usual.size(), 0);
  departures[all.which.front()] = -10;
  const double half = chance_of(all, departures, library.usual, library.signs, {});
  EXPECT_GT(half, 0.45);
  EXPECT_LT(half, 0.6);
}

TEST(SignBook, HasNoMistakeAndEachSignOnce) {
  const Registry registry = models::registry();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const SignBook book(registry, mistakes);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  for (const Sign& sign : book.all()) EXPECT_EQ(book.find(sign.name, *sign.kind), &sign);
}

TEST(Observations, OfTheTreeHaveNoMistakes) {
  const Registry registry = models::registry();
  std::size_t files = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(SIXTY_SOURCE_DIR "/scenes/observations")) {
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    const auto root = read_yaml(entry.path().string(), diagnostics);
    ASSERT_TRUE(root) << diagnostics.to_text();
    ASSERT_TRUE(is_observations(*root)) << entry.path();
    check_observations(*root, entry.path().string(), registry, mistakes);
    EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
    ++files;
  }
  EXPECT_GT(files, 0u);
}

TEST(Observations, WithoutTheirSceneAreRefused) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root =
      parse_yaml("observations: nowhere\nseen: [{at: x, sign: y}]\n", "o.yaml", diagnostics);
  ASSERT_TRUE(root);
  check_observations(*root, "o.yaml", models::registry(), mistakes);
  EXPECT_NE(diagnostics.to_text().find("o.yaml:1"), std::string::npos);
}

TEST(SignBook, MistakesAreToldWithTheirPlace) {
  const Registry registry = models::registry();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root = parse_yaml(
      "signs: bell\nentries:\n  - {sign: x, says: y, reading: ringing, notice: 1, check: T1}\n",
      "signs.yaml", diagnostics);
  ASSERT_TRUE(root);
  EXPECT_TRUE(read_signs(*root, "signs.yaml", *registry.find("bell"), mistakes).empty());
  EXPECT_NE(diagnostics.to_text().find("signs.yaml:3"), std::string::npos);
}

}  // namespace
}  // namespace sixty::diagnose
