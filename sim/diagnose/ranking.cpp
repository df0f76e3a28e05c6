#include "sim/diagnose/ranking.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/base/math.hpp"
#include "sim/diagnose/belief.hpp"
#include "sim/diagnose/chances.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kExplains = 0.35;     // chance from which on an observation counts as explained
constexpr double kNeverShows = 0.05;   // share of what nobody ever notices among what is told of
constexpr double kSpeaks = 1.3;        // ratio from which on one speaks for or against
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

Ranking rank(const Library& library, const std::vector<Observation>& observations,
             const RankingOptions& options) {
  const Chances chances(library, observations, options.vagueness);
  Ranking ranking;
  std::vector<double> prior, logs;
  for (std::size_t run = 0; run < library.cases.size();) {
    const std::size_t suspect = library.cases[run].suspect;
    std::size_t end = run;
    while (end < library.cases.size() && library.cases[end].suspect == suspect) ++end;
    ranking.ranked.push_back(
        judged(library, chances, suspect, run, end, observations.size(), options.vagueness));
    const bool known = library.suspects[suspect].fault.get() != options.without;
    const bool shows = library.run_of(ranking.ranked.back().runs.front().first).shows;
    prior.push_back((1 - options.sound - options.none) * library.prior[suspect] *
                    (known ? shows ? 1 : kNeverShows : 0));
    logs.push_back(ranking.ranked.back().probability);
    run = end;
  }
  std::vector<double> sound;
  for (std::size_t k = 0; k < library.sound.size(); ++k)
    sound.push_back(chances.log_of(library.cases.size() + k));
  prior.push_back(options.sound);
  logs.push_back(log_mean(sound));
  prior.push_back(options.none);
  logs.push_back(chances.log_of_anything());
  const std::vector<double> beliefs = posterior(prior, logs);
  for (std::size_t k = 0; k < ranking.ranked.size(); ++k)
    ranking.ranked[k].probability = beliefs[k];
  ranking.sound = beliefs[beliefs.size() - 2];
  ranking.none_of_these = beliefs.back();
  std::stable_sort(ranking.ranked.begin(), ranking.ranked.end(),
                   [](const Ranked& a, const Ranked& b) { return a.probability > b.probability; });
  ranking.expected = chances.expected();
  for (std::size_t o = 0; o < observations.size(); ++o) {
    if (ranking.ranked.front().chances[o] < kExplains) ranking.unexplained.push_back(o);
  }
  return ranking;
}

}  // namespace sixty::diagnose
