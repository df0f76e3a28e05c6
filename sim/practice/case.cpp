#include "sim/practice/case.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "sim/base/rng.hpp"
#include "sim/diagnose/departure.hpp"
#include "sim/diagnose/likelihood.hpp"
#include "sim/diagnose/once.hpp"
#include "sim/diagnose/report.hpp"
#include "sim/explain/chain.hpp"

namespace sixty::practice {
namespace {

using diagnose::Library;
using diagnose::Run;

constexpr std::uint32_t kWhich = 200;  // stream of draws, apart from those of reports
constexpr std::size_t kMostTries = 40;
constexpr double kReadily = 0.25;  // likelier than that people tell it, or it is nothing to go by
constexpr std::size_t kMuch = 4, kLittle = 3;  // kinds of signs that show
constexpr const char* kNames[kLevels] = {"obvious", "subtle", "intermittent", "two", "hands"};

/// Kinds of signs that people would tell of a run.
std::size_t kinds_that_show(const Library& library, const std::vector<float>& departures) {
  std::set<const diagnose::Sign*> kinds;
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const diagnose::Sign& sign = *library.signs[k].sign;
    if (sign.sense == diagnose::Sense::kMeasured || sign.likely < kReadily) continue;
    const auto departs = static_cast<double>(departures[k]);
    if (diagnose::noticed(diagnose::clearness(departs, sign)) > 0.5) kinds.insert(&sign);
  }
  return kinds.size();
}

bool comes_and_goes(const Run& run) {
  return run.manner.course.kind == Course::Kind::kRandom ||
         run.manner.course.kind == Course::Kind::kKnocks;
}

/// Whether a run of the library is of a fault as that level has it.
bool suits(const Library& library, const Run& run, Level level) {
  if (run.between || !run.shows) return false;
  const bool by_hand = !library.suspects[run.suspect].fault->acts.empty();
  if (by_hand != (level == Level::kHands)) return false;
  const std::size_t kinds = kinds_that_show(library, run.departures);
  switch (level) {
    case Level::kObvious:
      return kinds >= kMuch && !comes_and_goes(run);
    case Level::kSubtle:
      return kinds <= kLittle && !comes_and_goes(run);
    case Level::kIntermittent:
      return comes_and_goes(run);
    case Level::kTwo:
    case Level::kHands:
      break;
  }
  return !comes_and_goes(run);
}

/// Runs of that level, each weighed by its suspect's prior.
class Draw {
 public:
  Draw(const Library& library, Level level, std::uint64_t seed) : seed_(seed), level_(level) {
    std::vector<std::size_t> of_suspect(library.suspects.size(), 0);
    for (std::size_t k = 0; k < library.runs.size(); ++k) {
      if (!suits(library, library.runs[k], level)) continue;
      runs_.push_back(k);
      ++of_suspect[library.runs[k].suspect];
    }
    for (const std::size_t run : runs_) {
      const std::size_t suspect = library.runs[run].suspect;
      sum_ += library.prior[suspect] / static_cast<double>(of_suspect[suspect]);
      sums_.push_back(sum_);
    }
  }
  bool empty() const { return runs_.empty(); }
  std::size_t next() {
    const double u =
        uniform_draw(seed_, static_cast<std::uint64_t>(level_), kWhich, tries_++) * sum_;
    const auto found = std::upper_bound(sums_.begin(), sums_.end(), u);
    return runs_[std::min(static_cast<std::size_t>(found - sums_.begin()), runs_.size() - 1)];
  }

 private:
  std::uint64_t seed_;
  Level level_;
  std::vector<std::size_t> runs_;
  std::vector<double> sums_;
  double sum_ = 0;
  std::uint64_t tries_ = 0;
};

}  // namespace

const char* name_of(Level level) { return kNames[static_cast<std::size_t>(level)]; }

std::optional<Level> level_named(const std::string& name) {
  const auto* found = std::find(std::begin(kNames), std::end(kNames), name);
  if (found == std::end(kNames)) return std::nullopt;
  return static_cast<Level>(found - std::begin(kNames));
}

std::vector<float> noticed_of(const Library& library, const std::vector<Hidden>& hidden) {
  Session sound(library.installation);
  const std::vector<diagnose::Usual> usual = diagnose::usual_with(
      {diagnose::watch(sound, library.signs, library.watch)}, library.usual, library.signs);
  Session ailing(library.installation);
  for (const Hidden& one : hidden)
    diagnose::put_in(ailing, library.suspects[one.suspect], one.manner);
  return diagnose::departures(diagnose::watch_and_try(ailing, library.signs, usual, library.watch),
                              usual, library.signs);
}

std::vector<diagnose::Observation> told_of(const Library& library, const Case& hidden) {
  return diagnose::reports_of(library, hidden.departures, {}, hidden.seed,
                              static_cast<std::uint64_t>(hidden.level));
}

std::vector<explain::Link> why_of(const Library& library, const std::vector<Hidden>& hidden) {
  const auto in_common = explain::session_options();
  Session ailing(library.installation, in_common), sound(library.installation, in_common);
  for (const Hidden& one : hidden)
    diagnose::put_in(ailing, library.suspects[one.suspect], one.manner);
  const auto comparison = explain::compare(ailing, sound, library.watch.until, true);
  return explain::chain_of(ailing, sound, comparison);
}

std::optional<Case> draw_case(const Library& library, Level level, std::uint64_t seed) {
  Draw draw(library, level, seed);
  for (std::size_t attempt = 0; attempt < kMostTries && !draw.empty(); ++attempt) {
    Case one{level, seed, {}, {}, {}};
    for (std::size_t k = 0; k < (level == Level::kTwo ? 2 : 1); ++k) {
      const Run& run = library.runs[draw.next()];
      one.hidden.push_back({run.suspect, run.manner});
    }
    if (level == Level::kTwo && library.suspects[one.hidden[0].suspect].part ==
                                    library.suspects[one.hidden[1].suspect].part)
      continue;
    one.departures = noticed_of(library, one.hidden);
    one.reports = told_of(library, one);
    if (!diagnose::complaints(one.reports).empty()) return one;
  }
  return std::nullopt;
}

}  // namespace sixty::practice
