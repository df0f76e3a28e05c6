#include "sim/diagnose/trial.hpp"

#include "sim/base/rng.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::uint32_t kWhich = 0;  // stream of draws

constexpr std::size_t kSpecimens = 12;
constexpr std::uint64_t kFirstSpecimen = 1'000'000;    // none of the library's
constexpr std::size_t kSuspects = 8, kSeverities = 6;  // tried until something shows

std::size_t drawn_by(const std::vector<double>& prior, double u) {
  double sum = 0;
  for (std::size_t k = 0; k < prior.size(); ++k) {
    sum += prior[k];
    if (u < sum) return k;
  }
  return prior.size() - 1;
}

/// Puts a suspect in with one severity after another until something shows. Returns whether it did.
bool show(const Library& library, std::uint64_t seed, std::uint64_t number, Bench& bench,
          Trial& one) {
  const Suspect& suspect = library.suspects[one.truth];
  const bool degrees = has_degrees(*suspect.fault);
  for (std::size_t attempt = 0; attempt < (degrees ? kSeverities : 1); ++attempt) {
    const std::uint64_t who = number * kSeverities + attempt;
    one.manner = drawn_manner(*suspect.fault, library.watch.until, seed, who);
    one.departures = bench.departures_with(suspect, one.manner);
    if (anything_shows(library, one.departures)) return true;
  }
  return false;
}

}  // namespace

std::vector<Trial> trials_of(const Library& library, const LibraryPlan& made, const TrialPlan& plan,
                             const Registry& registry, const OnProgress& told) {
  LibraryPlan other = made;
  other.vary = plan.vary;
  const std::vector<Known> specimens =
      specimens_of(library, other, kFirstSpecimen + plan.seed * 1000, kSpecimens, registry)
          .known(library.usual, library.signs);
  std::vector<Trial> trials(plan.cases);
  const auto run = [&](std::size_t k, Bench& bench) {
    for (std::size_t attempt = 0; attempt < kSuspects; ++attempt) {
      trials[k].truth = drawn_by(library.prior, uniform_draw(plan.seed, k, kWhich, attempt));
      if (show(library, plan.seed, k * kSuspects + attempt, bench, trials[k])) break;
    }
  };
  run_on_benches(library, specimens, plan.cases, plan.threads, run, told);
  return trials;
}

}  // namespace sixty::diagnose
