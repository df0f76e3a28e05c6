// What is done at a visit, and that things then happen at which one can look.
#include "sim/diagnose/visit.hpp"

#include <gtest/gtest.h>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

/// How clearly a sign of a part shows with a fault at its full severity.
double shown(const std::string& fault, const std::string& part, const std::string& at,
             const std::string& sign) {
  const BenchLibrary& bench = BenchLibrary::get();
  const auto departures = bench.departures_with(fault, part, {1, kHour, {}});
  const std::size_t k = bench.observed("at: " + at + ", sign: " + sign).which.front();
  return clearness(static_cast<double>(departures[k]), *bench.library().signs[k].sign);
}

TEST(Visit, WindsStartsAndPressesEachKey) {
  const Library& library = BenchLibrary::get().library();
  std::map<std::string, int> done;
  for (const Hand& hand : library.watch.visit.hands) ++done[hand.action.text];
  EXPECT_EQ(done["rewind.wind"], 15);
  EXPECT_EQ(done["movement.start"], 1);
  EXPECT_EQ(done["ring_key.hold"], 1);
  EXPECT_EQ(done.count("clock_switch.hold"), 0u);  // no key: it rests closed
}

TEST(Visit, StartsAClockThatSomebodyStopped) {
  EXPECT_GT(shown("F49", "movement", "movement", "stands"), 3);
  EXPECT_LT(shown("F49", "movement", "movement", "stops_again"), 0.9);  // it is not started at once
}

TEST(Visit, ShowsThatAnOpenSolenoidDoesNotPullThoughTheClockGoes) {
  EXPECT_GE(shown("F07", "rewind", "rewind", "still_misses"), 1);
  EXPECT_LT(shown("F49", "movement", "rewind", "still_misses"), 0.5);
}

TEST(Visit, ABellWithAnOpenCoilIsSilentByItsKeyToo) {
  EXPECT_GE(shown("F42", "bell", "bell", "silent_by_key"), 1);
}

TEST(Visit, AWideInspectionFindsTheValueThatIsWrong) {
  EXPECT_GE(shown("F10", "rewind", "rewind", "plunger_stiff"), 1);
  EXPECT_LT(shown("F07", "rewind", "rewind", "plunger_stiff"), 0.5);
  EXPECT_GE(shown("F36", "tape", "tape", "chads_left"), 1);
}

TEST(VisitActs, WithUnknownWordsAreRefusedWithTheirPlace) {
  const BenchLibrary& bench = BenchLibrary::get();
  for (const char* text : {"visit: [{command: fly}]", "visit: [{command: wind, if_still: moon}]",
                           "visit: [{command: wind, where: {moon: full}}]", "visit: {a: b}"}) {
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    const auto root = parse_yaml(text, "test", diagnostics);
    ASSERT_TRUE(root);
    read_visit(*root->find("visit"), "test", *bench.registry().find("rewind"), mistakes);
    EXPECT_FALSE(diagnostics.empty()) << text;
  }
}

}  // namespace
}  // namespace sixty::diagnose
