// What is told before a library is whole.
#include <gtest/gtest.h>

#include <algorithm>

#include "sim/diagnose/ranking.hpp"
#include "sim/diagnose/urgency.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

Library of_few_suspects() {
  const BenchLibrary& bench = BenchLibrary::get();
  Library library = bench.with_specimens();
  library.suspects = {bench.library().suspects[bench.suspect("F44", "zone_switch")],
                      bench.library().suspects[bench.suspect("F13", "arm_b")],
                      bench.library().suspects[bench.suspect("F42", "bell")]};
  library.prior = prior_of(library.suspects);
  return library;
}

LibraryPlan few_runs() {
  LibraryPlan plan = BenchLibrary::get().plan();
  plan.runs = 24;
  return plan;
}

TEST(Early, TellingChangesNothingInTheLibrary) {
  const LibraryPlan plan = few_runs();
  Library plainly = of_few_suspects(), early = of_few_suspects();
  fill_library(plainly, plan, {});
  std::size_t told = 0, before = 0;
  Early tell;
  tell.urgency = {1, 3, 2};
  tell.told = [&](const Library& so_far) {
    ++told;
    EXPECT_LT(so_far.runs.size(), plainly.runs.size());
    EXPECT_GE(so_far.runs.size(), before);
    before = so_far.runs.size();
    EXPECT_FALSE(so_far.cases.empty());
  };
  fill_library(early, plan, {}, tell);
  EXPECT_EQ(told, 3u);  // the urgent ones, the first of each, and those over all severities
  ASSERT_EQ(plainly.runs.size(), early.runs.size());
  for (std::size_t k = 0; k < early.runs.size(); ++k)
    EXPECT_EQ(plainly.runs[k].departures, early.runs[k].departures);
}

TEST(Early, LibrariesRankWhatTheyHaveRunsOf) {
  const LibraryPlan plan = few_runs();
  Library library = of_few_suspects();
  Early tell;
  tell.urgency = {0, 0, 1};
  const std::vector<Observation> seen{BenchLibrary::get().observed("at: bell, sign: mute")};
  tell.told = [&](const Library& so_far) {
    const Ranking ranking = rank(so_far, seen, {});
    EXPECT_EQ(so_far.suspects[ranking.ranked.front().suspect].fault->number, "F42");
  };
  fill_library(library, plan, {}, tell);
}

TEST(Urgency, IsHighestAtWhatWasNamedThenInItsCircuit) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.library();
  const auto urgency = urgency_of(library, {bench.observed("at: bell, sign: mute")});
  const auto nearness = [&](const char* fault, const char* part) {
    const std::size_t k = bench.suspect(fault, part);
    return urgency[k] / library.prior[k];
  };
  EXPECT_GT(nearness("F42", "bell"), nearness("F58", "zone_relay"));
  EXPECT_GT(nearness("F58", "zone_relay"), nearness("F62", "hall_clock"));
}

}  // namespace
}  // namespace sixty::diagnose
