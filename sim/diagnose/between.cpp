// Cases between those that were run.
#include <algorithm>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/likelihood.hpp"

namespace sixty::diagnose {
namespace {

constexpr int kSteps = 3;  // from one run to the next, so that two lie between

Case between(const Library& library, const Case& a, const Case& b, double share) {
  Case one;
  one.suspect = a.suspect;
  one.between = true;
  one.manner = a.manner;
  one.manner.severity += share * (b.manner.severity - a.manner.severity);
  one.departures.resize(a.departures.size());
  for (std::size_t k = 0; k < a.departures.size(); ++k) {
    if (a.departures[k] == b.departures[k]) {
      one.departures[k] = a.departures[k];
      continue;
    }
    const double from = in_ratios(static_cast<double>(a.departures[k]));
    const double to = in_ratios(static_cast<double>(b.departures[k]));
    one.departures[k] = static_cast<float>(from_ratios(from + share * (to - from)));
  }
  one.shows = anything_shows(library, one.departures);
  return one;
}

}  // namespace

void fill_between(Library& library) {
  std::vector<Case> all;
  std::vector<const Case*> steady;
  const auto& runs = library.cases;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    all.push_back(runs[k]);
    if (runs[k].steady) steady.push_back(&runs[k]);
    if (k + 1 < runs.size() && runs[k + 1].suspect == runs[k].suspect) continue;
    std::stable_sort(steady.begin(), steady.end(), [](const Case* a, const Case* b) {
      return a->manner.severity < b->manner.severity;
    });
    for (std::size_t i = 0; i + 1 < steady.size(); ++i) {
      for (int step = 1; step < kSteps; ++step)
        all.push_back(
            between(library, *steady[i], *steady[i + 1], static_cast<double>(step) / kSteps));
    }
    steady.clear();
  }
  library.cases = std::move(all);
}

}  // namespace sixty::diagnose
