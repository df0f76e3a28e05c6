#include "sim/diagnose/cure_cost.hpp"

#include <algorithm>
#include <numeric>
#include <set>

#include "sim/base/rng.hpp"
#include "sim/diagnose/cure_search.hpp"
#include "sim/diagnose/outlook.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kSuspects = 8, kLookedThrough = 24, kFewest = 3;
constexpr std::uint32_t kOrders = 20;

/// Some suspects, each with the run that fits best.
Ranking only(const Ranking& ranking, const Left& which) {
  Ranking some;
  double sum = 0;
  for (const std::size_t k : which) {
    Ranked one = ranking.ranked[k];
    const auto best = std::max_element(one.runs.begin(), one.runs.end(),
                                       [](auto& a, auto& b) { return a.second < b.second; });
    one.runs = {{best->first, 1.0}};
    sum += one.probability;
    some.ranked.push_back(std::move(one));
  }
  for (Ranked& one : some.ranked) one.probability /= sum;
  return some;
}

std::vector<Splitting> splittings(const Library& library, const Ranking& few,
                                  const std::vector<Observation>& told, const CheckBook& checks) {
  const Outlook outlook(library, few);
  std::vector<Splitting> all;
  for (const Proposal& one : possible_checks(library, told, checks)) {
    const std::vector<std::size_t> outcome = outlook.answers(one.signs).of_run;
    const std::set<std::size_t> outcomes(outcome.begin(), outcome.end());
    if (outcomes.size() > 1) all.push_back({one.cost, outcome});
  }
  return all;
}

/// The likeliest that checks can tell from each other.
Left told_apart(const Library& library, const Ranking& ranking,
                const std::vector<Observation>& told, const CheckBook& checks) {
  Left singles;
  for (std::size_t k = 0; k < ranking.ranked.size() && singles.size() < kLookedThrough; ++k) {
    if (!ranking.ranked[k].second) singles.push_back(k);
  }
  if (singles.empty()) return {};
  const auto all = splittings(library, only(ranking, singles), told, checks);
  Left few;
  std::set<std::vector<std::size_t>> met;
  for (std::size_t k = 0; k < singles.size() && few.size() < kSuspects; ++k) {
    std::vector<std::size_t> shows;
    for (const Splitting& one : all) shows.push_back(one.outcome[k]);
    if (met.insert(shows).second) few.push_back(singles[k]);
  }
  return few;
}

/// What it comes to when what is proposed is done, while it is worth more than it costs.
class Proposed {
 public:
  Proposed(const Library& library, const Ranking& few, const CheckBook& checks,
           const CureSearch& search)
      : library_(library), few_(few), checks_(checks), search_(search), outlook_(library, few) {}

  /// `known`: what was told and found.
  double cost_min(const Left& left, const std::vector<Observation>& known) const {
    if (left.size() < 2) return 0;
    const auto best = next_checks(library_, only(few_, left), known, checks_, 1);
    if (best.empty() || worth_min(best.front()) <= 0)
      return search_.at_first_min(left, cost_min(without(left, 0), known));
    const Proposal& next = best.front();
    std::vector<Observation> further = known;
    for (const std::size_t sign : next.signs)
      further.push_back(observation_at(next.place, {sign}, library_.signs));
    double sum = next.cost;
    for (const Left& part : split(left, outlook_.answers(next.signs).of_run))
      sum += search_.share(part, left) * cost_min(part, further);
    return sum;
  }

 private:
  const Library& library_;
  const Ranking& few_;
  const CheckBook& checks_;
  const CureSearch& search_;
  Outlook outlook_;
};

std::vector<std::size_t> shuffled(std::size_t count, std::uint64_t seed, std::uint32_t stream) {
  std::vector<std::pair<double, std::size_t>> drawn;
  for (std::size_t k = 0; k < count; ++k) drawn.emplace_back(uniform_draw(seed, k, stream, 0), k);
  std::sort(drawn.begin(), drawn.end());
  std::vector<std::size_t> order;
  for (const auto& [draw, k] : drawn) order.push_back(k);
  return order;
}

}  // namespace

CureCosts cure_costs(const Library& library, const Ranking& ranking,
                     const std::vector<Observation>& told, const CheckBook& checks,
                     std::uint64_t seed) {
  CureCosts costs;
  const Left chosen = told_apart(library, ranking, told, checks);
  if (chosen.size() < kFewest) return costs;
  const Ranking few = only(ranking, chosen);
  std::vector<double> beliefs;
  for (const Ranked& one : few.ranked) beliefs.push_back(one.probability);
  CureSearch search(std::move(beliefs), splittings(library, few, told, checks));
  const Left all = search.everybody();
  costs.cases = 1;
  costs.proposed = Proposed(library, few, checks, search).cost_min(all, told);
  costs.exhaustive = search.least_min(all);
  std::vector<std::size_t> in_book(search.checks());
  std::iota(in_book.begin(), in_book.end(), 0U);
  costs.checklist = search.in_order_min(all, in_book, 0);
  for (std::uint32_t k = 0; k < kOrders; ++k)
    costs.random += search.in_order_min(all, shuffled(search.checks(), seed, k), 0) / kOrders;
  return costs;
}

CureCosts& operator+=(CureCosts& sum, const CureCosts& one) {
  sum.cases += one.cases;
  sum.proposed += one.proposed;
  sum.exhaustive += one.exhaustive;
  sum.checklist += one.checklist;
  sum.random += one.random;
  return sum;
}

}  // namespace sixty::diagnose
