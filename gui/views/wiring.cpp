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
constexpr double kColumn_x = 1240, kUpper_y = 600, kLower_y = 770;

}  // namespace

Wiring::Exit Wiring::exit_of(const End& end) {
  if (end.at.x < kColumn_x) return end.at.y < 500 ? Exit::kTop : Exit::kFoot;
  if (end.at.y > kLower_y) return Exit::kFoot;
  return end.at.x < 1480 ? Exit::kMiddle : Exit::kRight;
}

// Every net that reaches several of the four channels has one lane in each of them that it needs;
// the lanes of one channel lie side by side in the order of the nets.
Wiring::Wiring(std::vector<End> ends, const Pose& pose) : ends_(std::move(ends)) {
  std::map<circuit::Node, std::vector<std::size_t>> nets;
  for (std::size_t k = 0; k < ends_.size(); ++k) nets[ends_[k].node].push_back(k);
  int top = 0, foot = 0, middle = 0, right = 0;
  for (const auto& each : nets) {
    const std::vector<std::size_t>& net = each.second;
    if (net.size() < 2) continue;
    const auto has = [&](Exit exit) {
      return std::any_of(net.begin(), net.end(),
                         [&](std::size_t k) { return exit_of(ends_[k]) == exit; });
    };
    const bool at_top = has(Exit::kTop), at_foot = has(Exit::kFoot);
    const bool at_middle = has(Exit::kMiddle), at_right = has(Exit::kRight);
    const double top_y = kTop_y + kTopPitch * (at_top ? top++ : 0);
    const double foot_y = kFoot_y + kFootPitch * (at_foot ? foot++ : 0);
    // Up and down, what only top and foot need goes left of the column too.
    const bool by_middle = at_middle || (at_top && (at_foot || at_right));
    const double middle_x = kMiddle_x + kMiddlePitch * (by_middle ? middle++ : 0);
    const double right_x = kRight_x + kRightPitch * (at_right ? right++ : 0);
    std::vector<std::pair<double, std::size_t>> on_top, on_foot, on_middle, on_right;
    for (const std::size_t k : net) {
      const Point p = ends_[k].at;
      switch (exit_of(ends_[k])) {
        case Exit::kTop:
          add(pose, {p, {p.x, top_y}}, {k});
          on_top.emplace_back(p.x, k);
          break;
        case Exit::kFoot:
          add(pose, {p, {p.x, foot_y}}, {k});
          on_foot.emplace_back(p.x, k);
          break;
        case Exit::kMiddle:
          add(pose, {p, {p.x, p.y + 6}, {middle_x, p.y + 6}}, {k});
          on_middle.emplace_back(p.y + 6, k);
          break;
        case Exit::kRight:
          add(pose, {p, {right_x, p.y}}, {k});
          on_right.emplace_back(p.y, k);
          break;
      }
    }
    const auto all_of = [](const auto& lane) {
      std::vector<std::size_t> numbers;
      for (const auto& [where, k] : lane) numbers.push_back(k);
      return numbers;
    };
    // Along a lane each stretch carries what the ends beyond it take, away from where it joins.
    const auto along = [&](std::vector<std::pair<double, std::size_t>> lane, double join,
                           const auto& point) {
      std::sort(lane.begin(), lane.end());
      const auto walk = [&](auto begin, auto end) {
        std::vector<std::size_t> beyond;
        for (auto it = begin; it != end; ++it) {
          beyond.push_back(it->second);
          const auto next = std::next(it);
          const double to = next != end ? next->first : join;
          if (to != it->first) add(pose, {point(it->first), point(to)}, beyond);
        }
      };
      const auto split = std::partition_point(lane.begin(), lane.end(),
                                              [&](const auto& e) { return e.first <= join; });
      walk(lane.begin(), split);
      walk(std::make_reverse_iterator(lane.end()), std::make_reverse_iterator(split));
    };
    const auto middle_of = [](const auto& lane) { return lane[lane.size() / 2].first; };
    const auto on_x = [](double y) { return [y](double x) { return Point{x, y}; }; };
    const auto on_y = [](double x) { return [x](double y) { return Point{x, y}; }; };
    if (at_top) along(on_top, by_middle ? middle_x : middle_of(on_top), on_x(top_y));
    if (at_right && at_top && !at_foot) {
      add(pose, {{middle_x, top_y}, {right_x, top_y}}, all_of(on_right));
      on_right.emplace_back(top_y, on_right.front().second);
      on_right.pop_back();
      along(on_right, top_y, on_y(right_x));
    } else if (at_right) {
      along(on_right, at_foot ? foot_y : middle_of(on_right), on_y(right_x));
    }
    if (at_foot) {
      if (at_right) {
        for (const std::size_t k : all_of(on_right)) on_foot.emplace_back(right_x, k);
      }
      along(on_foot, by_middle ? middle_x : middle_of(on_foot), on_x(foot_y));
    }
    if (by_middle) {
      if (at_top) {
        for (const std::size_t k : all_of(on_top)) on_middle.emplace_back(top_y, k);
      }
      along(on_middle, at_foot ? foot_y : middle_of(on_middle), on_y(middle_x));
    }
  }
}

void Wiring::add(const Pose& pose, std::vector<Point> way, std::vector<std::size_t> ends) {
  Run run;
  for (const Point p : way) run.way.push_back(pose.of(p));
  branches_.push_back({std::move(ends), runs_.size()});
  runs_.push_back(std::move(run));
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
  for (const Branch& branch : branches_) {
    double sum = 0;
    for (const std::size_t k : branch.ends) sum += current_into(ends_[k]);
    runs_[branch.run].current_a = sum;
  }
}

}  // namespace sixty::gui
