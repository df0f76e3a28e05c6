#include "sim/scene/network_check.hpp"

namespace sixty {
namespace {

using circuit::Node;

struct NodeUse {
  int coils = 0;
  circuit::Owner first_coil = -1;
  bool conducts = false;
};

std::vector<NodeUse> node_uses(const circuit::Network& network) {
  std::vector<NodeUse> uses(static_cast<std::size_t>(network.node_count));
  const auto conducts = [&](Node a, Node b) {
    uses[static_cast<std::size_t>(a)].conducts = true;
    uses[static_cast<std::size_t>(b)].conducts = true;
  };
  for (const circuit::Source& s : network.sources) conducts(s.plus, s.minus);
  for (const circuit::Resistor& r : network.resistors) conducts(r.a, r.b);
  for (const circuit::Capacitor& c : network.capacitors) conducts(c.a, c.b);
  for (const circuit::Diode& d : network.diodes) conducts(d.anode, d.cathode);
  for (const circuit::Contact& c : network.contacts) conducts(c.a, c.b);
  for (const circuit::Coil& c : network.coils) {
    for (const Node node : {c.a, c.b}) {
      NodeUse& use = uses[static_cast<std::size_t>(node)];
      if (use.coils++ == 0) use.first_coil = c.owner;
    }
  }
  return uses;
}

const DraftNet* net_at(const Draft& draft, const Installation& installation, std::size_t node) {
  for (const DraftNet& net : draft.nets)
    if (static_cast<std::size_t>(installation.nets.at(net.name)) == node) return &net;
  return nullptr;
}

}  // namespace

void check_network(const circuit::Network& network, const Draft& draft,
                   const Installation& installation, Mistakes& mistakes) {
  const std::vector<NodeUse> uses = node_uses(network);
  for (std::size_t node = 0; node < uses.size(); ++node) {
    if (uses[node].coils < 2 || uses[node].conducts) continue;
    const DraftNet* net = net_at(draft, installation, node);
    const DraftPart& part = draft.parts[static_cast<std::size_t>(uses[node].first_coil)];
    mistakes.add(net != nullptr ? net->place : part.place,
                 {(net != nullptr ? "wires." + net->name : part.name) +
                      ": coils meet here and nothing else conducts",
                  std::to_string(uses[node].coils) + " ends of coils",
                  "a resistor, contact, capacitor or source at every joint of coils",
                  "put a resistor across one of the coils (a large one will do)"});
  }
}

}  // namespace sixty
