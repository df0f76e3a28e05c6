#include "sim/explain/way.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <queue>

namespace sixty::explain {
namespace {

using Kind = Piece::Kind;
using circuit::Node;

constexpr double kFar = std::numeric_limits<double>::infinity();

struct Edge {
  Node a = 0, b = 0;
  double ohm = 0;
  Kind kind = Kind::kResistor;
  std::size_t element = 0;
};

/// All but the coil and what lies right across it; without other coils, none that lies across one.
std::vector<Edge> conducting(const Session::CircuitNow& now, std::size_t but_coil,
                             bool through_coils) {
  const circuit::Network& n = now.network;
  const circuit::Coil& coil = n.coils[but_coil];
  const circuit::State& s = now.probe.state();
  std::vector<Edge> edges;
  for (std::size_t k = 0; k < n.resistors.size(); ++k)
    edges.push_back(
        {n.resistors[k].a, n.resistors[k].b, n.resistors[k].resistance_ohm, Kind::kResistor, k});
  for (std::size_t k = 0; k < n.contacts.size(); ++k) {
    if (s.contacts[k].gap == circuit::Gap::kClosed)
      edges.push_back({n.contacts[k].a, n.contacts[k].b, s.contacts[k].ohm, Kind::kContact, k});
  }
  for (std::size_t k = 0; k < n.diodes.size(); ++k)
    edges.push_back(
        {n.diodes[k].anode, n.diodes[k].cathode, n.diodes[k].resistance_ohm, Kind::kDiode, k});
  for (std::size_t k = 0; k < n.coils.size() && through_coils; ++k) {
    if (k != but_coil)
      edges.push_back({n.coils[k].a, n.coils[k].b, n.coils[k].resistance_ohm, Kind::kCoil, k});
  }
  const auto lies_across = [](const Edge& e, const circuit::Coil& c) {
    return (e.a == c.a && e.b == c.b) || (e.a == c.b && e.b == c.a);
  };
  const auto across = [&](const Edge& e) {
    if (through_coils) return lies_across(e, coil);
    return std::any_of(n.coils.begin(), n.coils.end(),
                       [&](const circuit::Coil& c) { return lies_across(e, c); });
  };
  edges.erase(std::remove_if(edges.begin(), edges.end(), across), edges.end());
  return edges;
}

/// Least resistances from a node to all others, and the edges that lead there.
struct Reach {
  std::vector<double> ohm;
  std::vector<const Edge*> by;
};

Reach reach(const std::vector<Edge>& edges, std::size_t nodes, Node from) {
  std::vector<std::vector<const Edge*>> at(nodes);
  for (const Edge& e : edges) {
    at[static_cast<std::size_t>(e.a)].push_back(&e);
    at[static_cast<std::size_t>(e.b)].push_back(&e);
  }
  Reach r{std::vector<double>(nodes, kFar), std::vector<const Edge*>(nodes, nullptr)};
  using Entry = std::pair<double, std::size_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
  r.ohm[static_cast<std::size_t>(from)] = 0;
  open.emplace(0, static_cast<std::size_t>(from));
  while (!open.empty()) {
    const auto [ohm, node] = open.top();
    open.pop();
    if (ohm > r.ohm[node]) continue;
    for (const Edge* e : at[node]) {
      const auto other =
          static_cast<std::size_t>(static_cast<std::size_t>(e->a) == node ? e->b : e->a);
      if (r.ohm[other] <= ohm + e->ohm) continue;
      r.ohm[other] = ohm + e->ohm;
      r.by[other] = e;
      open.emplace(r.ohm[other], other);
    }
  }
  return r;
}

void collect(const Reach& r, Node to, std::vector<Edge>& way) {
  auto node = static_cast<std::size_t>(to);
  while (const Edge* e = r.by[node]) {
    way.push_back(*e);
    node = static_cast<std::size_t>(static_cast<std::size_t>(e->a) == node ? e->b : e->a);
  }
}

const std::vector<int>& elements_of(const PartInstance& part, Kind kind) {
  switch (kind) {
    case Kind::kSource:
      return part.sources;
    case Kind::kContact:
      return part.contacts;
    case Kind::kCoil:
      return part.coils;
    default:
      return part.resistors;
  }
}

/// Diodes tell of no part of theirs; what hangs on them does.
bool owned(const Installation& build, Kind kind, std::size_t element, Piece& piece) {
  if (kind == Kind::kDiode) return false;
  for (std::size_t p = 0; p < build.parts.size(); ++p) {
    const std::vector<int>& mine = elements_of(build.parts[p], kind);
    const auto found = std::find(mine.begin(), mine.end(), static_cast<int>(element));
    if (found == mine.end()) continue;
    piece = {kind, p, static_cast<std::size_t>(found - mine.begin()), element};
    return true;
  }
  return false;
}

}  // namespace

namespace {

std::vector<Piece> way_of(const Session& session, std::size_t coil, bool through_coils) {
  const Session::CircuitNow now = session.circuit();
  const std::vector<Edge> edges = conducting(now, coil, through_coils);
  const circuit::Coil& c = now.network.coils[coil];
  const auto nodes = static_cast<std::size_t>(now.network.node_count);
  double best_ohm = kFar;
  std::vector<Edge> best;
  for (std::size_t s = 0; s < now.network.sources.size(); ++s) {
    const circuit::Source& source = now.network.sources[s];
    const Reach plus = reach(edges, nodes, source.plus);
    const Reach minus = reach(edges, nodes, source.minus);
    for (const auto& [first, second] : {std::pair(c.a, c.b), std::pair(c.b, c.a)}) {
      const double ohm =
          plus.ohm[static_cast<std::size_t>(first)] + minus.ohm[static_cast<std::size_t>(second)];
      if (ohm >= best_ohm) continue;
      best_ohm = ohm;
      best = {{source.plus, source.minus, source.resistance_ohm, Kind::kSource, s}};
      collect(plus, first, best);
      collect(minus, second, best);
    }
  }
  std::vector<Piece> way;
  for (const Edge& e : best) {
    Piece piece;
    if (owned(session.build(), e.kind, e.element, piece)) way.push_back(piece);
  }
  return way;
}

}  // namespace

std::vector<Piece> way_of(const Session& session, std::size_t coil) {
  const std::vector<Piece> straight = way_of(session, coil, false);
  return straight.empty() ? way_of(session, coil, true) : straight;
}

bool conducts(const Session& session, std::size_t contact) {
  return session.circuit().probe.state().contacts[contact].gap == circuit::Gap::kClosed;
}

bool find_piece(const Session& session, const Piece& piece, std::size_t& element) {
  const std::vector<int>& mine = elements_of(session.build().parts[piece.part], piece.kind);
  if (piece.place >= mine.size()) return false;
  element = static_cast<std::size_t>(mine[piece.place]);
  return true;
}

double volts_across(const Session& session, Kind kind, std::size_t k) {
  const Session::CircuitNow now = session.circuit();
  const circuit::Network& n = now.network;
  const auto across = [&](Node a, Node b) { return std::fabs(now.probe.volts(a, b)); };
  switch (kind) {
    case Kind::kSource:
      return across(n.sources[k].terminal(), n.sources[k].minus);
    case Kind::kResistor:
      return across(n.resistors[k].a, n.resistors[k].b);
    case Kind::kContact:
      return across(n.contacts[k].a, n.contacts[k].b);
    case Kind::kDiode:
      return across(n.diodes[k].anode, n.diodes[k].cathode);
    default:
      return across(n.coils[k].a, n.coils[k].b);
  }
}

std::map<Node, double> currents_into(const Session& session, const PartInstance& part) {
  const auto [network, probe] = session.circuit();
  std::map<Node, double> into;  // the part, at a node
  const auto enter = [&into](Node a, Node b, double current_a) {
    into[a] += current_a;
    into[b] -= current_a;
  };
  for (const int k : part.coils) {
    const auto j = static_cast<std::size_t>(k);
    enter(network.coils[j].a, network.coils[j].b, probe.coil_current_a(j));
  }
  for (const int k : part.contacts) {
    const auto j = static_cast<std::size_t>(k);
    enter(network.contacts[j].a, network.contacts[j].b, probe.contact_current_a(j));
  }
  for (const int k : part.resistors) {
    const circuit::Resistor& r = network.resistors[static_cast<std::size_t>(k)];
    enter(r.a, r.b, probe.volts(r.a, r.b) / r.resistance_ohm);
  }
  return into;
}

double drawn_a(const Session& session, const PartInstance& part) {
  const std::map<Node, double> into = currents_into(session, part);
  double most = 0;
  for (const auto& [terminal, node] : part.nodes) {
    const auto here = into.find(node);
    if (here != into.end()) most = std::max(most, std::fabs(here->second));
  }
  return most;
}

}  // namespace sixty::explain
