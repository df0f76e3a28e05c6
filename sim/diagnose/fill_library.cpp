// Which runs a library is made of.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/diagnose/alike.hpp"
#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kLeastEach = 2, kMostEach = 24;
constexpr double kRuns = 2400;
constexpr double kMostWork = 190'000;  // transients; some ten minutes on two cores
constexpr double kSevere = 0.6;        // of the first run of each kin
constexpr double kFirstShare = 0.4;    // of the runs, before it is known what shows
constexpr double kEarlyWork = 5'000;   // transients; some twenty seconds on two cores
constexpr std::size_t kHopeless = 3;   // more for who shows nothing, however severe

/// Runs a library in three rounds: a severe run of each kin tells how much work its runs are, the
/// second finds from which severity on anything shows that people would tell of, the third is made
/// where it does.
class Filler {
 public:
  Filler(Library& library, const LibraryPlan& plan, const OnProgress& told)
      : library_(library),
        plan_(plan),
        told_(told),
        alike_(*library.installation, library.suspects, library.signs, library.watch.spans()) {}

  void fill(const Early& early) {
    library_.runs.clear();
    work_.assign(alike_.kin().size(), 0);
    for (std::size_t k = 0; k < work_.size(); ++k) plan_runs(k, 1, kSevere, 0);
    expected_ = plan_.runs > 0 ? plan_.runs : static_cast<std::size_t>(kRuns);
    std::vector<std::size_t> numbers = planned_since(0);
    if (early.told) numbers = run_urgent(early, std::move(numbers));
    run(numbers);
    const std::vector<double> wanted = runs_wanted();
    expected_ = static_cast<std::size_t>(std::accumulate(wanted.begin(), wanted.end(), 0.0));
    const std::size_t first = library_.runs.size();
    tell(early, planned_since(0));
    for (std::size_t k = 0; k < wanted.size(); ++k)
      plan_runs(k, kFirstShare * (wanted[k] - 1), 0, 1);
    run(planned_since(first));
    tell(early, planned_since(0));
    const std::size_t second = library_.runs.size();
    plan_third(wanted);
    expected_ = library_.runs.size();
    run(planned_since(second));
    library_.simulations += library_.runs.size();
    for (Known& specimen : library_.specimens) specimen.session = nullptr;
    make_cases(library_);
  }

 private:
  std::vector<std::size_t> planned_since(std::size_t first) const {
    std::vector<std::size_t> numbers(library_.runs.size() - first);
    std::iota(numbers.begin(), numbers.end(), first);
    return numbers;
  }

  /// By kin: fewer where more of the fault is no other thing than less, and more where many share
  /// them. For the same work most is learned when they are as the roots of what each costs.
  std::vector<double> runs_wanted() const {
    std::vector<double> shares;
    for (const Kin& kin : alike_.kin()) {
      const double degrees = has_degrees(fault_of(kin)) ? 1 : 0.5;
      const double work = work_[shares.size()];
      shares.push_back((kin.size() > 1 ? 2 * degrees : degrees) / std::sqrt(std::max(work, 1.0)));
    }
    const auto all_of = [&](double scale) {
      std::vector<double> wanted;
      for (const double share : shares)
        wanted.push_back(std::clamp(scale * share, kLeastEach, kMostEach));
      return wanted;
    };
    const double most = plan_.runs > 0 ? static_cast<double>(plan_.runs) : kRuns;
    const auto fits = [&](const std::vector<double>& wanted) {
      const double work = std::inner_product(wanted.begin(), wanted.end(), work_.begin(), 0.0);
      return std::accumulate(wanted.begin(), wanted.end(), 0.0) <= most && work <= kMostWork;
    };
    double scale = 0, beyond = kMostEach / *std::min_element(shares.begin(), shares.end());
    constexpr int kHalvings = 40;
    for (int k = 0; k < kHalvings; ++k) {
      const double middle = (scale + beyond) / 2;
      (fits(all_of(middle)) ? scale : beyond) = middle;
    }
    return all_of(scale);
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

  void plan_third(const std::vector<double>& wanted) {
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
      if (number < work_.size()) work_[number] = bench.work();
    };
    const auto told = [&](std::size_t done, std::size_t of_these) {
      if (told_) told_(done_ + done, std::max(expected_, done_ + of_these));
    };
    run_on_benches(library_, library_.specimens, numbers, plan_.threads, one_more, told);
    done_ += numbers.size();
  }

  /// What the runs of those numbers say.
  void tell(const Early& early, const std::vector<std::size_t>& numbers) const {
    if (!early.told) return;
    Library so_far = library_;
    so_far.runs.clear();
    for (const std::size_t number : numbers) so_far.runs.push_back(library_.runs[number]);
    for (Known& specimen : so_far.specimens) specimen.session = nullptr;
    so_far.simulations += numbers.size();
    make_cases(so_far);
    early.told(so_far);
  }

  /// Makes the most urgent of the first runs and tells of them. Returns those that are left.
  std::vector<std::size_t> run_urgent(const Early& early, std::vector<std::size_t> numbers) {
    std::vector<double> urgency(numbers.size());
    for (std::size_t k = 0; k < numbers.size(); ++k) {
      for (const std::size_t suspect : alike_.kin()[k]) urgency[k] += early.urgency[suspect];
    }
    std::stable_sort(numbers.begin(), numbers.end(),
                     [&](std::size_t a, std::size_t b) { return urgency[a] > urgency[b]; });
    const double each = static_cast<double>(std::max<std::size_t>(library_.watch.transients, 1));
    const auto some = std::min(numbers.size(), static_cast<std::size_t>(kEarlyWork / each) + 1);
    const auto later = numbers.begin() + static_cast<std::ptrdiff_t>(some);
    const std::vector<std::size_t> soon(numbers.begin(), later);
    numbers.erase(numbers.begin(), later);
    run(soon);
    tell(early, soon);
    return numbers;
  }

  Library& library_;
  const LibraryPlan& plan_;
  const OnProgress& told_;
  Alike alike_;
  std::vector<double> work_;  ///< of the first run of each kin
  std::size_t done_ = 0, expected_ = 0;
};

}  // namespace

void fill_library(Library& library, const LibraryPlan& plan, const OnProgress& told,
                  const Early& early) {
  Filler(library, plan, told).fill(early);
}

}  // namespace sixty::diagnose
