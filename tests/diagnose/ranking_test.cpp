// What simulated runs make of reports whose cause is known.
#include "sim/diagnose/ranking.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "sim/diagnose/self_test.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

Ranking ranked(const std::vector<std::string>& texts) { return BenchLibrary::get().ranked(texts); }

/// From 1.
std::size_t place_of(const Ranking& ranking, const std::string& fault, const std::string& part) {
  const std::size_t suspect = BenchLibrary::get().suspect(fault, part);
  for (std::size_t k = 0; k < ranking.ranked.size(); ++k) {
    if (ranking.ranked[k].suspect == suspect) return k + 1;
  }
  return 0;
}

TEST(Ranking, AddsUpToOne) {
  const Ranking ranking = ranked({"at: bell, sign: silent"});
  expect_beliefs(ranking);
}

TEST(Ranking, OfOneClockThatStandsWhileItsNeighbourGoesNamesThatClock) {
  const Ranking ranking = ranked(
      {"at: workshop_clock, sign: stands", "at: hall_clock, sign: slow, answer: no",
       "at: bell, sign: silent, answer: no", "at: workshop_clock, sign: current_odd, reads: 0 A",
       "at: line_far, sign: resistance_high, answer: no"});
  EXPECT_LE(place_of(ranking, "F62", "workshop_clock"), 3u);  // its coil is open
}

TEST(Ranking, OfAllClocksThatStandBlamesWhatTheyHaveInCommon) {
  const Ranking ranking =
      ranked({"at: all secondary, sign: stands", "at: minute_relay, sign: misses",
              "at: bell, sign: silent, answer: no", "at: movement, sign: stands, answer: no",
              "at: minute_relay, sign: current_odd, reads: 0 A"});
  const std::string leader =
      BenchLibrary::get()
          .library()
          .installation
          ->parts[BenchLibrary::get().library().suspects[ranking.ranked.front().suspect].part]
          .name;
  EXPECT_TRUE(leader == "minute_relay" || leader == "arm_b") << leader;
}

TEST(Ranking, ASilentBellWithItsSwitchFoundOffIsTheSwitch) {
  const Ranking ranking = ranked({"at: bell, sign: silent", "at: zone_switch, sign: position_odd"});
  EXPECT_EQ(place_of(ranking, "F44", "zone_switch"), 1u);
  EXPECT_GT(ranking.ranked.front().probability, 0.5);
}

TEST(Ranking, OneOddReportDoesNotKillTheTruth) {
  const Ranking ranking = ranked({"at: bell, sign: silent", "at: zone_switch, sign: position_odd",
                                  "at: hall_clock, sign: fast"});  // nobody's switch does that
  EXPECT_LE(place_of(ranking, "F44", "zone_switch"), 3u);
}

TEST(Ranking, WhatNothingExplainsIsSaid) {
  const Ranking ranking = ranked({"at: bell, sign: silent", "at: zone_switch, sign: position_odd",
                                  "at: hall_clock, sign: fast"});
  ASSERT_FALSE(ranking.unexplained.empty());
  EXPECT_EQ(ranking.unexplained.back(), 2u);
}

TEST(Ranking, WhereAllIsRightNothingIsTheMatterGainsMost) {
  const Ranking ranking = ranked(
      {"at: all secondary, sign: slow, answer: no", "at: all secondary, sign: fast, answer: no",
       "at: bell, sign: silent, answer: no", "at: movement, sign: stands, answer: no",
       "at: tape, sign: late, answer: no", "at: rewind, sign: misses, answer: no"});
  EXPECT_GT(ranking.sound, 0.01);  // its prior
}

TEST(Library, IsTheSameForAnyNumberOfThreads) {
  const BenchLibrary& bench = BenchLibrary::get();
  Library one, two;
  for (Library* library : {&one, &two}) {
    *library = bench.with_specimens();
    library->suspects = {bench.library().suspects[bench.suspect("F44", "zone_switch")],
                         bench.library().suspects[bench.suspect("F13", "arm_b")]};
    LibraryPlan plan = bench.plan();
    plan.threads = library == &one ? 1 : 3;
    fill_library(*library, plan, {});
  }
  ASSERT_EQ(one.runs.size(), two.runs.size());
  for (std::size_t k = 0; k < one.runs.size(); ++k)
    EXPECT_EQ(one.runs[k].departures, two.runs[k].departures);
}

TEST(Library, ARunWithNothingOfTheFaultLeftIsLikeASoundOne) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.with_specimens();
  Bench used(library, library.specimens.front());
  const Suspect& suspect = library.suspects[bench.suspect("F44", "zone_switch")];
  used.departures_with(suspect, {1, 0, {}});
  // What was put in last must not be met by the next.
  const auto again = used.departures_with(suspect, {1, library.watch.until - kSecond, {}});
  Bench fresh(library, BenchLibrary::get().unused_specimen());
  EXPECT_EQ(again, fresh.departures_with(suspect, {1, library.watch.until - kSecond, {}}));
}

TEST(Prior, OfAFaultIsSharedAmongThePartsThatItCanStrike) {
  const BenchLibrary& bench = BenchLibrary::get();
  const auto& prior = bench.library().prior;
  const double one_clock = prior[bench.suspect("F32", "hall_clock")];
  const double movement = prior[bench.suspect("F01", "movement")];
  EXPECT_NEAR(2 * one_clock, movement, 1e-12);  // both are frequent, and there are two clocks
  EXPECT_NEAR(std::accumulate(prior.begin(), prior.end(), 0.0), 1, 1e-9);
}

TEST(SelfTest, IsMostlyRightOnTheBench) {
  TrialPlan trial;
  trial.cases = 80;
  trial.seed = 7;
  const SelfTest test = BenchLibrary::get().tried(trial, 7);
  EXPECT_GE(test.scores.top1, 0.5);
  EXPECT_GE(test.scores.top3, 0.65);
  EXPECT_GE(test.scores.mean_p_true, 0.45);
  EXPECT_LE(test.scores.confidently_wrong, 0.1);
  EXPECT_LE(test.scores.none_first, 0.12);
}

TEST(CalibrationError, IsTheDistanceOfStatedFromFound) {
  std::vector<std::pair<double, bool>> honest, boastful;
  for (int k = 0; k < 100; ++k) {
    honest.emplace_back(0.8, k % 5 != 0);
    boastful.emplace_back(0.9, k % 2 == 0);
  }
  EXPECT_NEAR(calibration_error(honest), 0, 1e-9);
  EXPECT_NEAR(calibration_error(boastful), 0.4, 1e-9);
}

}  // namespace
}  // namespace sixty::diagnose
