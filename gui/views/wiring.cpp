#include "gui/views/wiring.hpp"

#include <algorithm>
#include <cmath>

#include "sim/explain/way.hpp"

namespace sixty::gui {
namespace {

// Lanes on the case's board.
constexpr double kTop_y = 14, kTopPitch = 6;
constexpr double kFoot_y = 806, kFootPitch = 6;
constexpr double kMiddle_x = 1208, kMiddlePitch = 6;
constexpr double kRight_x = 1540, kRightPitch = 6;
constexpr double kBelow = 1;   // a terminal, where its wire turns
constexpr double kStep = 4.5;  // to the next place where a wire may run beside others
constexpr double kColumnSide_x = 1240, kLower_y = 770;

}  // namespace

Wiring::Exit Wiring::exit_of(const End& end) {
  if (end.at.x < kColumnSide_x) return end.at.y < 500 ? Exit::kTop : Exit::kFoot;
  if (end.at.y > kLower_y) return Exit::kFoot;
  return end.at.x < 1480 ? Exit::kMiddle : Exit::kRight;
}

/// Leads one net along its lanes: a lane in each channel that it needs.
class Wiring::Router {
 public:
  using Lane = std::vector<std::pair<double, std::size_t>>;  ///< where on it each end comes in

  Router(Wiring& wiring, const Pose& pose, Lanes& lanes, const std::vector<std::size_t>& net)
      : wiring_(wiring), pose_(pose), lanes_(lanes) {
    const auto has = [&](Exit exit) {
      return std::any_of(net.begin(), net.end(),
                         [&](std::size_t k) { return exit_of(wiring.laid_->ends[k]) == exit; });
    };
    at_top_ = has(Exit::kTop);
    at_foot_ = has(Exit::kFoot);
    at_right_ = has(Exit::kRight);
    // Up and down, what only top and foot need goes left of the column too.
    by_middle_ = has(Exit::kMiddle) || (at_top_ && (at_foot_ || at_right_));
    top_y_ = kTop_y + kTopPitch * (at_top_ ? lanes.top++ : 0);
    foot_y_ = kFoot_y + kFootPitch * (at_foot_ ? lanes.foot++ : 0);
    middle_x_ = kMiddle_x + kMiddlePitch * (by_middle_ ? lanes.middle++ : 0);
    right_x_ = kRight_x + kRightPitch * (at_right_ ? lanes.right++ : 0);
    for (const std::size_t k : net) lead_to_lane(k);
  }

  void lead() {
    if (at_top_) along_x(top_, by_middle_ ? middle_x_ : middle_of(top_), top_y_);
    lead_right();
    if (at_foot_) {
      if (at_right_) join(foot_, right_, right_x_);
      along_x(foot_, by_middle_ ? middle_x_ : middle_of(foot_), foot_y_);
    }
    if (!by_middle_) return;
    if (at_top_) join(middle_, top_, top_y_);
    along_y(middle_, at_foot_ ? foot_y_ : middle_of(middle_), middle_x_);
  }

 private:
  void lead_to_lane(std::size_t k) {
    const End& end = wiring_.laid_->ends[k];
    const Point p = end.at;
    switch (exit_of(end)) {
      case Exit::kTop: {
        const double x = free_place(lanes_.risers, p.x, end.node);
        wiring_.add(pose_, {p, {x, p.y}, {x, top_y_}}, {k});
        top_.emplace_back(x, k);
        break;
      }
      case Exit::kFoot: {
        const double x = free_place(lanes_.fallers, p.x, end.node);
        wiring_.add(pose_, {p, {x, p.y}, {x, foot_y_}}, {k});
        foot_.emplace_back(x, k);
        break;
      }
      case Exit::kMiddle: {
        const double y = free_place(lanes_.to_middle, p.y + kBelow, end.node);
        wiring_.add(pose_, {p, {p.x, y}, {middle_x_, y}}, {k});
        middle_.emplace_back(y, k);
        break;
      }
      case Exit::kRight:
        wiring_.add(pose_, {p, {right_x_, p.y}}, {k});
        right_.emplace_back(p.y, k);
        break;
    }
  }

  /// The first place from there on at which no other net runs.
  static double free_place(Lanes::Taken& taken, double at, circuit::Node net) {
    const auto is_others = [&](const auto& other) {
      return other.second != net && std::fabs(other.first - at) < 0.9 * kStep;
    };
    while (std::any_of(taken.begin(), taken.end(), is_others)) at += kStep;
    taken.emplace_back(at, net);
    return at;
  }

  /// What is right of the column goes down to the foot or, where nothing is there, along the top.
  void lead_right() {
    if (!at_right_) return;
    if (at_top_ && !at_foot_) {
      along_y(right_, top_y_, right_x_);
      std::vector<std::size_t> all;
      for (const auto& [where, k] : right_) all.push_back(k);
      wiring_.add(pose_, {{middle_x_, top_y_}, {right_x_, top_y_}}, all);
    } else {
      along_y(right_, at_foot_ ? foot_y_ : middle_of(right_), right_x_);
    }
  }

  static double middle_of(const Lane& lane) { return lane[lane.size() / 2].first; }
  static void join(Lane& lane, const Lane& other, double where) {
    for (const auto& [theirs, k] : other) lane.emplace_back(where, k);
  }
  void along_x(const Lane& lane, double join, double y) {
    along(lane, join, [y](double x) { return Point{x, y}; });
  }
  void along_y(const Lane& lane, double join, double x) {
    along(lane, join, [x](double y) { return Point{x, y}; });
  }

  /// Each stretch carries what the ends beyond it take, away from where the lane joins the next.
  template <class Place>
  void along(Lane lane, double join, const Place& place) {
    std::sort(lane.begin(), lane.end());
    const auto walk = [&](auto begin, auto end) {
      std::vector<std::size_t> beyond;
      for (auto it = begin; it != end; ++it) {
        beyond.push_back(it->second);
        const auto next = std::next(it);
        const double to = next != end ? next->first : join;
        if (to != it->first) wiring_.add(pose_, {place(it->first), place(to)}, beyond);
      }
    };
    const auto split = std::partition_point(lane.begin(), lane.end(),
                                            [&](const auto& end) { return end.first <= join; });
    walk(lane.begin(), split);
    walk(std::make_reverse_iterator(lane.end()), std::make_reverse_iterator(split));
  }

  Wiring& wiring_;
  const Pose& pose_;
  Lanes& lanes_;
  Lane top_, foot_, middle_, right_;
  bool at_top_ = false, at_foot_ = false, at_right_ = false, by_middle_ = false;
  double top_y_ = 0, foot_y_ = 0, middle_x_ = 0, right_x_ = 0;
};

Wiring::Wiring(std::vector<End> ends, const Pose& pose) {
  laid_->ends = std::move(ends);
  const std::vector<End>& own = laid_->ends;
  std::map<circuit::Node, std::vector<std::size_t>> nets;
  for (std::size_t k = 0; k < own.size(); ++k) nets[own[k].node].push_back(k);
  Lanes lanes;
  for (const auto& [node, net] : nets) {
    if (net.size() >= 2) Router(*this, pose, lanes, net).lead();
  }
  for (std::size_t k = 0; k < runs_.size(); ++k) runs_[k].way = laid_->ways[k];
}

void Wiring::add(const Pose& pose, const std::vector<Point>& way, std::vector<std::size_t> ends) {
  Run run;
  run.net = laid_->ends[ends.front()].node;
  std::vector<Point> on_stage;
  for (const Point p : way) on_stage.push_back(pose.of(p));
  laid_->ways.push_back(std::move(on_stage));
  laid_->branches.push_back({std::move(ends), runs_.size()});
  runs_.push_back(run);
}

// What a source gives goes into the others on its nodes: within it, more may flow than leaves it.
void Wiring::look(const Session& session) {
  const std::vector<PartInstance>& parts = session.build().parts;
  std::vector<std::map<circuit::Node, double>> into(parts.size());
  std::map<circuit::Node, double> taken;
  for (PartId p = 0; p < parts.size(); ++p) {
    if (!parts[p].sources.empty()) continue;
    into[p] = explain::currents_into(session, parts[p]);
    for (const auto& [node, current_a] : into[p]) taken[node] += current_a;
  }
  const auto current_into = [&](const End& end) {
    const PartInstance& part = parts[end.part];
    const auto node = part.nodes.find(end.terminal);
    if (node == part.nodes.end()) return 0.0;
    const auto& amounts = part.sources.empty() ? into[end.part] : taken;
    const auto at = amounts.find(node->second);
    if (at == amounts.end()) return 0.0;
    return part.sources.empty() ? at->second : -at->second;
  };
  for (const Branch& branch : laid_->branches) {
    double sum = 0;
    for (const std::size_t k : branch.ends) sum += current_into(laid_->ends[k]);
    runs_[branch.run].current_a = sum;
  }
}

}  // namespace sixty::gui
