#include "sim/scene/wiring.hpp"

#include <utility>

namespace sixty {
namespace {

using Terminal = std::pair<std::string, std::string>;  // part, terminal

struct Wired {
  circuit::Node node = 0;
  std::string net;
  Place place;
};
using Wiring = std::map<Terminal, Wired>;

std::string place_text(const Place& place) {
  return std::to_string(place.line) + ":" + std::to_string(place.column);
}

// Looks a terminal up among the declared ones. Errors: false, reported where it was not before.
bool is_terminal(const Draft& draft, const Reference& reference, const Written& written,
                 Mistakes& mistakes) {
  const DraftPart* part = find_part(draft, reference.part, written, mistakes);
  if (part == nullptr) return false;
  const std::vector<NamedDecl>& terminals = part->kind->declaration.terminals;
  if (index_of(terminals, reference.item) < terminals.size()) return true;
  mistakes.add_unknown(written.place, titled(*part), "terminal", reference.item,
                       names_of(terminals));
  return false;
}

void wire_terminal(const Draft& draft, const DraftNet& net, circuit::Node node,
                   const Written& written, Wiring& wiring, Mistakes& mistakes) {
  Reference reference;
  if (!split_reference(written, "part.terminal", reference, mistakes)) return;
  if (!is_terminal(draft, reference, written, mistakes)) return;
  const Wired wired{node, net.name, written.place};
  const auto [it, fresh] = wiring.insert({{reference.part, reference.item}, wired});
  if (fresh) return;
  const Wired& other = it->second;
  const std::string before = "net \"" + other.net + "\", " + place_text(other.place);
  mistakes.add(written.place, {written.label + ": this terminal is wired already (" + before + ")",
                               written.text, "each terminal in one net, once",
                               other.net == net.name ? "leave it out here"
                                                     : "leave it out of one, or join both nets"});
}

// Places of the nets' nodes: the reference first, the others in the order of the file.
std::vector<circuit::Node> number_nets(const std::vector<DraftNet>& nets) {
  std::size_t reference = index_of(nets, "minus");
  if (reference == nets.size()) reference = 0;
  std::vector<circuit::Node> nodes;
  circuit::Node next = 1;
  for (std::size_t i = 0; i < nets.size(); ++i) nodes.push_back(i == reference ? 0 : next++);
  return nodes;
}

}  // namespace

circuit::Node assign_nodes(const Draft& draft, Installation& installation, Mistakes& mistakes) {
  Wiring wiring;
  const std::vector<circuit::Node> nodes = number_nets(draft.nets);
  for (std::size_t i = 0; i < draft.nets.size(); ++i) {
    const DraftNet& net = draft.nets[i];
    installation.nets[net.name] = nodes[i];
    for (const Written& terminal : net.terminals)
      wire_terminal(draft, net, nodes[i], terminal, wiring, mistakes);
    if (net.terminals.size() >= 2) continue;
    mistakes.add(net.place, {"wires." + net.name + ": a net joins at least two terminals",
                             net.terminals.empty() ? "none" : net.terminals[0].text + " alone",
                             "[part.terminal, part.terminal]",
                             "add where the wire leads, or leave the net out"});
  }
  auto next = static_cast<circuit::Node>(nodes.size());
  for (PartInstance& part : installation.parts) {
    if (part.kind == nullptr) continue;
    for (const NamedDecl& terminal : part.kind->declaration.terminals) {
      const auto it = wiring.find({part.name, terminal.name});
      part.nodes[terminal.name] = it == wiring.end() ? next++ : it->second.node;
    }
  }
  return next;
}

}  // namespace sixty
