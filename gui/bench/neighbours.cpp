#include "gui/bench/neighbours.hpp"

#include <algorithm>
#include <deque>
#include <map>
#include <set>

namespace sixty::gui {
namespace {

// A net of more is a rail, and tells nothing of what works with what but who feeds it.
constexpr std::size_t kRail = 8;

using Node = circuit::Node;
/// A part that is on no wire and belongs to no mechanism only keeps account of the others: nothing
/// is driven by it, and it by nothing.
bool does_work(const PartInstance& part) {
  const Declaration& declared = part.kind->declaration;
  return !part.nodes.empty() || !declared.offered.empty() ||
         std::any_of(declared.taken.begin(), declared.taken.end(),
                     [](const LinkDecl& link) { return !link.optional; });
}

/// By a link that the other needs, or a signal: one that it may do without, as to the air about it
/// or to a clock that it is compared with, drives nothing.
bool works(const PartInstance& from, const PartInstance& other, PartId to) {
  if (!does_work(from) || !does_work(other)) return false;
  const auto is_to = [to](const auto& target) { return target.first == to; };
  const auto is_needed = [&](const auto& target) {
    return is_to(target) && !other.kind->declaration.taken[target.second].optional;
  };
  const auto any = [](const auto& all, const auto& is_so) {
    return std::any_of(all.begin(), all.end(), [&](const auto& each) {
      return std::any_of(each.begin(), each.end(), is_so);
    });
  };
  return any(from.listeners, is_to) || any(from.takers, is_needed);
}

/// What a part is to a node of the network.
enum class Role : std::uint8_t {
  kNone,
  kGives,    ///< its source, or a contact that a mechanism works, is there
  kTakes,    ///< its coil is
  kLeadsOn,  ///< the current goes through it, and only hands work it
};

/// Walks the network from part to part.
class Wires {
 public:
  explicit Wires(const Installation& installation) : scene_(installation) {
    for (PartId p = 0; p < scene_.parts.size(); ++p) {
      for (const auto& [terminal, node] : scene_.parts[p].nodes) nets_[node].insert(p);
    }
    std::deque<Node> next{0};
    for (; !next.empty(); next.pop_front()) {
      if (!returns_.insert(next.front()).second) continue;
      for (const PartId p : at(next.front())) {
        if (role_at(p, next.front()) != Role::kLeadsOn) continue;
        for (const Node node : beyond(p, next.front(), kLeast_ohm)) next.push_back(node);
      }
    }
  }

  /// All that share a node with it, rails left out.
  std::set<PartId> beside(PartId part) const {
    std::set<PartId> found;
    for (const auto& [terminal, node] : scene_.parts[part].nodes) {
      if (at(node).size() <= kRail) found.insert(at(node).begin(), at(node).end());
    }
    return found;
  }

  struct Found {
    std::set<PartId> sources, contacts, coils;
    bool is_fed() const { return !sources.empty() || !contacts.empty(); }
  };
  /// What gives current at one of a part's nodes, or takes it: through whatever leads on, and
  /// through the coils of clocks that lie in series. Behind a rail only sources are looked for,
  /// unless a source's way leads over it.
  Found reached(PartId part, Node from, bool over_rails) const {
    Found found;
    std::set<Node> seen = returns_;
    std::deque<std::pair<Node, bool>> next;  // whether a rail lies between
    const auto go_to = [&](Node node, bool behind) {
      if (!seen.insert(node).second) return;
      next.emplace_back(node, behind || (!over_rails && is_rail(node)));
    };
    go_to(from, false);
    for (; !next.empty(); next.pop_front()) {
      const auto [node, behind] = next.front();
      for (const PartId other : at(node)) {
        if (other == part) continue;
        const Role role = role_at(other, node);
        note(other, role, behind, found);
        if (role != Role::kLeadsOn && (role != Role::kTakes || behind)) continue;
        for (const Node far : beyond(other, node, kMost_ohm)) go_to(far, behind);
      }
    }
    return found;
  }

  Role role_at(PartId p, Node node) const {
    const PartInstance& part = scene_.parts[p];
    const circuit::Network& network = *scene_.network;
    const auto any = [node](const std::vector<int>& own, const auto& all) {
      return std::any_of(own.begin(), own.end(), [&](int k) {
        const auto& element = all[static_cast<std::size_t>(k)];
        return element.a == node || element.b == node;
      });
    };
    if (is_source(p)) return Role::kGives;
    if (any(part.coils, network.coils) || interrupts_its_coil(part, node)) return Role::kTakes;
    const bool is_contact = any(part.contacts, network.contacts);
    if (is_contact && is_worked(p)) return Role::kGives;
    return is_contact || any(part.resistors, network.resistors) ? Role::kLeadsOn : Role::kNone;
  }
  bool is_rail(Node node) const { return at(node).size() > kRail; }
  bool is_source(PartId p) const { return !scene_.parts[p].sources.empty(); }

 private:
  /// More than wires, fuses and contacts have; and more than anything that a current goes through.
  static constexpr double kLeast_ohm = 10, kMost_ohm = 1e5;

  const std::set<PartId>& at(Node node) const {
    static const std::set<PartId> kNobody;
    const auto found = nets_.find(node);
    return found == nets_.end() ? kNobody : found->second;
  }

  static void add_if(bool is_so, PartId part, std::set<PartId>& parts) {
    if (is_so) parts.insert(part);
  }
  void note(PartId part, Role role, bool behind, Found& found) const {
    add_if(is_source(part), part, found.sources);
    add_if(role == Role::kGives && !is_source(part) && !behind, part, found.contacts);
    add_if(role == Role::kTakes && !behind, part, found.coils);
  }

  /// At the node a contact begins that leads, within the part, to a coil of the part itself.
  bool interrupts_its_coil(const PartInstance& part, Node node) const {
    const auto is_within = [&](Node inner) {
      return std::none_of(part.nodes.begin(), part.nodes.end(),
                          [inner](const auto& terminal) { return terminal.second == inner; });
    };
    const auto has_coil = [&](Node inner) {
      return std::any_of(part.coils.begin(), part.coils.end(), [&](int k) {
        const auto& coil = scene_.network->coils[static_cast<std::size_t>(k)];
        return coil.a == inner || coil.b == inner;
      });
    };
    return std::any_of(part.contacts.begin(), part.contacts.end(), [&](int k) {
      const circuit::Contact& contact = scene_.network->contacts[static_cast<std::size_t>(k)];
      if (contact.a != node && contact.b != node) return false;
      const Node inner = contact.a == node ? contact.b : contact.a;
      return is_within(inner) && has_coil(inner);
    });
  }

  /// A mechanism moves its contacts, and not a hand alone.
  bool is_worked(PartId p) const {
    const PartInstance& part = scene_.parts[p];
    const Declaration& declared = part.kind->declaration;
    const bool takes = std::any_of(declared.taken.begin(), declared.taken.end(),
                                   [](const LinkDecl& link) { return !link.optional; });
    return takes || !declared.inputs.empty() || !part.coils.empty();
  }

  /// Where a part's elements lead from a node, as it was built: an open contact leads nowhere.
  std::vector<Node> beyond(PartId p, Node node, double most_ohm) const {
    const PartInstance& part = scene_.parts[p];
    const circuit::Network& network = *scene_.network;
    std::vector<Node> nodes;
    const auto put = [&](const auto& element) {
      if (element.a == node) nodes.push_back(element.b);
      if (element.b == node) nodes.push_back(element.a);
    };
    for (const int k : part.coils) put(network.coils[static_cast<std::size_t>(k)]);
    for (const int k : part.contacts) {
      const circuit::Contact& contact = network.contacts[static_cast<std::size_t>(k)];
      if (contact.closed) put(contact);
    }
    for (const int k : part.resistors) {
      const circuit::Resistor& resistor = network.resistors[static_cast<std::size_t>(k)];
      if (resistor.resistance_ohm < most_ohm) put(resistor);
    }
    return nodes;
  }

  const Installation& scene_;
  std::map<Node, std::set<PartId>> nets_;
  std::set<Node> returns_;  ///< through which all currents go home: they tell nothing
};

void insert(std::set<PartId>& into, const std::set<PartId>& more) {
  into.insert(more.begin(), more.end());
}

/// What the network says of a part, node by node.
class Fed {
 public:
  Fed(const Installation& installation, PartId part) : wires_(installation), part_(part) {
    std::set<Node> nodes;
    for (const auto& [terminal, node] : installation.parts[part].nodes) nodes.insert(node);
    std::vector<Side> sides;
    for (const Node node : nodes) {
      const Wires::Found found = wires_.reached(part, node, wires_.is_source(part));
      const Role role = wires_.role_at(part, node);
      if (role == Role::kTakes) take(found);
      if (role == Role::kGives) give(found);
      if (role == Role::kLeadsOn) sides.push_back({node, found});
    }
    lead_on(sides);
  }
  std::set<PartId> by, feeds;
  const Wires& wires() const { return wires_; }

 private:
  struct Side {
    Node node = 0;
    Wires::Found found;
  };
  void take(const Wires::Found& found) {
    insert(by, found.contacts);
    if (found.contacts.empty()) insert(by, found.sources);
  }
  void give(const Wires::Found& found) {
    insert(feeds, found.coils);
    if (wires_.is_source(part_))
      insert(feeds, found.contacts);
    else
      insert(by, found.sources);
  }
  /// From the side that is fed to all others.
  void lead_on(const std::vector<Side>& sides) {
    const auto has_source = [](const Side& side) { return !side.found.sources.empty(); };
    const auto is_fed = [](const Side& side) { return side.found.is_fed(); };
    auto from = std::find_if(sides.begin(), sides.end(), has_source);
    if (from == sides.end()) from = std::find_if(sides.begin(), sides.end(), is_fed);
    if (from == sides.end()) return;
    insert(by, from->found.contacts.empty() ? from->found.sources : from->found.contacts);
    // What lies between a source and a rail feeds all that hangs there.
    const bool feeds_rail = has_source(*from) && !wires_.is_rail(from->node);
    for (auto side = sides.begin(); side != sides.end(); ++side) {
      if (side == from) continue;
      const Wires::Found found = wires_.reached(part_, side->node, feeds_rail);
      insert(feeds, found.coils);
      insert(feeds, found.contacts);
    }
  }

  Wires wires_;
  PartId part_;
};

}  // namespace

Neighbours neighbours_of(const Installation& installation, PartId part) {
  const Fed fed(installation, part);
  const std::vector<PartInstance>& parts = installation.parts;
  Neighbours found;
  for (PartId p = 0; p < parts.size(); ++p) {
    if (p == part) continue;
    const bool by = fed.by.count(p) != 0 || works(parts[p], parts[part], part);
    const bool gives = fed.feeds.count(p) != 0 || works(parts[part], parts[p], p);
    if (by) found.fed_by.push_back(p);
    if (gives) found.feeds.push_back(p);
    if (!by && !gives && fed.wires().beside(part).count(p) != 0) found.joined.push_back(p);
  }
  return found;
}

}  // namespace sixty::gui
