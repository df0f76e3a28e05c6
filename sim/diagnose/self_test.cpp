#include "sim/diagnose/self_test.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>

#include "sim/base/hash.hpp"
#include "sim/base/rng.hpp"
#include "sim/diagnose/ambiguity.hpp"
#include "sim/diagnose/in_parallel.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::uint32_t kWhich = 100;  // stream of draws, apart from those of reports
constexpr double kConfident = 0.9;
constexpr std::size_t kBins = 10;

/// What counts as an answer to one trial: those that nothing tells apart are one.
class Answers {
 public:
  Answers(const Library& library, const std::vector<std::size_t>& groups, const Trial& trial)
      : library_(library), groups_(groups), trial_(trial) {
    for (const Truth& truth : trial.truths) {
      std::vector<bool>& right = right_.emplace_back();
      const std::vector<bool> same = cannot_be_told_from(library, truth.departures);
      for (std::size_t k = 0; k < same.size(); ++k)
        right.push_back(same[k] || groups[k] == groups[truth.suspect]);
    }
  }

  struct Group {
    double probability = 0;
    bool right = false;
    std::size_t first = 0;  ///< its likeliest suspect
  };
  /// The likeliest first.
  std::vector<Group> of(const Ranking& ranking) const {
    std::map<std::vector<std::size_t>, Group> sums;
    for (const Ranked& one : ranking.ranked) {
      const bool right = is_right(one);
      std::vector<std::size_t> key;  // of the right ones none
      for (const std::size_t suspect : one.suspects()) {
        if (!right) key.push_back(groups_[suspect]);
      }
      std::sort(key.begin(), key.end());
      const auto [at, added] = sums.try_emplace(key, Group{});
      if (added) at->second = {0, right, one.suspect};
      at->second.probability += one.probability;
    }
    std::vector<Group> all;
    for (const auto& [group, sum] : sums) all.push_back(sum);
    std::stable_sort(all.begin(), all.end(),
                     [](const Group& a, const Group& b) { return a.probability > b.probability; });
    return all;
  }

  void judge(const Ranking& ranking, Tried& tried) const {
    const std::vector<Group> all = of(ranking);
    double squares = 0;
    for (std::size_t k = 0; k < all.size(); ++k) {
      if (all[k].right) {
        tried.place = k + 1;
        tried.p_true = all[k].probability;
      }
      const double off = all[k].probability - (all[k].right ? 1 : 0);
      squares += off * off;
    }
    tried.brier =
        squares + ranking.none_of_these * ranking.none_of_these + ranking.sound * ranking.sound;
    tried.first = all.front().first;
    tried.first_right = all.front().right;
    tried.p_first = all.front().probability;
    tried.none_first = ranking.none_of_these > all.front().probability;
    tried.none_in_two = all.size() < 2 || ranking.none_of_these > all[1].probability;
    tried.all_in_five = all_among(ranking, 5);
    tried.part_in_three = false;
    for (std::size_t k = 0; k < 3 && k < ranking.ranked.size(); ++k) {
      for (const std::size_t suspect : ranking.ranked[k].suspects()) {
        if (library_.suspects[suspect].part == part_of(trial_.truths.front()))
          tried.part_in_three = true;
      }
    }
  }

 private:
  /// Whether every truth is a suspect of the first so many, alone or in a pair.
  bool all_among(const Ranking& ranking, std::size_t first) const {
    return std::all_of(right_.begin(), right_.end(), [&](const std::vector<bool>& right) {
      for (std::size_t k = 0; k < std::min(first, ranking.ranked.size()); ++k) {
        for (const std::size_t suspect : ranking.ranked[k].suspects()) {
          if (right[suspect]) return true;
        }
      }
      return false;
    });
  }

  PartId part_of(const Truth& truth) const { return library_.suspects[truth.suspect].part; }

  bool is_right(const Ranked& one) const {
    if (one.second.has_value() != (trial_.truths.size() > 1)) return false;
    if (!one.second) return right_[0][one.suspect];
    return (right_[0][one.suspect] && right_[1][*one.second]) ||
           (right_[1][one.suspect] && right_[0][*one.second]);
  }

  const Library& library_;
  const std::vector<std::size_t>& groups_;
  const Trial& trial_;
  std::vector<std::vector<bool>> right_;  ///< of each truth: by suspect
};

/// One trial, from what is told to what is checked.
class Attempt {
 public:
  Attempt(const Library& library, const SelfTestPlan& plan, std::size_t number, const Trial& trial,
          const CheckBook& checks, SelfTest& test)
      : library_(library),
        plan_(plan),
        number_(number),
        trial_(trial),
        checks_(checks),
        answers_(library, test.groups, trial),
        tried_(test.tried[number]),
        ranking_(plan.ranking) {
    if (plan.left_out)
      ranking_.without = library.suspects[trial.truths.front().suspect].fault.get();
  }

  void make() {
    for (const Truth& truth : trial_.truths)
      tried_.truths.emplace_back(truth.suspect, truth.manner.severity);
    tried_.told = reports_of(library_, trial_.departures, plan_.telling, plan_.seed, number_);
    if (tried_.told.empty()) return;
    ask();
    if (plan_.inverted) invert_one();
    check();
  }

 private:
  void ask() {
    std::size_t asked = tried_.told.size();
    for (; asked < plan_.observations; ++asked) {
      const Ranking ranking = rank(library_, tried_.told, ranking_);
      const auto next = next_questions(library_, ranking, tried_.told, checks_, 1);
      if (next.empty()) return;
      const Sign& sign = *library_.signs[next.front().sign].sign;
      const auto said =
          answers_of(library_, trial_.departures, sign, plan_.telling, plan_.seed, number_);
      if (said.empty()) {
        Observation one = observation_at(next.front().place, next.front().signs, library_.signs);
        one.how = Observation::How::kUnseen;
        tried_.told.push_back(std::move(one));
        continue;
      }
      tried_.told.insert(tried_.told.end(), said.begin(), said.end());
    }
  }

  void invert_one() {
    const double u = uniform_draw(plan_.seed, number_, kWhich, 0);
    const auto count = static_cast<double>(tried_.told.size());
    invert(tried_.told[static_cast<std::size_t>(u * count)]);
  }

  /// Goes on checking what is proposed until one answer is all but sure.
  void check() {
    std::vector<Observation> known = tried_.told;
    tried_.checks = kMostChecks;
    for (std::size_t made = 0; made <= kMostChecks; ++made) {
      const Ranking ranking = rank(library_, known, ranking_);
      if (made == 0)
        tried_.costs = cure_costs(library_, ranking, known, checks_, mix(plan_.seed, number_));
      if (made <= plan_.checks) answers_.judge(ranking, tried_);
      const bool sure = answers_.of(ranking).front().probability >= kConfident;
      if (sure) tried_.checks = std::min(tried_.checks, made);
      if (sure && made >= plan_.checks) return;
      const auto next = next_checks(library_, ranking, known, checks_, 1);
      if (next.empty()) return;
      const auto found =
          found_by_check(library_, trial_.departures, next.front().signs, plan_.seed, number_);
      known.insert(known.end(), found.begin(), found.end());
      if (made >= plan_.checks) continue;
      tried_.told.insert(tried_.told.end(), found.begin(), found.end());
      tried_.made.push_back(next.front().check->id + " " + next.front().place);
    }
  }

  const Library& library_;
  const SelfTestPlan& plan_;
  std::size_t number_;
  const Trial& trial_;
  const CheckBook& checks_;
  Answers answers_;
  Tried& tried_;
  RankingOptions ranking_;
};

Scores scores_of(const std::vector<Tried>& tried) {
  Scores s;
  std::vector<std::pair<double, bool>> stated;
  for (const Tried& one : tried) {
    const bool right = one.first_right;
    s.top1 += one.place == 1;
    s.top3 += one.place >= 1 && one.place <= 3;
    s.top5 += one.place >= 1 && one.place <= 5;
    s.all5 += one.all_in_five;
    s.part3 += one.part_in_three || (one.place >= 1 && one.place <= 3);
    s.mean_p_true += one.p_true;
    s.brier += one.brier;
    s.confidently_wrong += !right && one.p_first > kConfident;
    s.none_first += one.none_first;
    s.none_in_two += one.none_in_two;
    s.mean_checks += static_cast<double>(one.checks);
    stated.emplace_back(one.p_first, right);
  }
  const auto count = static_cast<double>(std::max<std::size_t>(tried.size(), 1));
  for (double* mean : {&s.top1, &s.top3, &s.top5, &s.all5, &s.part3, &s.mean_p_true, &s.brier,
                       &s.confidently_wrong, &s.none_first, &s.none_in_two, &s.mean_checks})
    *mean /= count;
  s.ece = calibration_error(std::move(stated));
  return s;
}

void add_scores_by_fault(const Library& library, SelfTest& test) {
  Scores& s = test.scores;
  double in_three = 0;
  for (const Tried& one : test.tried) {
    if (library.suspects[one.truths.front().first].fault->acts.empty()) continue;
    ++s.by_hand;
    in_three += one.place >= 1 && one.place <= 3;
  }
  s.by_hand_in_three = s.by_hand == 0 ? 0 : in_three / static_cast<double>(s.by_hand);
  const auto faults = test.per_fault(library);
  for (const auto& [number, of] : faults) {
    s.top1_by_fault +=
        static_cast<double>(of.right) / of.cases / static_cast<double>(faults.size());
    s.top3_by_fault +=
        static_cast<double>(of.in_three) / of.cases / static_cast<double>(faults.size());
  }
}

}  // namespace

std::map<std::string, OfFault> SelfTest::per_fault(const Library& library) const {
  std::map<std::string, OfFault> all;
  for (const Tried& one : tried) {
    OfFault& of = all[library.suspects[one.truths.front().first].fault->number];
    ++of.cases;
    of.right += one.place == 1 ? 1 : 0;
    of.in_three += one.place >= 1 && one.place <= 3 ? 1 : 0;
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

SelfTest self_test(const Library& library, const std::vector<Trial>& trials,
                   const SelfTestPlan& plan, const CheckBook& checks, const OnProgress& told) {
  SelfTest test;
  test.groups = groups_of(library);
  test.tried.resize(trials.size());
  std::size_t done = 0;
  std::mutex speaking;
  in_parallel(trials.size(), plan.threads, [&](std::size_t k) {
    Attempt(library, plan, k, trials[k], checks, test).make();
    const std::lock_guard lock(speaking);
    if (told) told(++done, trials.size());
  });
  test.scores = scores_of(test.tried);
  for (const Tried& one : test.tried) test.costs += one.costs;
  add_scores_by_fault(library, test);
  return test;
}

}  // namespace sixty::diagnose
