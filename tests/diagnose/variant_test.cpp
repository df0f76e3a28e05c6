// Cases from a world that is not as the model has it.
#include <gtest/gtest.h>

#include <algorithm>

#include "sim/diagnose/library_file.hpp"
#include "sim/diagnose/self_test.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

TrialPlan plan_under(const Assumptions& assumptions, std::size_t cases) {
  TrialPlan plan;
  plan.cases = cases;
  plan.seed = 11;
  plan.assumptions = assumptions;
  return plan;
}

std::vector<Trial> trials_under(const TrialPlan& plan) { return BenchLibrary::get().trials(plan); }

void expect_same(const std::vector<Trial>& a, const std::vector<Trial>& b) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t k = 0; k < a.size(); ++k) {
    EXPECT_EQ(a[k].truths.front().suspect, b[k].truths.front().suspect);
    EXPECT_EQ(a[k].departures, b[k].departures);
  }
}

TEST(Variant, CasesAreTheSameForAnyNumberOfThreads) {
  TrialPlan plan = plan_under(variant_assumptions(), 6);
  plan.threads = 1;
  const auto one = trials_under(plan);
  plan.threads = 3;
  expect_same(one, trials_under(plan));
}

TEST(Variant, CasesAreOthersThanTheModels) {
  const auto own = trials_under(plan_under(own_assumptions(), 4));
  const auto variant = trials_under(plan_under(variant_assumptions(), 4));
  bool differ = false;
  for (std::size_t k = 0; k < own.size(); ++k)
    differ = differ || own[k].departures != variant[k].departures;
  EXPECT_TRUE(differ);
}

TEST(Variant, PartsStrayAsFarAsItsAssumptionsSay) {
  TrialPlan plan = plan_under(variant_assumptions(), 3);
  const auto unsaid = trials_under(plan);
  plan.vary = 0.4;
  expect_same(unsaid, trials_under(plan));
}

TEST(Variant, MoreOfAFaultThanItsSheetSaysIsMore) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.with_specimens();
  Bench used(library, library.specimens.front());
  const Suspect& suspect = library.suspects[bench.suspect("F48", "movement")];
  EXPECT_NE(used.departures_with(suspect, {1, 0, {}}),
            used.departures_with(suspect, {1.25, 0, {}}));
}

TEST(Variant, SeveritiesGoAQuarterBeyondTheSheets) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Fault& film = *bench.library().suspects[bench.suspect("F13", "arm_b")].fault;
  double own = 0, variant = 0;
  for (std::uint64_t who = 0; who < 500; ++who) {
    const auto worst = [&](double so_far, const Assumptions& assumptions) {
      const double largest = assumptions.largest_severity;
      return std::max(so_far, drawn_manner(film, kDay, 1, who, largest).severity);
    };
    own = worst(own, own_assumptions());
    variant = worst(variant, variant_assumptions());
  }
  EXPECT_LE(own, 1);
  EXPECT_GT(variant, 1.2);
  EXPECT_LE(variant, 1.25);
}

TEST(Variant, ASoundInstallationOfItIsJudgedAgainstItself) {
  const BenchLibrary& bench = BenchLibrary::get();
  LibraryPlan plan = bench.plan();
  plan.changes.assumptions = variant_assumptions();
  plan.vary = variant_assumptions().parts_stray;
  const auto specimens = specimens_of(bench.library(), plan, 5'000'000, 4, bench.registry());
  ASSERT_EQ(specimens.all.size(), 4u);
  const auto known = specimens.known(bench.library().usual, bench.library().signs);
  for (std::size_t k = 0; k < known.size(); ++k) {
    EXPECT_STREQ(specimens.all[k]->assumptions.name, "variant");
    for (const Sighting& seen : specimens.seen[k]) {
      const auto all = departures(seen, known[k].usual, bench.library().signs);
      EXPECT_FALSE(anything_shows(bench.library(), {all})) << k;
    }
  }
}

TEST(Variant, TheLibraryIsTheModelsOwnAndItsKeyTellsItFromAnyOther) {
  const BenchLibrary& bench = BenchLibrary::get();
  EXPECT_STREQ(bench.library().installation->assumptions.name, "own");
  const std::uint64_t key = key_of(bench.library(), bench.plan());
  const auto before = bench.library().runs;
  trials_under(plan_under(variant_assumptions(), 2));
  EXPECT_EQ(key_of(bench.library(), bench.plan()), key);
  ASSERT_EQ(bench.library().runs.size(), before.size());
  for (std::size_t k = 0; k < before.size(); ++k)
    EXPECT_EQ(bench.library().runs[k].departures, before[k].departures);
  Library other = bench.library();
  SceneChanges changes = as_watched(bench.plan());
  changes.assumptions.name = "stickier";
  changes.assumptions.friction.stiction = 2;
  Diagnostics diagnostics;
  other.installation = load_scene(bench.plan().path, bench.registry(), changes, diagnostics);
  EXPECT_NE(key_of(other, bench.plan()), key);
}

TEST(Variant, IsStillMostlyRightOnTheBench) {
  const SelfTest test = BenchLibrary::get().tried(plan_under(variant_assumptions(), 40), 11);
  EXPECT_GE(test.scores.top1, 0.25);
  EXPECT_GE(test.scores.top3, 0.4);
  EXPECT_LE(test.scores.confidently_wrong, 0.25);
}

}  // namespace
}  // namespace sixty::diagnose
