#include "sim/run/circuits.hpp"

#include <algorithm>
#include <limits>
#include <queue>
#include <set>

namespace sixty {
namespace {

constexpr double kEachOhm = 1;     // whatever is passed counts, even if it has no resistance
constexpr double kCoilOhm = 1000;  // another coil is passed only where there is no other way
constexpr double kNowhere = std::numeric_limits<double>::infinity();

/// Ways of least resistance to every node from where they begin.
struct Reach {
  std::vector<double> ohm;
  std::vector<std::size_t> from;  ///< the node before; itself where it begins
  std::vector<PartId> by;  ///< the part that is passed last; where it begins, whose end it is
};

struct Edge {
  std::size_t a = 0, b = 0;
  PartId part = 0;
  double ohm = 0;
  bool is_contact = false;
};

using Ends = std::vector<std::pair<circuit::Node, PartId>>;

/// The network as ways from node to node, each through a part.
class Ways {
 public:
  explicit Ways(const Installation& installation) {
    const circuit::Network& network = *installation.network;
    at_.resize(index(network.node_count));
    for (PartId id = 0; id < installation.parts.size(); ++id) {
      const PartInstance& part = installation.parts[id];
      for (const int k : part.contacts) add(network.contacts[index(k)], id, kEachOhm, true);
      for (const int k : part.resistors)
        add(network.resistors[index(k)], id, kEachOhm + network.resistors[index(k)].resistance_ohm,
            false);
      for (const int k : part.coils) add(network.coils[index(k)], id, kCoilOhm, false);
    }
  }

  /// `shut`: nodes from which no way goes on.
  Reach from(const Ends& begins, const Ends& shut) const {
    Reach reach;
    reach.ohm.assign(at_.size(), kNowhere);
    reach.from.resize(at_.size());
    reach.by.resize(at_.size());
    using Step = std::pair<double, std::size_t>;
    std::priority_queue<Step, std::vector<Step>, std::greater<>> next;
    for (const auto& [node, part] : begins) {
      reach.ohm[index(node)] = 0;
      reach.from[index(node)] = index(node);
      reach.by[index(node)] = part;
      next.emplace(0, index(node));
    }
    while (!next.empty()) {
      const auto [ohm, at] = next.top();
      next.pop();
      const bool goes_on = std::none_of(shut.begin(), shut.end(), [&, node = at](const auto& end) {
        return index(end.first) == node;
      });
      if (ohm > reach.ohm[at] || !goes_on) continue;
      for (const std::size_t k : at_[at]) {
        const Edge& edge = edges_[k];
        const std::size_t to = edge.a == at ? edge.b : edge.a;
        if (ohm + edge.ohm >= reach.ohm[to]) continue;
        reach.ohm[to] = ohm + edge.ohm;
        reach.from[to] = at;
        reach.by[to] = edge.part;
        next.emplace(reach.ohm[to], to);
      }
    }
    return reach;
  }

  const std::vector<Edge>& edges() const { return edges_; }
  static std::size_t index(int k) { return static_cast<std::size_t>(k); }

 private:
  template <class Element>
  void add(const Element& one, PartId part, double ohm, bool is_contact) {
    for (const int node : {one.a, one.b}) at_[index(node)].push_back(edges_.size());
    edges_.push_back({index(one.a), index(one.b), part, ohm, is_contact});
  }

  std::vector<Edge> edges_;
  std::vector<std::vector<std::size_t>> at_;  ///< edges at each node
};

/// Adds the parts of a way back to where it begins; its nodes too.
void trace(const Reach& reach, std::size_t node, std::set<PartId>& parts,
           std::set<std::size_t>& nodes) {
  nodes.insert(node);
  for (; reach.from[node] != node; node = reach.from[node]) {
    parts.insert(reach.by[node]);
    nodes.insert(reach.from[node]);
  }
  parts.insert(reach.by[node]);
}

/// Adds what lies on ways from a source to one end of a coil: the shortest, and the shortest
/// through each other contact that leads there.
void add_ways(const Ways& ways, const Ends& source_ends, const Ends& all_ends, circuit::Node end,
              PartId whose, std::set<PartId>& parts) {
  const Ends own{{end, whose}};
  const Reach source = ways.from(source_ends, own), coil = ways.from(own, all_ends);
  std::set<std::size_t> unheeded;
  trace(source, Ways::index(end), parts, unheeded);
  for (const Edge& edge : ways.edges()) {
    if (!edge.is_contact) continue;
    for (const auto& [near, far] : {std::pair(edge.a, edge.b), std::pair(edge.b, edge.a)}) {
      if (source.ohm[near] + coil.ohm[far] >= kCoilOhm) continue;
      std::set<PartId> passed{edge.part};
      std::set<std::size_t> there, back;
      trace(source, near, passed, there);
      trace(coil, far, passed, back);
      const bool meets = std::any_of(there.begin(), there.end(),
                                     [&](std::size_t node) { return back.count(node) != 0; });
      if (!meets) parts.insert(passed.begin(), passed.end());
    }
  }
}

}  // namespace

std::vector<std::vector<PartId>> circuits_of(const Installation& installation) {
  const Ways ways(installation);
  Ends plus_ends, minus_ends;
  for (PartId id = 0; id < installation.parts.size(); ++id) {
    for (const int k : installation.parts[id].sources) {
      const circuit::Source& source = installation.network->sources[Ways::index(k)];
      plus_ends.emplace_back(source.terminal(), id);
      minus_ends.emplace_back(source.minus, id);
    }
  }
  Ends all_ends = plus_ends;
  all_ends.insert(all_ends.end(), minus_ends.begin(), minus_ends.end());
  const Reach plus = ways.from(plus_ends, {}), minus = ways.from(minus_ends, {});
  std::vector<std::vector<PartId>> all(installation.parts.size());
  for (PartId id = 0; id < installation.parts.size(); ++id) {
    std::set<PartId> parts{id};
    for (const int k : installation.parts[id].coils) {
      const circuit::Coil& coil = installation.network->coils[Ways::index(k)];
      const std::size_t a = Ways::index(coil.a), b = Ways::index(coil.b);
      const double straight = plus.ohm[a] + minus.ohm[b], crossed = plus.ohm[b] + minus.ohm[a];
      if (std::min(straight, crossed) == kNowhere) continue;
      add_ways(ways, straight <= crossed ? plus_ends : minus_ends, all_ends, coil.a, id, parts);
      add_ways(ways, straight <= crossed ? minus_ends : plus_ends, all_ends, coil.b, id, parts);
    }
    if (parts.size() > 1) all[id].assign(parts.begin(), parts.end());
  }
  return all;
}

}  // namespace sixty
