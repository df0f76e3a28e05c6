// What differs from week to week in a sound installation is no sign of anything.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::uint64_t kFirst = 7'000'000;

TEST(Weeks, AreOfOneSpecimenThatIsALittleOther) {
  const BenchLibrary& bench = BenchLibrary::get();
  SceneChanges changes = as_watched(bench.plan());
  Diagnostics diagnostics;
  changes.specimen = Specimen{3, 0.2, 0};
  const auto first = load_scene(bench.plan().path, bench.registry(), changes, diagnostics);
  changes.specimen->week = 1;
  const auto second = load_scene(bench.plan().path, bench.registry(), changes, diagnostics);
  changes.specimen = Specimen{4, 0.2, 0};
  const auto other = load_scene(bench.plan().path, bench.registry(), changes, diagnostics);
  ASSERT_TRUE(first && second && other);
  double most = 0, most_other = 0;
  for (std::size_t k = 0; k < first->network->coils.size(); ++k) {
    const double own_ohm = first->network->coils[k].resistance_ohm;
    const auto strays = [&](const Installation& of) {
      return std::fabs(of.network->coils[k].resistance_ohm / own_ohm - 1);
    };
    most = std::max(most, strays(*second));
    most_other = std::max(most_other, strays(*other));
  }
  EXPECT_GT(most, 0);
  EXPECT_LT(most, 0.015);  // a hundredth, of values that stray by up to a fifth
  EXPECT_GT(most_other, 0.03);
  EXPECT_NE(first->seed, second->seed);
}

TEST(Weeks, WhoHasSeenSeveralTakesNoneForASign) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.library();
  const auto specimens = specimens_of(library, bench.plan(), kFirst, 4, bench.registry());
  bool would_have = false;
  for (const std::vector<Sighting>& weeks : specimens.seen) {
    ASSERT_EQ(weeks.size(), 3u);
    const auto usual = usual_with(weeks, library.usual, library.signs);
    const auto of_one = usual_with({weeks.front()}, library.usual, library.signs);
    for (const Sighting& week : weeks) {
      EXPECT_FALSE(anything_shows(library, {departures(week, usual, library.signs)}));
      would_have = would_have || anything_shows(library, {departures(week, of_one, library.signs)});
    }
  }
  EXPECT_TRUE(would_have);  // or else there is no need to look so often
}

}  // namespace
}  // namespace sixty::diagnose
