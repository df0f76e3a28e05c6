#include "sim/diagnose/pairs.hpp"

#include <algorithm>
#include <map>

#include "sim/base/math.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kMostPairs = 10;

std::size_t best_run(const Ranked& one) {
  return std::max_element(one.runs.begin(), one.runs.end(),
                          [](const auto& a, const auto& b) { return a.second < b.second; })
      ->first;
}

/// What a run does not explain.
std::vector<std::size_t> unexplained_by(std::size_t run, const Chances& chances,
                                        std::size_t observations) {
  std::vector<std::size_t> all;
  for (std::size_t o = 0; o < observations; ++o) {
    if (chances.of(run, o) < kExplains) all.push_back(o);
  }
  return all;
}

/// Of two suspects at once, the run of the second that goes best with one of the first.
struct Both {
  double log = -1e300;
  std::size_t run = 0;
};

}  // namespace

std::vector<Ranked> pairs_of(const Library& library, const Chances& chances,
                             const std::vector<Ranked>& leaders, std::size_t observations) {
  struct Found {
    Ranked pair;
    double worth = 0;  // its likelihood and prior, as a logarithm
  };
  std::vector<Found> pairs;
  for (const Ranked& first : leaders) {
    const std::size_t run = best_run(first);
    const std::vector<std::size_t> open = unexplained_by(run, chances, observations);
    std::map<std::size_t, Both> best;  // by suspect
    for (std::size_t other = 0; other < library.cases.size(); ++other) {
      const std::size_t suspect = library.cases[other].suspect;
      const bool helps = std::any_of(open.begin(), open.end(), [&](std::size_t o) {
        return chances.of(other, o) >= kExplains;
      });
      if (!helps || suspect == first.suspect || !library.run_of(other).shows) continue;
      Both& both = best[suspect];
      const double log = chances.log_of_both(run, other);
      if (log > both.log) both = {log, other};
    }
    for (const auto& [suspect, both] : best) {
      Ranked pair;
      pair.suspect = first.suspect;
      pair.second = suspect;
      pair.least_severity = first.least_severity;
      pair.most_severity = first.most_severity;
      pair.runs = {{run, 0.5}, {both.run, 0.5}};
      pair.probability = both.log;
      const double prior = det_log(library.prior[first.suspect] * library.prior[suspect]);
      pairs.push_back({std::move(pair), both.log + prior});
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(),
                   [](const Found& a, const Found& b) { return a.worth > b.worth; });
  std::vector<Ranked> kept;
  for (auto& [pair, worth] : pairs) {
    if (kept.size() == kMostPairs) break;
    const auto turned = [first = pair.suspect, second = *pair.second](const Ranked& one) {
      return one.suspect == second && *one.second == first;
    };
    const bool known = std::any_of(kept.begin(), kept.end(), turned);
    if (known) continue;
    for (std::size_t o = 0; o < observations; ++o)
      pair.chances.push_back(chances.of_both(pair.runs[0].first, pair.runs[1].first, o));
    kept.push_back(std::move(pair));
  }
  return kept;
}

}  // namespace sixty::diagnose
