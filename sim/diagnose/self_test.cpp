#include "sim/diagnose/self_test.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "sim/base/rng.hpp"
#include "sim/diagnose/ambiguity.hpp"

namespace sixty::diagnose {
namespace {

enum Stream : std::uint32_t { kWhich, kManner };

constexpr std::size_t kSpecimens = 12;
constexpr std::uint64_t kFirstSpecimen = 1'000'000;    // none of the library's
constexpr std::size_t kSuspects = 8, kSeverities = 6;  // tried until something shows
constexpr double kConfident = 0.9;
constexpr std::size_t kBins = 10;

std::size_t drawn_by(const std::vector<double>& prior, double u) {
  double sum = 0;
  for (std::size_t k = 0; k < prior.size(); ++k) {
    sum += prior[k];
    if (u < sum) return k;
  }
  return prior.size() - 1;
}

/// A ranking in which those that nothing tells apart stand together, under their first.
std::vector<std::pair<double, std::size_t>> by_group(const Ranking& ranking,
                                                     const std::vector<std::size_t>& groups) {
  std::map<std::size_t, double> sums;
  for (const Ranked& one : ranking.ranked) sums[groups[one.suspect]] += one.probability;
  std::vector<std::pair<double, std::size_t>> all;
  for (const auto& [group, sum] : sums) all.emplace_back(sum, group);
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  return all;
}

void judge(const Library& library, const Ranking& ranking, const std::vector<std::size_t>& groups,
           Tried& tried) {
  const auto all = by_group(ranking, groups);
  const std::size_t truth = groups[tried.truth];
  double squares = 0;
  for (std::size_t k = 0; k < all.size(); ++k) {
    const bool right = all[k].second == truth;
    if (right) {
      tried.place = k + 1;
      tried.p_true = all[k].first;
    }
    squares += (all[k].first - (right ? 1 : 0)) * (all[k].first - (right ? 1 : 0));
  }
  tried.brier =
      squares + ranking.none_of_these * ranking.none_of_these + ranking.sound * ranking.sound;
  tried.first = all.front().second;
  tried.p_first = all.front().first;
  tried.none_first = ranking.none_of_these > all.front().first;
  for (std::size_t k = 0; k < 3 && k < ranking.ranked.size(); ++k) {
    if (library.suspects[ranking.ranked[k].suspect].part == library.suspects[tried.truth].part)
      tried.part_in_three = true;
  }
}

/// Puts a suspect in with one severity after another until something shows. Returns whether it did.
bool show(const Library& library, const SelfTestPlan& plan, std::uint64_t number, Bench& bench,
          Tried& one, std::vector<float>& departures) {
  const Suspect& suspect = library.suspects[one.truth];
  const bool degrees = has_degrees(*suspect.fault);
  for (std::size_t attempt = 0; attempt < (degrees ? kSeverities : 1); ++attempt) {
    const std::uint64_t who = number * kSeverities + attempt;
    one.manner = manners_of(*suspect.fault, 1, library.watch.until, plan.seed, who).front();
    if (degrees) one.manner.severity = uniform_draw(plan.seed, who, kManner, 0);
    departures = bench.departures_with(suspect, one.manner);
    if (anything_shows(library, departures)) return true;
  }
  return false;
}

/// Goes on checking what is proposed until one group is all but sure.
void check_on(const Library& library, const SelfTestPlan& plan, std::size_t k,
              const std::vector<float>& departures, const CheckBook& checks, SelfTest& test) {
  Tried& one = test.tried[k];
  std::vector<Observation> known = one.told;
  for (std::size_t made = 0;; ++made) {
    const Ranking ranking = rank(library, known, plan.ranking);
    if (made == plan.checks) judge(library, ranking, test.groups, one);
    const bool sure = by_group(ranking, test.groups).front().first >= kConfident;
    if (sure && one.checks == 0) one.checks = made + 1;
    const auto next = next_checks(library, ranking, known, checks, 1);
    if (made < plan.checks && (next.empty() || made == kMostChecks)) {
      judge(library, ranking, test.groups, one);
      break;
    }
    if ((sure && made >= plan.checks) || next.empty() || made == kMostChecks) break;
    known.push_back(found_by_check(library, departures, next.front().sign, plan.seed, k));
    if (made < plan.checks) one.told.push_back(known.back());
  }
  one.checks = one.checks == 0 ? kMostChecks : one.checks - 1;
}

/// One case: something is put in at which something shows, people tell it, and it is ranked.
void try_one(const Library& library, const SelfTestPlan& plan, std::size_t k, Bench& bench,
             const CheckBook& checks, SelfTest& test) {
  Tried& one = test.tried[k];
  std::vector<float> departures;
  for (std::size_t attempt = 0; attempt < kSuspects; ++attempt) {
    one.truth = drawn_by(library.prior, uniform_draw(plan.seed, k, kWhich, attempt));
    if (show(library, plan, k * kSuspects + attempt, bench, one, departures)) break;
  }
  one.told = reports_of(library, departures, plan.telling, plan.seed, k);
  if (!one.told.empty()) check_on(library, plan, k, departures, checks, test);
}

Scores scores_of(const std::vector<Tried>& tried, const std::vector<std::size_t>& groups) {
  Scores s;
  std::vector<std::pair<double, bool>> stated;
  for (const Tried& one : tried) {
    const bool right = one.first == groups[one.truth];
    s.top1 += one.place == 1;
    s.top3 += one.place >= 1 && one.place <= 3;
    s.part3 += one.part_in_three || (one.place >= 1 && one.place <= 3);
    s.mean_p_true += one.p_true;
    s.brier += one.brier;
    s.confidently_wrong += !right && one.p_first > kConfident;
    s.false_none += one.none_first;
    s.mean_checks += static_cast<double>(one.checks);
    stated.emplace_back(one.p_first, right);
  }
  const auto count = static_cast<double>(std::max<std::size_t>(tried.size(), 1));
  for (double* mean : {&s.top1, &s.top3, &s.part3, &s.mean_p_true, &s.brier, &s.confidently_wrong,
                       &s.false_none, &s.mean_checks})
    *mean /= count;
  s.ece = calibration_error(std::move(stated));
  return s;
}

}  // namespace

std::map<std::string, OfFault> SelfTest::per_fault(const Library& library) const {
  std::map<std::string, OfFault> all;
  for (const Tried& one : tried) {
    OfFault& of = all[library.suspects[one.truth].fault->number];
    ++of.cases;
    of.right += one.place == 1 ? 1 : 0;
  }
  return all;
}

double calibration_error(std::vector<std::pair<double, bool>> stated_and_right) {
  std::stable_sort(stated_and_right.begin(), stated_and_right.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  const std::size_t count = stated_and_right.size();
  double error = 0;
  for (std::size_t bin = 0; bin < kBins; ++bin) {
    const std::size_t first = bin * count / kBins, end = (bin + 1) * count / kBins;
    double stated = 0, right = 0;
    for (std::size_t k = first; k < end; ++k) {
      stated += stated_and_right[k].first;
      right += stated_and_right[k].second ? 1 : 0;
    }
    error += std::fabs(stated - right);
  }
  return count == 0 ? 0 : error / static_cast<double>(count);
}

SelfTest self_test(const Library& library, const LibraryPlan& made, const SelfTestPlan& plan,
                   const Registry& registry, const CheckBook& checks, const Told& told) {
  SelfTest test;
  test.groups = groups_of(library);
  LibraryPlan other = made;
  other.vary = plan.vary;
  const std::vector<Known> specimens =
      specimens_of(library, other, kFirstSpecimen + plan.seed * 1000, kSpecimens, registry)
          .known(library.usual, library.signs);
  test.tried.resize(plan.cases);
  const auto run = [&](std::size_t k, Bench& bench) {
    try_one(library, plan, k, bench, checks, test);
  };
  run_on_benches(library, specimens, plan.cases, plan.threads, run, told);
  test.scores = scores_of(test.tried, test.groups);
  return test;
}

}  // namespace sixty::diagnose
