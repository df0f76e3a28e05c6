#include "sim/diagnose/outlook.hpp"

#include <algorithm>
#include <functional>
#include <map>

#include "sim/base/math.hpp"
#include "sim/diagnose/belief.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kMostSuspects = 40;
constexpr double kMisread = 0.03;     // a look goes wrong so often
constexpr double kLeastShare = 0.02;  // runs that fit worse are not worth a thought
constexpr double kABit_min = 60;      // of looking further, till one knows (judgement)
constexpr std::size_t kGivesUp = 8;   // wrong places, at the most

}  // namespace

Outlook::Outlook(const Library& library, const Ranking& ranking) : library_(library) {
  double rest = ranking.none_of_these + ranking.sound;
  for (std::size_t k = 0; k < ranking.ranked.size(); ++k) {
    const Ranked& one = ranking.ranked[k];
    if (k >= kMostSuspects) {
      rest += one.probability;
      continue;
    }
    ++leaders_;
    if (one.second) {
      runs_.push_back({k, one.runs[0].first, one.runs[1].first});
      now_.push_back(one.probability);
      continue;
    }
    double counted = 0;
    for (const auto& [run, share] : one.runs) counted += share >= kLeastShare ? share : 0;
    for (const auto& [run, share] : one.runs) {
      if (share < kLeastShare) continue;
      runs_.push_back({k, run, run});
      now_.push_back(share / counted * one.probability);
    }
  }
  now_.push_back(rest);
}

double Outlook::chance(const Run& run, std::size_t sign) const {
  double found = 0;
  for (const std::size_t number : {run.number, run.other}) {
    const auto departs = static_cast<double>(library_.shown_in(number)[sign]);
    if (departs != 0)
      found = std::max(found, noticed(clearness(departs, *library_.signs[sign].sign)));
  }
  return kMisread + (1 - 2 * kMisread) * found;
}

double Outlook::likely(std::size_t sign) const {
  double sum = now_.back() * kMisread;
  for (std::size_t run = 0; run < runs_.size(); ++run) sum += now_[run] * chance(runs_[run], sign);
  return sum;
}

Outlook::Looks Outlook::looks_for(const std::vector<std::size_t>& signs) const {
  Looks looks;
  std::vector<std::size_t> telling;
  for (const std::size_t sign : signs) {
    const bool shown = std::any_of(runs_.begin(), runs_.end(), [&](const Run& run) {
      return chance(run, sign) > 2 * kMisread;
    });
    if (shown) telling.push_back(sign);
  }
  looks.signs = telling.size();
  for (const Run& run : runs_) {
    for (const std::size_t sign : telling) {
      const double there = chance(run, sign);
      looks.there.push_back(det_log(there));
      looks.not_there.push_back(det_log(1 - there));
    }
  }
  return looks;
}

std::vector<bool> Outlook::Looks::shown_by(std::size_t run) const {
  std::vector<bool> shown;
  for (std::size_t k = run * signs; k < (run + 1) * signs; ++k)
    shown.push_back(there[k] > not_there[k]);
  return shown;
}

Outlook::Beliefs Outlook::chances_of(const Looks& looks, const std::vector<bool>& shown) const {
  constexpr double kLeast = -600;
  Beliefs chances;
  for (std::size_t run = 0; run < runs_.size(); ++run) {
    double log = 0;
    for (std::size_t k = 0; k < looks.signs; ++k) {
      const std::size_t at = run * looks.signs + k;
      log += shown[k] ? looks.there[at] : looks.not_there[at];
    }
    chances.push_back(log > kLeast ? det_exp(log) : 0);
  }
  const double unlike = det_log(kMisread), like = det_log(1 - kMisread);
  double anything = 0;  // of what is not among the leaders nothing is known: as if all were right
  for (const bool there : shown) anything += there ? unlike : like;
  chances.push_back(det_exp(std::max(anything, kLeast)));
  return chances;
}

Outlook::Answers Outlook::answers(const std::vector<std::size_t>& signs) const {
  Answers answers;
  const Looks looks = looks_for(signs);
  if (looks.signs == 0) return answers;
  std::map<std::vector<bool>, std::size_t> outcomes;
  for (std::size_t run = 0; run < runs_.size(); ++run) {
    const std::vector<bool> shown = looks.shown_by(run);
    const auto [at, added] = outcomes.emplace(shown, outcomes.size());
    if (added) answers.chances.push_back(chances_of(looks, shown));
    answers.of_run.push_back(at->second);
  }
  return answers;
}

template <class Value>
double Outlook::mean_after(const Beliefs& before, const Answers& answers,
                           const Value& value) const {
  std::vector<double> weights(answers.chances.size());
  for (std::size_t run = 0; run < answers.of_run.size(); ++run)
    weights[answers.of_run[run]] += before[run];
  double mean = 0, weighed = 0;
  Beliefs joint(before.size());
  for (std::size_t outcome = 0; outcome < weights.size(); ++outcome) {
    if (weights[outcome] <= 0) continue;
    for (std::size_t k = 0; k < joint.size(); ++k)
      joint[k] = before[k] * answers.chances[outcome][k];
    mean += weights[outcome] * value(normalised(joint));
    weighed += weights[outcome];
  }
  return mean + (1 - weighed) * value(before);
}

std::vector<double> Outlook::by_suspect(const Beliefs& beliefs) const {
  std::vector<double> sums(leaders_ + 1);
  for (std::size_t run = 0; run < runs_.size(); ++run) sums[runs_[run].suspect] += beliefs[run];
  sums.back() = beliefs.back();
  return sums;
}

double Outlook::gain_bits(const Answers& answers) const {
  if (answers.chances.empty()) return 0;
  const auto entropy = [this](const Beliefs& beliefs) { return entropy_bit(by_suspect(beliefs)); };
  return entropy(now_) - mean_after(now_, answers, entropy);
}

/// Either the suspects are worked at in order, or one looks further: whichever is less.
double Outlook::cost_to_go_min(const Beliefs& beliefs) const {
  std::vector<double> sums = by_suspect(beliefs);
  const double looking = kABit_min * entropy_bit(sums);
  const double rest = sums.back();
  sums.pop_back();
  std::sort(sums.begin(), sums.end(), std::greater<>());
  double wrong = rest * static_cast<double>(kGivesUp);
  for (std::size_t place = 0; place < sums.size(); ++place)
    wrong += sums[place] * static_cast<double>(std::min(place, kGivesUp));
  return std::min(kWrongPlace_min * wrong, looking);
}

double Outlook::saved_min(const Answers& answers) const {
  if (answers.chances.empty()) return 0;
  const auto cost = [this](const Beliefs& beliefs) { return cost_to_go_min(beliefs); };
  return cost(now_) - mean_after(now_, answers, cost);
}

double Outlook::saved_min(const Answers& answers, const std::vector<Further>& further) const {
  if (answers.chances.empty()) return 0;
  const auto cost = [this](const Beliefs& beliefs) { return cost_to_go_min(beliefs); };
  const auto cost_with_another = [&](const Beliefs& beliefs) {
    double least = cost(beliefs);
    for (const Further& one : further)
      least = std::min(least, one.cost_min + mean_after(beliefs, *one.answers, cost));
    return least;
  };
  return cost(now_) - mean_after(now_, answers, cost_with_another);
}

}  // namespace sixty::diagnose
