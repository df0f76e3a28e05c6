#include "sim/circuit/blocks.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::circuit {
namespace {

struct Edge {
  std::size_t a = 0, b = 0;
  std::uint8_t* told = nullptr;  // whether it is awake
  bool wakes = false;
};

/// `active` may be null: no coil wakes its block, and no capacitor joins any.
std::vector<Edge> edges_of(const Network& network, const State& state,
                           const std::vector<std::uint8_t>* active, Awake& awake) {
  std::vector<Edge> edges;
  const auto add = [&](Node a, Node b, std::uint8_t* told, bool wakes) {
    edges.push_back({static_cast<std::size_t>(a), static_cast<std::size_t>(b), told, wakes});
  };
  for (const Source& s : network.sources) add(s.plus, s.minus, nullptr, true);
  for (std::size_t k = 0; k < network.resistors.size(); ++k) {
    add(network.resistors[k].a, network.resistors[k].b, &awake.resistors[k], false);
  }
  if (active != nullptr) {
    for (const Capacitor& c : network.capacitors) add(c.a, c.b, nullptr, true);
  }
  for (std::size_t k = 0; k < network.diodes.size(); ++k) {
    if (state.diode_on[k] == 0) continue;
    add(network.diodes[k].anode, network.diodes[k].cathode, &awake.diodes[k], false);
  }
  for (std::size_t k = 0; k < network.contacts.size(); ++k) {
    if (state.contacts[k].gap == Gap::kOpen) continue;
    add(network.contacts[k].a, network.contacts[k].b, &awake.contacts[k], false);
  }
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    const bool wakes = active != nullptr && (*active)[j] != 0;
    add(network.coils[j].a, network.coils[j].b, &awake.coils[j], wakes);
  }
  return edges;
}

/// Depth-first search with a stack of edges (J. Hopcroft, R. Tarjan, Comm. ACM 16, 1973), without
/// recursion: a line may be thousands of nodes deep.
class Search {
 public:
  Search(std::size_t nodes, const std::vector<Edge>& edges)
      : edges_(edges), at_(nodes), order_(nodes, 0), low_(nodes, 0) {
    for (std::size_t e = 0; e < edges.size(); ++e) {
      at_[edges[e].a].push_back(e);
      if (edges[e].b != edges[e].a) at_[edges[e].b].push_back(e);
    }
    used_.assign(edges.size(), 0);
  }

  void run() {
    for (std::size_t n = 0; n < at_.size(); ++n) {
      if (order_[n] == 0) from(n);
    }
  }

 private:
  struct Frame {
    std::size_t node, next, entered_by;
  };

  void from(std::size_t root) {
    std::vector<Frame> way{{root, 0, SIZE_MAX}};
    order_[root] = low_[root] = ++count_;
    while (!way.empty()) {
      Frame& f = way.back();
      if (f.next < at_[f.node].size()) {
        visit(at_[f.node][f.next++], way);
        continue;
      }
      const Frame done = f;
      way.pop_back();
      if (way.empty()) return;
      const std::size_t parent = way.back().node;
      low_[parent] = std::min(low_[parent], low_[done.node]);
      if (low_[done.node] >= order_[parent]) close_block(done.entered_by);
    }
  }

  void visit(std::size_t e, std::vector<Frame>& way) {
    if (used_[e] != 0) return;
    used_[e] = 1;
    stack_.push_back(e);
    const std::size_t node = way.back().node;
    const std::size_t other = edges_[e].a == node ? edges_[e].b : edges_[e].a;
    if (order_[other] != 0) {
      low_[node] = std::min(low_[node], order_[other]);
      return;
    }
    order_[other] = low_[other] = ++count_;
    way.push_back({other, 0, e});
  }

  void close_block(std::size_t last) {
    const auto first = std::find(stack_.rbegin(), stack_.rend(), last).base() - 1;
    const bool wakes =
        std::any_of(first, stack_.end(), [&](std::size_t e) { return edges_[e].wakes; });
    for (auto it = first; it != stack_.end(); ++it) {
      if (wakes && edges_[*it].told != nullptr) *edges_[*it].told = 1;
    }
    stack_.erase(first, stack_.end());
  }

  const std::vector<Edge>& edges_;
  std::vector<std::vector<std::size_t>> at_;
  std::vector<std::size_t> order_, low_;
  std::vector<std::uint8_t> used_;
  std::vector<std::size_t> stack_;
  std::size_t count_ = 0;
};

Awake search(const Network& network, const State& state, const std::vector<std::uint8_t>* active) {
  Awake awake;
  awake.coils.assign(network.coils.size(), 0);
  awake.contacts.assign(network.contacts.size(), 0);
  awake.resistors.assign(network.resistors.size(), 0);
  awake.diodes.assign(network.diodes.size(), 0);
  const std::vector<Edge> edges = edges_of(network, state, active, awake);
  Search(static_cast<std::size_t>(network.node_count), edges).run();
  return awake;
}

}  // namespace

bool is_active(const Coil& coil, const CoilState& s) {
  if (moving(s.rest)) return true;
  return std::fabs(coil_current_a(coil.magnet, s.linkage_wb, s.gap_m, s.held_a)) > kNoCurrent;
}

Awake find_awake(const Network& network, const State& state,
                 const std::vector<std::uint8_t>& active) {
  return search(network, state, &active);
}

Awake find_fed(const Network& network, const State& state) {
  return search(network, state, nullptr);
}

}  // namespace sixty::circuit
