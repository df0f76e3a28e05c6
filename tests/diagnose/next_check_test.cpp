// Which check is proposed, and that what is dangerous says so.
#include "sim/diagnose/next_check.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

std::vector<Proposal> proposed(const std::vector<std::string>& texts) {
  const BenchLibrary& bench = BenchLibrary::get();
  std::vector<Observation> all;
  for (const std::string& text : texts) all.push_back(bench.observed(text));
  return next_checks(bench.library(), rank(bench.library(), all, {}), all, bench.checks(), 10);
}

TEST(NextChecks, TellSomethingAndTheOneThatIsWorthMostComesFirst) {
  const auto all = proposed({"at: bell, sign: silent"});
  ASSERT_FALSE(all.empty());
  for (std::size_t k = 0; k < all.size(); ++k) {
    EXPECT_GT(all[k].gain_bits, 0);
    EXPECT_GT(all[k].cost, 0);
    if (k > 0) {
      EXPECT_LE(worth_min(all[k]), worth_min(all[k - 1]) + 1e-9);
    }
  }
}

TEST(NextChecks, DoNotAskWhatIsKnown) {
  const Library& library = BenchLibrary::get().library();
  for (const Proposal& one :
       proposed({"at: bell, sign: silent", "at: zone_switch, sign: position_odd, answer: no"})) {
    const SignAt& at = library.signs[one.sign];
    EXPECT_FALSE(library.installation->parts[at.part].name == "zone_switch" &&
                 at.sign->name == "position_odd");
  }
}

/// Master stands, nothing winds it: somebody follows the volts.
TEST(NextChecks, OfACircuitShowWhatOthersShowAlongIt) {
  const Library& library = BenchLibrary::get().library();
  std::size_t met = 0;
  for (const Proposal& one : proposed({"at: movement, sign: stands", "at: rewind, sign: misses"})) {
    if (one.check->covers != Check::Covers::kCircuit) continue;
    ++met;
    const auto whose = library.installation->find_id(one.place);
    ASSERT_TRUE(whose) << one.place;
    const std::vector<PartId>& circuit = library.circuits[*whose];
    std::set<std::string> checks;
    for (const std::size_t k : one.signs) {
      EXPECT_TRUE(std::binary_search(circuit.begin(), circuit.end(), library.signs[k].part));
      checks.insert(library.signs[k].sign->check);
    }
    EXPECT_GE(checks.size(), 2u) << one.place;
    for (const std::string& id : checks)
      EXPECT_EQ(std::count(one.check->shows.begin(), one.check->shows.end(), id), 1) << id;
  }
  EXPECT_GE(met, 1u);
}

TEST(CheckBook, HasEveryCheckThatASignNames) {
  const BenchLibrary& bench = BenchLibrary::get();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const SignBook signs(bench.registry(), mistakes);
  for (const Sign& sign : signs.all())
    EXPECT_NE(bench.checks().find(sign.check), nullptr) << sign.name << " " << sign.check;
  for (const Check& check : bench.checks().all()) {
    for (const std::string& id : check.shows)
      EXPECT_NE(bench.checks().find(id), nullptr) << check.id << " " << id;
  }
}

TEST(CheckBook, SaysHowToTakeCareWhereverSomethingCanHurt) {
  for (const Check& check : BenchLibrary::get().checks().all()) {
    EXPECT_EQ(check.risk > 0, !check.hazard.empty()) << check.id;
    EXPECT_EQ(check.hazard.empty(), check.care.empty()) << check.id;
  }
}

TEST(CheckBook, ASafeCheckCostsLessThanADangerousOneOfTheSameLength) {
  Check safe, dangerous;
  safe.minutes = dangerous.minutes = 5;
  dangerous.risk = 0.2;
  EXPECT_LT(cost_min(safe), cost_min(dangerous));
}

}  // namespace
}  // namespace sixty::diagnose
