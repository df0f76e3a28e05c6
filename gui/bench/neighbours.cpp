#include "gui/bench/neighbours.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace sixty::gui {
namespace {

// A net of more is a rail, and tells nothing of what works with what.
constexpr std::size_t kRail = 8;

using Targets = std::vector<std::vector<std::pair<PartId, std::size_t>>>;

bool reaches(const Targets& targets, PartId part) {
  return std::any_of(targets.begin(), targets.end(), [part](const auto& each) {
    return std::any_of(each.begin(), each.end(),
                       [part](const auto& target) { return target.first == part; });
  });
}

bool feeds(const PartInstance& from, PartId to) {
  return reaches(from.listeners, to) || reaches(from.takers, to);
}

}  // namespace

Neighbours neighbours_of(const Installation& installation, PartId part) {
  std::map<circuit::Node, std::set<PartId>> nets;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    for (const auto& [terminal, node] : installation.parts[p].nodes) nets[node].insert(p);
  }
  std::set<PartId> joined;
  for (const auto& [terminal, node] : installation.parts[part].nodes) {
    const std::set<PartId>& net = nets.at(node);
    if (net.size() <= kRail) joined.insert(net.begin(), net.end());
  }
  Neighbours found;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    if (p == part) continue;
    if (feeds(installation.parts[p], part)) found.fed_by.push_back(p);
    if (feeds(installation.parts[part], p)) found.feeds.push_back(p);
    if (joined.count(p) != 0) found.joined.push_back(p);
  }
  return found;
}

}  // namespace sixty::gui
