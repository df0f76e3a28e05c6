#include "sim/diagnose/trial.hpp"

#include <numeric>

#include "sim/base/rng.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::uint32_t kWhichTrial = 0, kOther = 1;  // streams of draws

constexpr std::size_t kSpecimens = 12;
constexpr std::uint64_t kFirstSpecimen = 1'000'000;         // none of the library's
constexpr std::size_t kTriedSuspects = 8, kSeverities = 6;  // tried until something shows

std::size_t drawn_by(const std::vector<double>& prior, double u) {
  double sum = 0;
  for (std::size_t k = 0; k < prior.size(); ++k) {
    sum += prior[k];
    if (u < sum) return k;
  }
  return prior.size() - 1;
}

class Trying {
 public:
  Trying(const Library& library, const TrialPlan& plan, Bench& bench)
      : library_(library), plan_(plan), bench_(bench) {}

  /// A suspect by its prior that shows something, if it can be found within some tries.
  Truth one(std::size_t number, std::uint32_t stream) {
    Truth truth;
    for (std::size_t attempt = 0; attempt < kTriedSuspects; ++attempt) {
      truth.suspect = drawn_by(library_.prior, uniform_draw(plan_.seed, number, stream, attempt));
      if (show((number * kTriedSuspects + attempt) * (1 + stream), truth)) break;
    }
    return truth;
  }

  Trial two(std::size_t number) {
    Trial trial;
    trial.truths = {one(number, kWhichTrial), one(number, kOther)};
    std::vector<std::pair<Suspect, Manner>> both;
    for (const Truth& truth : trial.truths)
      both.emplace_back(library_.suspects[truth.suspect], truth.manner);
    trial.departures = bench_.departures_with(both);
    return trial;
  }

 private:
  /// Puts a suspect in with one severity after another until something shows. Returns whether it
  /// did.
  bool show(std::uint64_t number, Truth& truth) {
    const Suspect& suspect = library_.suspects[truth.suspect];
    const bool degrees = has_degrees(*suspect.fault);
    for (std::size_t attempt = 0; attempt < (degrees ? kSeverities : 1); ++attempt) {
      const std::uint64_t who = number * kSeverities + attempt;
      truth.manner = drawn_manner(*suspect.fault, library_.watch.until, plan_.seed, who,
                                  plan_.assumptions.largest_severity);
      truth.departures = bench_.departures_with(suspect, truth.manner);
      if (anything_shows(library_, truth.departures)) return true;
    }
    return false;
  }

  const Library& library_;
  const TrialPlan& plan_;
  Bench& bench_;
};

}  // namespace

std::vector<Trial> trials_of(const Library& library, const LibraryPlan& made, const TrialPlan& plan,
                             const Registry& registry, const OnProgress& told) {
  LibraryPlan other = made;
  other.changes.assumptions = plan.assumptions;
  other.vary = plan.vary.value_or(plan.assumptions.parts_stray);
  const std::vector<Known> specimens =
      specimens_of(library, other, kFirstSpecimen + plan.seed * 1000, kSpecimens, registry)
          .known(library.usual, library.signs);
  std::vector<Trial> trials(plan.cases);
  const auto run = [&](std::size_t k, Bench& bench) {
    Trying drawing(library, plan, bench);
    if (plan.pairs) {
      trials[k] = drawing.two(k);
      return;
    }
    trials[k].truths = {drawing.one(k, kWhichTrial)};
    trials[k].departures = trials[k].truths.front().departures;
  };
  std::vector<std::size_t> numbers(plan.cases);
  std::iota(numbers.begin(), numbers.end(), 0U);
  run_on_benches(library, specimens, numbers, plan.threads, run, told);
  return trials;
}

}  // namespace sixty::diagnose
