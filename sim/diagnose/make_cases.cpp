// What the runs of a library say of each suspect.
#include <algorithm>

#include "sim/diagnose/alike.hpp"
#include "sim/diagnose/library.hpp"
#include "sim/diagnose/likelihood.hpp"

namespace sixty::diagnose {
namespace {

constexpr int kSteps = 3;  // from one run to the next, so that two lie between

class CaseMaker {
 public:
  explicit CaseMaker(Library& library)
      : library_(library),
        alike_(*library.installation, library.suspects, library.signs, library.watch.spans()) {}

  void make() {
    fill_between();
    share();
  }

 private:
  void fill_between() {
    const auto made = std::count_if(library_.runs.begin(), library_.runs.end(),
                                    [](const Run& run) { return !run.between; });
    library_.runs_of_each = static_cast<double>(made) /
                            static_cast<double>(std::max<std::size_t>(alike_.kin().size(), 1));
    std::vector<std::vector<Run>> by_kin(alike_.kin().size());
    for (Run& run : library_.runs) by_kin[alike_.kin_of()[run.suspect]].push_back(std::move(run));
    library_.runs.clear();
    for (std::vector<Run>& runs : by_kin) {
      std::vector<Run> between = between_all(runs);
      for (std::vector<Run>* some : {&runs, &between}) {
        for (Run& run : *some) library_.runs.push_back(std::move(run));
      }
    }
  }

  std::vector<Run> between_all(const std::vector<Run>& runs) {
    std::vector<const Run*> steady;
    for (const Run& run : runs) {
      if (run.steady) steady.push_back(&run);
    }
    std::stable_sort(steady.begin(), steady.end(), [](const Run* a, const Run* b) {
      return a->manner.severity < b->manner.severity;
    });
    std::vector<Run> all;
    for (std::size_t i = 0; i + 1 < steady.size(); ++i) {
      for (int step = 1; step < kSteps; ++step)
        all.push_back(between(*steady[i], *steady[i + 1], static_cast<double>(step) / kSteps));
    }
    return all;
  }

  Run between(const Run& a, const Run& b, double share) {
    Run one;
    one.suspect = a.suspect;
    one.between = true;
    one.manner = a.manner;
    one.manner.severity += share * (b.manner.severity - a.manner.severity);
    one.departures.resize(a.departures.size());
    const auto elsewhere = alike_.transposed(b.suspect, a.suspect);
    const Shown other(b.departures, elsewhere.get());
    for (std::size_t k = 0; k < a.departures.size(); ++k) {
      one.departures[k] = a.departures[k];
      if (a.departures[k] == other[k]) continue;
      const double from = in_ratios(static_cast<double>(a.departures[k]));
      const double to = in_ratios(static_cast<double>(other[k]));
      one.departures[k] = static_cast<float>(from_ratios(from + share * (to - from)));
    }
    one.shows = anything_shows(library_, one.departures);
    return one;
  }

  void share() {
    std::vector<std::vector<std::size_t>> runs(alike_.kin().size());
    for (std::size_t run = 0; run < library_.runs.size(); ++run)
      runs[alike_.kin_of()[library_.runs[run].suspect]].push_back(run);
    library_.cases.clear();
    for (std::size_t suspect = 0; suspect < library_.suspects.size(); ++suspect) {
      for (const std::size_t run : runs[alike_.kin_of()[suspect]])
        library_.cases.push_back(
            {suspect, run, alike_.transposed(library_.runs[run].suspect, suspect)});
    }
  }

  Library& library_;
  Alike alike_;
};

}  // namespace

void make_cases(Library& library) { CaseMaker(library).make(); }

}  // namespace sixty::diagnose
