// Which runs a library is made of.
#include <algorithm>
#include <numeric>

#include "sim/diagnose/alike.hpp"
#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kLeastEach = 3, kMostEach = 24;
constexpr double kRuns = 2400;
constexpr double kMostTransients = 390'000;       // some ten minutes on two cores
constexpr double kFirstShare = 0.4;               // of the runs, before it is known what shows
constexpr std::size_t kEarlyTransients = 12'000;  // some twenty seconds on two cores
constexpr std::size_t kHopeless = 3;              // more for who shows nothing, however severe

/// Runs a library in two rounds: the first finds from which severity on anything shows that people
/// would tell of, the second is made where it does.
class Filler {
 public:
  Filler(Library& library, const LibraryPlan& plan, const OnProgress& told)
      : library_(library),
        plan_(plan),
        told_(told),
        alike_(*library.installation, library.suspects, library.signs, library.watch.spans()) {}

  void fill(const Early& early) {
    library_.runs.clear();
    const std::vector<double> wanted = runs_wanted();
    for (std::size_t k = 0; k < wanted.size(); ++k)
      plan_runs(k, std::max(kFirstShare * wanted[k], 1.0), 0, 0);
    const std::size_t first = library_.runs.size();
    all_ = static_cast<std::size_t>(static_cast<double>(first) / kFirstShare);
    std::vector<std::size_t> numbers(first);
    std::iota(numbers.begin(), numbers.end(), 0U);
    if (early.told) numbers = tell_early(early, std::move(numbers));
    run(numbers);
    plan_second(wanted);
    all_ = library_.runs.size();
    numbers.resize(all_ - first);
    std::iota(numbers.begin(), numbers.end(), first);
    run(numbers);
    library_.simulations += all_;
    make_cases(library_);
  }

 private:
  /// By kin: fewer where more of the fault is no other thing than less, and more where many share
  /// them.
  std::vector<double> runs_wanted() const {
    std::vector<double> wanted;
    for (const Kin& kin : alike_.kin()) {
      const double degrees = has_degrees(fault_of(kin)) ? 1 : 0.5;
      wanted.push_back(kin.size() > 1 ? 2 * degrees : degrees);
    }
    const double sum = std::accumulate(wanted.begin(), wanted.end(), 0.0);
    const double each = std::clamp(runs_worth() / sum, kLeastEach, kMostEach);
    for (double& one : wanted) one *= each;
    return wanted;
  }

  double runs_worth() const {
    if (plan_.runs > 0) return static_cast<double>(plan_.runs);
    const auto transients =
        static_cast<double>(std::max<std::size_t>(library_.watch.transients, 1));
    return std::min(kRuns, kMostTransients / transients);
  }

  const Fault& fault_of(const Kin& kin) const { return *library_.suspects[kin.front()].fault; }

  /// `least`: of the severities.
  void plan_runs(std::size_t number, double wanted, double least, std::size_t earlier) {
    const Kin& kin = alike_.kin()[number];
    const Fault& fault = fault_of(kin);
    const auto count = static_cast<std::size_t>(wanted);
    if (count == 0) return;
    const std::vector<Manner> manners =
        manners_of(fault, count, least, plan_.until, plan_.seed + earlier, kin.front());
    for (std::size_t run = 0; run < count; ++run)
      library_.runs.push_back({Alike::of_run(kin, earlier + run),
                               manners[run],
                               {},
                               false,
                               is_steady(fault, manners[run])});
  }

  void plan_second(const std::vector<double>& wanted) {
    struct Found {
      std::size_t runs = 0, showing = 0;
      double most_hidden = 0, least_shown = 1;
    };
    std::vector<Found> found(alike_.kin().size());
    for (const Run& run : library_.runs) {
      Found& of_kin = found[alike_.kin_of()[run.suspect]];
      ++of_kin.runs;
      of_kin.showing += run.shows ? 1 : 0;
      if (run.shows)
        of_kin.least_shown = std::min(of_kin.least_shown, run.manner.severity);
      else if (run.steady)
        of_kin.most_hidden = std::max(of_kin.most_hidden, run.manner.severity);
    }
    for (std::size_t k = 0; k < found.size(); ++k) {
      const Found& of_kin = found[k];
      const double more = wanted[k] - static_cast<double>(of_kin.showing);
      const bool hopeless = of_kin.showing == 0;
      plan_runs(k, hopeless ? std::min(more, static_cast<double>(kHopeless)) : more,
                std::min(of_kin.most_hidden, of_kin.least_shown), of_kin.runs);
    }
  }

  void run(const std::vector<std::size_t>& numbers) {
    const auto one_more = [&](std::size_t number, Bench& bench) {
      Run& one = library_.runs[number];
      one.departures = bench.departures_with(library_.suspects[one.suspect], one.manner);
      one.shows = anything_shows(library_, one.departures);
    };
    const auto told = [&](std::size_t done, std::size_t of_these) {
      if (told_) told_(done_ + done, std::max(all_, done_ + of_these));
    };
    run_on_benches(library_, library_.specimens, numbers, plan_.threads, one_more, told);
    done_ += numbers.size();
  }

  /// Makes the most urgent runs and tells of them. Returns those that are left.
  std::vector<std::size_t> tell_early(const Early& early, std::vector<std::size_t> numbers) {
    const std::vector<double> urgency = urgency_of_runs(early.urgency);
    std::stable_sort(numbers.begin(), numbers.end(),
                     [&](std::size_t a, std::size_t b) { return urgency[a] > urgency[b]; });
    const auto transients = std::max<std::size_t>(library_.watch.transients, 1);
    const std::size_t some = std::min(numbers.size(), kEarlyTransients / transients + 1);
    const auto later = numbers.begin() + static_cast<std::ptrdiff_t>(some);
    const std::vector<std::size_t> soon(numbers.begin(), later);
    numbers.erase(numbers.begin(), later);
    run(soon);
    Library so_far = library_;
    so_far.runs.clear();
    for (const std::size_t number : soon) so_far.runs.push_back(library_.runs[number]);
    so_far.simulations += some;
    make_cases(so_far);
    early.told(so_far);
    return numbers;
  }

  /// Of each kin one run goes before all others of it: the most severe.
  std::vector<double> urgency_of_runs(const std::vector<double>& of_suspects) const {
    std::vector<const Run*> most_severe(alike_.kin().size());
    for (const Run& run : library_.runs) {
      const Run*& most = most_severe[alike_.kin_of()[run.suspect]];
      const bool counts = run.steady == has_degrees(*library_.suspects[run.suspect].fault);
      if (counts && (most == nullptr || run.manner.severity > most->manner.severity)) most = &run;
    }
    std::vector<double> urgency(library_.runs.size());
    for (std::size_t k = 0; k < most_severe.size(); ++k) {
      if (most_severe[k] == nullptr) continue;
      double& sum = urgency[static_cast<std::size_t>(most_severe[k] - library_.runs.data())];
      for (const std::size_t suspect : alike_.kin()[k]) sum += of_suspects[suspect];
    }
    return urgency;
  }

  Library& library_;
  const LibraryPlan& plan_;
  const OnProgress& told_;
  Alike alike_;
  std::size_t done_ = 0, all_ = 0;
};

}  // namespace

void fill_library(Library& library, const LibraryPlan& plan, const OnProgress& told,
                  const Early& early) {
  Filler(library, plan, told).fill(early);
}

}  // namespace sixty::diagnose
