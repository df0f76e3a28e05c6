#include "sim/diagnose/ranking.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/base/math.hpp"
#include "sim/diagnose/belief.hpp"
#include "sim/diagnose/chances.hpp"
#include "sim/diagnose/pairs.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kNeverShows = 0.05;   // share of what nobody ever notices among what is told of
constexpr double kSpeaks = 1.3;        // ratio from which on one speaks for or against
constexpr std::size_t kLeaders = 8;    // with which pairs are tried
constexpr double kLeastWeight = 0.15;  // of the best run: what belongs to the severities told

/// A mean of likelihoods that are given as logarithms.
double log_mean(const std::vector<double>& logs, const std::vector<double>& shares) {
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (std::size_t k = 0; k < logs.size(); ++k)
    sum += logs[k] - most > -700 ? shares[k] * det_exp(logs[k] - most) : 0;
  return most + det_log(sum);
}

double log_mean(const std::vector<double>& logs) {
  return log_mean(logs, std::vector<double>(logs.size(), 1 / static_cast<double>(logs.size())));
}

/// Where people have noticed something, only the runs count in which there is something to be
/// noticed: a fault that is too faint is not what they tell of.
std::vector<std::size_t> that_count(const Library& library, std::size_t first, std::size_t end) {
  std::vector<std::size_t> all, showing;
  for (std::size_t run = first; run < end; ++run) {
    all.push_back(run);
    if (library.run_of(run).shows) showing.push_back(run);
  }
  return showing.empty() ? all : showing;
}

/// What one suspect's runs say together.
Ranked judged(const Library& library, const Chances& chances, std::size_t suspect,
              std::size_t first, std::size_t end, std::size_t observations,
              const Vagueness& vagueness) {
  Ranked ranked;
  ranked.suspect = suspect;
  const std::vector<std::size_t> runs = that_count(library, first, end);
  std::vector<double> logs;
  for (const std::size_t run : runs) logs.push_back(chances.log_of(run));
  const double best = *std::max_element(logs.begin(), logs.end());
  ranked.least_severity = 1;
  ranked.most_severity = 0;
  ranked.chances.assign(observations, 0);
  double weights = 0;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    const std::size_t run = runs[k];
    const double below = logs[k] - best;
    const double weight = below > -700 ? det_exp(below) : 0;
    weights += weight;
    ranked.runs.emplace_back(run, weight);
    for (std::size_t o = 0; o < observations; ++o) ranked.chances[o] += weight * chances.of(run, o);
    if (weight < kLeastWeight) continue;
    const double severity = library.run_of(run).manner.severity;
    ranked.least_severity = std::min(ranked.least_severity, severity);
    ranked.most_severity = std::max(ranked.most_severity, severity);
  }
  for (double& chance : ranked.chances) chance /= weights;
  for (auto& [run, weight] : ranked.runs) weight /= weights;
  // Until all are known, the logarithm of its likelihood.
  const double apart = vagueness.apart;
  ranked.probability = log_mean({log_mean(logs), chances.log_of_apart(runs)}, {1 - apart, apart});
  return ranked;
}

/// Priors with what was known beforehand. Range: as many of one as of the other.
std::vector<double> prior_with(const std::vector<double>& prior,
                               const std::vector<double>& weights) {
  if (std::all_of(weights.begin(), weights.end(), [](double w) { return w == 1; })) return prior;
  std::vector<double> all;
  for (std::size_t s = 0; s < prior.size(); ++s) all.push_back(weights[s] * prior[s]);
  return normalised(all);
}

/// Adds beliefs up: hypotheses with their priors and likelihoods.
class Weighing {
 public:
  Weighing(const Library& library, const std::vector<Observation>& observations,
           const RankingOptions& options)
      : library_(library),
        count_(observations.size()),
        options_(options),
        sharpness_(library.runs_of_each / (library.runs_of_each + options.few)),
        chances_(library, observations, options.vagueness),
        weights_(weights_of(known_with(observations), library.suspects, *library.installation)),
        prior_(prior_with(library.prior, weights_)),
        sound_(log_of_sound()) {}

  Ranking rank() {
    judge_singles();
    weigh();
    if (!ranking_.unexplained.empty()) {
      add_pairs();
      weigh();
    }
    for (const std::size_t k : order_) ranking_.ranked.push_back(std::move(all_[k].ranked));
    ranking_.expected = chances_.expected();
    return std::move(ranking_);
  }

 private:
  struct Weighed {
    Ranked ranked;
    double prior = 0, log = 0;
  };

  double known_prior(std::size_t suspect) const {
    const std::vector<std::size_t>& excluded = options_.excluded;
    const bool known = library_.suspects[suspect].fault.get() != options_.without &&
                       std::find(excluded.begin(), excluded.end(), suspect) == excluded.end();
    return known ? (1 - options_.sound - options_.none) * prior_[suspect] : 0;
  }

  void judge_singles() {
    for (std::size_t run = 0; run < library_.cases.size();) {
      const std::size_t suspect = library_.cases[run].suspect;
      std::size_t end = run;
      while (end < library_.cases.size() && library_.cases[end].suspect == suspect) ++end;
      Weighed one;
      one.ranked = judged(library_, chances_, suspect, run, end, count_, options_.vagueness);
      const bool shows = library_.run_of(one.ranked.runs.front().first).shows;
      one.prior = known_prior(suspect) * (shows ? 1 : kNeverShows);
      one.ranked.beforehand = weights_[suspect];
      one.log = one.ranked.probability;
      all_.push_back(std::move(one));
      run = end;
    }
  }

  void add_pairs() {
    std::vector<Ranked> leaders;
    for (std::size_t k = 0; k < std::min(kLeaders, order_.size()); ++k)
      leaders.push_back(all_[order_[k]].ranked);
    for (Ranked& pair : pairs_of(library_, chances_, leaders, count_)) {
      const double both = known_prior(pair.suspect) * known_prior(*pair.second);
      pair.beforehand = weights_[pair.suspect] * weights_[*pair.second];
      const double log = pair.probability;
      all_.push_back({std::move(pair), 2 * options_.two * both, log});
    }
  }

  void weigh() {
    std::vector<double> prior, logs;
    for (const Weighed& one : all_) {
      prior.push_back(one.prior);
      logs.push_back(one.log);
    }
    prior.push_back(options_.sound);
    logs.push_back(sound_);
    prior.push_back(options_.none);
    logs.push_back(chances_.log_of_anything());
    for (double& p : prior) p = p > 0 ? det_exp(sharpness_ * det_log(p)) : 0;
    for (double& log : logs) log *= sharpness_ * options_.trust;
    const std::vector<double> beliefs = posterior(prior, logs);
    for (std::size_t k = 0; k < all_.size(); ++k) all_[k].ranked.probability = beliefs[k];
    ranking_.sound = beliefs[beliefs.size() - 2];
    ranking_.none_of_these = beliefs.back();
    order_.resize(all_.size());
    std::iota(order_.begin(), order_.end(), 0U);
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return beliefs[a] > beliefs[b]; });
    ranking_.unexplained.clear();
    for (std::size_t o = 0; o < count_; ++o) {
      if (all_[order_.front()].ranked.chances[o] < kExplains) ranking_.unexplained.push_back(o);
    }
  }

  double log_of_sound() const {
    std::vector<double> logs;
    for (std::size_t k = 0; k < library_.sound.size(); ++k)
      logs.push_back(chances_.log_of(library_.cases.size() + k));
    return log_mean(logs);
  }

  const Library& library_;
  std::size_t count_;
  const RankingOptions& options_;
  double sharpness_;  ///< power of what is believed: where runs are few, it is told less surely
  Chances chances_;
  std::vector<double> weights_, prior_;  ///< by suspect; what was known beforehand is in both
  double sound_;                         ///< logarithm of the likelihood that nothing is the matter
  std::vector<Weighed> all_;
  std::vector<std::size_t> order_;  ///< of these, the likeliest first
  Ranking ranking_;
};

}  // namespace

std::vector<Speaks> speaking(const Ranked& one, const Ranking& ranking, bool in_favour) {
  std::vector<Speaks> all;
  for (std::size_t o = 0; o < one.chances.size(); ++o) {
    const double ratio = one.chances[o] / ranking.expected[o];
    const double weight = in_favour ? ratio : 1 / ratio;
    if (weight >= kSpeaks) all.push_back({o, weight});
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Speaks& a, const Speaks& b) { return a.weight > b.weight; });
  return all;
}

std::pair<double, double> severities_of(const Ranked& one, std::size_t suspect,
                                        const Library& library) {
  if (suspect == one.suspect) return {one.least_severity, one.most_severity};
  const double severity = library.run_of(one.runs.back().first).manner.severity;
  return {severity, severity};
}

Ranking rank(const Library& library, const std::vector<Observation>& observations,
             const RankingOptions& options) {
  return Weighing(library, observations, options).rank();
}

}  // namespace sixty::diagnose
