#include "gui/views/loop_lines.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "sim/explain/way.hpp"

namespace sixty::gui {
namespace {

constexpr double kHalfApart = 2 * kUnit;   // of the distance between two wires
constexpr double kStartPitch = 8 * kUnit;  // between lines where they leave the case
constexpr double kTagPitch = 17 * kUnit;
constexpr double kDip = 0.22;  // of a part's radius: where a series line goes down to it

}  // namespace

/// Leads one loop.
class LoopLines::Router {
 public:
  using Places = std::vector<std::pair<double, std::vector<std::size_t>>>;

  Router(Laid& laid, std::size_t number, const House& house)
      : laid_(laid), loop_(laid.loops[number]), number_(number), house_(house) {}

  void lead() {
    for (std::size_t s = 0; s < house_.storeys.size(); ++s) taps_.push_back(taps_of(s));
    const Storey& home = house_.storeys[house_.case_storey];
    const double lane = home.lane(number_);
    const double x = start_x();
    Places ends = taps_[house_.case_storey];
    std::vector<std::size_t> away;
    for (std::size_t s = 0; s < taps_.size(); ++s) {
      if (s == house_.case_storey) continue;
      for (const auto& tap : taps_[s]) away.push_back(tap.second.front());
    }
    const bool here = !ends.empty();
    std::vector<std::size_t> all = away;
    for (const auto& tap : ends) all.push_back(tap.second.front());
    if (all.empty()) return;
    add({{x, house_.case_pose.at.y}, {x, lane}}, !loop_.numbered, all);
    if (!away.empty()) ends.emplace_back(house_.lines_x[number_], away);
    along(ends, x, lane, away.empty() ? -1e30 : house_.lines_x[number_]);
    if (here) tag(ends, x, lane, home);
    lead_up(lane, true);
    lead_up(lane, false);
  }

 private:
  struct Tap {
    double x = 0, y = 0;
  };

  Places taps_of(std::size_t storey) const {
    Places taps;
    for (std::size_t k = 0; k < loop_.parts.size(); ++k) {
      if (const Hanging* hanging = find(loop_.parts[k]);
          hanging != nullptr && hanging->storey == storey)
        taps.push_back({hanging->pose.at.x, {k}});
    }
    return taps;
  }

  const Hanging* find(PartId part) const {
    const auto at = std::find_if(house_.hangings.begin(), house_.hangings.end(),
                                 [&](const Hanging& h) { return h.part == part; });
    return at == house_.hangings.end() ? nullptr : &*at;
  }

  /// The line that runs on top leaves the case farthest to the right: so fewest cross.
  double start_x() const {
    const std::vector<std::size_t>& run = house_.storeys[house_.case_storey].loops;
    const auto rank = std::find(run.begin(), run.end(), number_) - run.begin();
    const Point right = house_.case_pose.of(Point{kCaseBoard.x * 0.97, 0});
    return right.x - kStartPitch * static_cast<double>(rank);
  }

  /// From the case's storey upwards, or downwards, in the shaft.
  void lead_up(double from, bool up) {
    std::vector<std::size_t> storeys;
    for (std::size_t s = 0; s < taps_.size(); ++s) {
      if (!taps_[s].empty() && (up ? s < house_.case_storey : s > house_.case_storey))
        storeys.push_back(s);
    }
    if (up) std::reverse(storeys.begin(), storeys.end());
    const double x = house_.lines_x[number_];
    for (std::size_t i = 0; i < storeys.size(); ++i) {
      std::vector<std::size_t> beyond;
      for (std::size_t k = i; k < storeys.size(); ++k) {
        for (const auto& tap : taps_[storeys[k]]) beyond.push_back(tap.second.front());
      }
      const Storey& storey = house_.storeys[storeys[i]];
      const double lane = storey.lane(number_);
      add({{x, from}, {x, lane}}, !loop_.numbered, beyond);
      along(taps_[storeys[i]], x, lane, -1e30);
      tag(taps_[storeys[i]], x, lane, storey);
      from = lane;
    }
  }

  /// Along a ceiling, both ways from where it is fed.
  void along(Places places, double from, double lane, double shaft) {
    std::sort(places.begin(), places.end());
    const auto split = std::partition_point(places.begin(), places.end(),
                                            [&](const auto& p) { return p.first < from; });
    walk(Places(std::make_reverse_iterator(split), places.rend()), from, lane, shaft);
    walk(Places(split, places.end()), from, lane, shaft);
  }

  /// `places`: one after the other, away from where they are fed.
  void walk(const Places& places, double from, double lane, double shaft) {
    double at = from;
    for (std::size_t i = 0; i < places.size(); ++i) {
      std::vector<std::size_t> beyond;
      for (std::size_t k = i; k < places.size(); ++k)
        beyond.insert(beyond.end(), places[k].second.begin(), places[k].second.end());
      const double x = places[i].first;
      if (x == shaft || !loop_.series) {
        add({{at, lane}, {x, lane}}, !loop_.numbered, beyond);
        if (x != shaft) drop(x, lane, places[i].second);
      } else {
        dip(at, x, lane, i + 1 == places.size(), beyond);
      }
      at = x;
    }
  }

  void drop(double x, double lane, const std::vector<std::size_t>& part) {
    const Pose& pose = find(loop_.parts[part.front()])->pose;
    add({{x, lane}, {x, pose.at.y - 50 * pose.scale}}, !loop_.numbered, part);
    laid_.stretches.back().joins = true;
  }

  /// One wire goes down to the part and up again, the other comes back above it.
  void dip(double from, double x, double lane, bool last, const std::vector<std::size_t>& beyond) {
    const Pose& pose = find(loop_.parts[beyond.front()])->pose;
    const double d = (x > from ? 1 : -1) * kDip * 100 * pose.scale;
    const double foot = pose.at.y - 50 * pose.scale;
    const double low = lane + kHalfApart, high = lane - kHalfApart;
    add({{from, low}, {x - d, low}, {x - d, foot}}, false, beyond);
    if (last) {
      add({{x + d, foot}, {x + d, high}, {from, high}}, false, beyond);
    } else {
      add({{x + d, foot}, {x + d, low}, {x, low}}, false, beyond);
      add({{from, high}, {x, high}}, false, beyond);
    }
  }

  void tag(const Places& places, double from, double lane, const Storey& storey) {
    const auto rank =
        std::find(storey.loops.begin(), storey.loops.end(), number_) - storey.loops.begin();
    const bool to_right =
        std::any_of(places.begin(), places.end(), [&](const auto& p) { return p.first > from; });
    const bool at_case = &storey == &house_.storeys[house_.case_storey];
    const double wall = at_case && to_right ? house_.case_pose.of(Point{kCaseBoard.x, 0}).x
                        : at_case           ? house_.case_pose.at.x
                                            : house_.shaft;
    const double away = kTagPitch * (static_cast<double>(rank) + 0.7);
    laid_.tags.push_back({number_, {wall + (to_right ? away : -away), lane}});
  }

  void add(std::vector<Point> way, bool pair, std::vector<std::size_t> beyond) {
    laid_.stretches.push_back({number_, std::move(way), pair, false, std::move(beyond)});
  }

  Laid& laid_;
  const Loop& loop_;
  std::size_t number_;
  const House& house_;
  std::vector<Places> taps_;
};

LoopLines::LoopLines(std::vector<Loop> loops, const House& house) {
  auto laid = std::make_shared<Laid>();
  laid->loops = std::move(loops);
  for (std::size_t k = 0; k < laid->loops.size(); ++k) Router(*laid, k, house).lead();
  current_a_.resize(laid->stretches.size());
  loop_a_.resize(laid->loops.size());
  for (const Loop& loop : laid->loops) part_a_.emplace_back(loop.parts.size());
  laid_ = std::move(laid);
}

void LoopLines::look(const Session& session) {
  const std::vector<PartInstance>& parts = session.build().parts;
  for (std::size_t k = 0; k < laid_->loops.size(); ++k) {
    const std::vector<PartId>& own = laid_->loops[k].parts;
    for (std::size_t i = 0; i < own.size(); ++i)
      part_a_[k][i] = explain::drawn_a(session, parts[own[i]]);
    loop_a_[k] = 0;
  }
  for (std::size_t s = 0; s < laid_->stretches.size(); ++s) {
    const Stretch& stretch = laid_->stretches[s];
    double sum = 0, most = 0;
    for (const std::size_t k : stretch.beyond) {
      sum += part_a_[stretch.loop][k];
      most = std::max(most, part_a_[stretch.loop][k]);
    }
    current_a_[s] = laid_->loops[stretch.loop].series ? most : sum;
    loop_a_[stretch.loop] = std::max(loop_a_[stretch.loop], current_a_[s]);
  }
}

double LoopLines::largest_a() const {
  return loop_a_.empty() ? 0 : *std::max_element(loop_a_.begin(), loop_a_.end());
}

}  // namespace sixty::gui
