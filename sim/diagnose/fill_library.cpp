// Which runs a library is made of.
#include <algorithm>
#include <numeric>

#include "sim/diagnose/alike.hpp"
#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kLeastEach = 3, kMostEach = 24;
constexpr double kRuns = 2400;
constexpr double kMostTransients = 390'000;  // some ten minutes on two cores
constexpr double kFirstShare = 0.4;          // of the runs, before it is known what shows
constexpr std::size_t kHopeless = 3;         // more for who shows nothing, however severe

/// Runs a library in two rounds: the first finds from which severity on anything shows that people
/// would tell of, the second is made where it does.
class Filler {
 public:
  Filler(Library& library, const LibraryPlan& plan, const OnProgress& told)
      : library_(library),
        plan_(plan),
        told_(told),
        alike_(*library.installation, library.suspects, library.signs, library.watch.spans()) {}

  void fill() {
    library_.runs.clear();
    const std::vector<double> wanted = runs_wanted();
    for (std::size_t k = 0; k < wanted.size(); ++k)
      plan_runs(k, std::max(kFirstShare * wanted[k], 1.0), 0, 0);
    const std::size_t first = library_.runs.size();
    run(0, static_cast<std::size_t>(static_cast<double>(first) / kFirstShare));
    plan_second(wanted);
    run(first, library_.runs.size());
    library_.simulations += library_.runs.size();
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
    const auto transients = static_cast<double>(std::max<std::size_t>(library_.watch.transients, 1));
    return std::min(kRuns, kMostTransients / transients);
  }

  const Fault& fault_of(const Kin& kin) const { return *library_.suspects[kin.front()].fault; }

  /// `least`: of the severities.
  void plan_runs(std::size_t number, double wanted, double least, std::size_t earlier) {
    const Kin& kin = alike_.kin()[number];
    const Fault& fault = fault_of(kin);
    const auto count = static_cast<std::size_t>(wanted);
    if (count == 0) return;
    const std::vector<Manner> manners = manners_of(fault, count, least, plan_.until,
                                                   plan_.seed + earlier, kin.front());
    for (std::size_t run = 0; run < count; ++run)
      library_.runs.push_back({Alike::of_run(kin, earlier + run), manners[run], {}, false,
                               is_steady(fault, manners[run])});
  }

  void plan_second(const std::vector<double>& wanted) {
    std::vector<std::size_t> kin_of(library_.suspects.size());
    for (std::size_t k = 0; k < alike_.kin().size(); ++k) {
      for (const std::size_t suspect : alike_.kin()[k]) kin_of[suspect] = k;
    }
    struct Found {
      std::size_t runs = 0, showing = 0;
      double most_hidden = 0, least_shown = 1;
    };
    std::vector<Found> found(alike_.kin().size());
    for (const Run& run : library_.runs) {
      Found& of_kin = found[kin_of[run.suspect]];
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

  void run(std::size_t first, std::size_t all) {
    const auto one_more = [&](std::size_t number, Bench& bench) {
      Run& one = library_.runs[first + number];
      one.departures = bench.departures_with(library_.suspects[one.suspect], one.manner);
      one.shows = anything_shows(library_, one.departures);
    };
    const auto told = [&](std::size_t done, std::size_t of_these) {
      if (told_) told_(first + done, std::max(all, first + of_these));
    };
    run_on_benches(library_, library_.specimens, library_.runs.size() - first, plan_.threads,
                   one_more, told);
  }

  Library& library_;
  const LibraryPlan& plan_;
  const OnProgress& told_;
  Alike alike_;
};

}  // namespace

void fill_library(Library& library, const LibraryPlan& plan, const OnProgress& told) {
  Filler(library, plan, told).fill();
}

}  // namespace sixty::diagnose
