#include "sim/diagnose/outlook.hpp"

#include <algorithm>
#include <map>

#include "sim/base/math.hpp"
#include "sim/diagnose/belief.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kMostSuspects = 40;
constexpr double kMisread = 0.03;     // a look goes wrong so often
constexpr double kLeastShare = 0.02;  // runs that fit worse are not worth a thought

}  // namespace

Outlook::Outlook(const Library& library, const Ranking& ranking) : library_(library) {
  double rest = ranking.none_of_these + ranking.sound;
  for (std::size_t k = 0; k < ranking.ranked.size(); ++k) {
    const Ranked& one = ranking.ranked[k];
    if (k >= kMostSuspects) {
      rest += one.probability;
      continue;
    }
    for (const auto& [run, share] : one.runs) {
      if (share >= kLeastShare && !one.second)
        runs_.push_back({k, run, run, share * one.probability});
    }
    if (one.second) runs_.push_back({k, one.runs[0].first, one.runs[1].first, one.probability});
    beliefs_.push_back(one.probability);
  }
  beliefs_.push_back(rest);
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
  double sum = beliefs_.back() * kMisread;
  for (const Run& run : runs_) sum += run.belief * chance(run, sign);
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

std::vector<double> Outlook::after(const Looks& looks, const std::vector<bool>& shown) const {
  std::vector<double> joint(beliefs_.size());
  const double unlike = det_log(kMisread), like = det_log(1 - kMisread);
  double anything = 0;  // of what is not among the leaders nothing is known: as if all were right
  for (const bool there : shown) anything += there ? unlike : like;
  joint.back() = beliefs_.back() * det_exp(std::max(anything, -600.0));
  for (std::size_t run = 0; run < runs_.size(); ++run) {
    double log = 0;
    for (std::size_t k = 0; k < looks.signs; ++k) {
      const std::size_t at = run * looks.signs + k;
      log += shown[k] ? looks.there[at] : looks.not_there[at];
    }
    if (log > -600) joint[runs_[run].suspect] += runs_[run].belief * det_exp(log);
  }
  return normalised(joint);
}

double Outlook::gain_bits(const std::vector<std::size_t>& signs) const {
  const Looks looks = looks_for(signs);
  if (looks.signs == 0) return 0;
  const double before = entropy_bit(beliefs_);
  std::map<std::vector<bool>, double> outcomes;  // runs that show the same are one
  double weighed = 0;
  for (std::size_t run = 0; run < runs_.size(); ++run) {
    outcomes[looks.shown_by(run)] += runs_[run].belief;
    weighed += runs_[run].belief;
  }
  double left = (1 - weighed) * before;
  for (const auto& [shown, belief] : outcomes) left += belief * entropy_bit(after(looks, shown));
  return before - left;
}

}  // namespace sixty::diagnose
