#include "sim/run/feed_paths.hpp"

#include <algorithm>
#include <deque>

#include "sim/scene/hookup.hpp"

namespace sixty {
namespace {

std::size_t at(circuit::Node n) { return static_cast<std::size_t>(n); }

bool lies_across_a_coil(const circuit::Network& network, circuit::Node a, circuit::Node b) {
  return std::any_of(network.coils.begin(), network.coils.end(), [&](const circuit::Coil& c) {
    return (c.a == a && c.b == b) || (c.a == b && c.b == a);
  });
}

/// "name", or "name contact 2" where a part has several.
std::string label(const PartInstance& part, std::size_t place) {
  if (part.contacts.size() < 2) return part.name;
  return part.name + " contact " + std::to_string(place + 1);
}

}  // namespace

FeedPaths::FeedPaths(const Installation& installation) : network_(*installation.network) {
  edges_.resize(at(network_.node_count));
  const std::size_t meters = installation.tapped.size();
  for (std::size_t k = 0; k < network_.resistors.size(); ++k) {
    const circuit::Resistor& r = network_.resistors[k];
    if (k < meters && !installation.tapped[k].hookup->in_series) continue;
    if (!lies_across_a_coil(network_, r.a, r.b)) add_edge(r.a, r.b, -1);
  }
  for (const circuit::Diode& d : network_.diodes) {
    if (!lies_across_a_coil(network_, d.anode, d.cathode)) add_edge(d.anode, d.cathode, -1);
  }
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    add_edge(network_.contacts[k].a, network_.contacts[k].b, static_cast<int>(k));
  }
  name_contacts(installation);
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    coils_behind_.push_back(coils_fed_through(static_cast<int>(k)));
  }
}

void FeedPaths::name_contacts(const Installation& installation) {
  contact_labels_.resize(network_.contacts.size(), "contact");
  for (const PartInstance& part : installation.parts) {
    for (std::size_t place = 0; place < part.contacts.size(); ++place) {
      contact_labels_[at(part.contacts[place])] = label(part, place);
    }
  }
}

std::vector<std::size_t> FeedPaths::coils_fed_through(int contact) const {
  const circuit::State state = circuit::rest_state(network_);
  std::vector<std::size_t> coils;
  for (const circuit::Source& s : network_.sources) {
    const Ways found = ways(s, state, contact);
    for (std::size_t j = 0; j < network_.coils.size(); ++j) {
      const circuit::Coil& c = network_.coils[j];
      if (c.armature.present && best_way(found, c, state).open >= 0) coils.push_back(j);
    }
  }
  return coils;
}

void FeedPaths::add_edge(circuit::Node a, circuit::Node b, int contact) {
  edges_[at(a)].push_back({at(b), contact});
  edges_[at(b)].push_back({at(a), contact});
}

FeedPaths::Reach FeedPaths::reach(std::size_t start, const circuit::State& state, int without,
                                  const std::vector<std::uint8_t>& shut) const {
  Reach r;
  r.open.assign(edges_.size(), -1);
  r.from.assign(edges_.size(), SIZE_MAX);
  r.contact.assign(edges_.size(), -1);
  if (!shut.empty() && shut[start] != 0) return r;
  std::deque<std::size_t> queue{start};
  r.open[start] = 0;
  while (!queue.empty()) {
    const std::size_t node = queue.front();
    queue.pop_front();
    for (const Edge& e : edges_[node]) {
      if (e.contact >= 0 && e.contact == without) continue;
      if (!shut.empty() && shut[e.to] != 0) continue;
      const bool open =
          e.contact >= 0 && state.contacts[at(e.contact)].gap != circuit::Gap::kClosed;
      const int cost = r.open[node] + (open ? 1 : 0);
      if (r.open[e.to] >= 0 && r.open[e.to] <= cost) continue;
      r.open[e.to] = cost;
      r.from[e.to] = node;
      r.contact[e.to] = e.contact;
      if (open) {
        queue.push_back(e.to);
      } else {
        queue.push_front(e.to);
      }
    }
  }
  return r;
}

void FeedPaths::trace_back(const Reach& reach, std::size_t node, std::vector<int>& contacts) {
  std::vector<int> found;
  for (; reach.from[node] != SIZE_MAX; node = reach.from[node]) {
    if (reach.contact[node] >= 0) found.push_back(reach.contact[node]);
  }
  contacts.insert(contacts.end(), found.rbegin(), found.rend());
}

FeedPaths::Beyond FeedPaths::beyond(const Reach& there, std::size_t other_end,
                                    const circuit::State& state, int through) const {
  const auto on_from = [&](std::size_t entry, std::size_t exit) {
    std::vector<std::uint8_t> shut(edges_.size(), 0);
    shut[other_end] = 1;
    for (std::size_t node = entry; node != SIZE_MAX; node = there.from[node]) shut[node] = 1;
    return reach(exit, state, through, shut);
  };
  const circuit::Contact& k = network_.contacts[at(through)];
  return {on_from(at(k.b), at(k.a)), on_from(at(k.a), at(k.b))};
}

FeedPaths::Ways FeedPaths::ways(const circuit::Source& source, const circuit::State& state,
                                int through) const {
  Ways w;
  w.through = through;
  w.plus = reach(at(source.plus), state, through, {});
  w.minus = reach(at(source.minus), state, through, {});
  if (through < 0) return w;
  w.after_plus = beyond(w.plus, at(source.minus), state, through);
  w.after_minus = beyond(w.minus, at(source.plus), state, through);
  return w;
}

FeedPaths::Best FeedPaths::best_way(const Ways& w, const circuit::Coil& coil,
                                    const circuit::State& state) const {
  Best best;
  // A leg from a source's end to a coil's end, straight or through the contact.
  const auto leg = [&](const Reach& start, std::size_t end, bool through, bool a_first) {
    Best found;
    if (!through) {
      found.open = start.open[end];
      if (found.open >= 0) trace_back(start, end, found.contacts);
      return found;
    }
    const circuit::Contact& k = network_.contacts[at(w.through)];
    const Beyond& after = &start == &w.plus ? w.after_plus : w.after_minus;
    const Reach& behind = a_first ? after.from_b : after.from_a;
    const std::size_t entry = at(a_first ? k.a : k.b);
    if (start.open[entry] < 0 || behind.open[end] < 0) return found;
    const bool open = state.contacts[at(w.through)].gap != circuit::Gap::kClosed;
    found.open = start.open[entry] + behind.open[end] + (open ? 1 : 0);
    trace_back(start, entry, found.contacts);
    found.contacts.push_back(w.through);
    trace_back(behind, end, found.contacts);
    return found;
  };
  for (int variant = 0; variant < 8; ++variant) {
    const bool forward = (variant & 1) != 0;
    const bool on_plus = (variant & 2) != 0;
    const bool a_first = (variant & 4) != 0;
    if (w.through < 0 && variant > 1) break;
    const Best first =
        leg(w.plus, at(forward ? coil.a : coil.b), w.through >= 0 && on_plus, a_first);
    const Best second =
        leg(w.minus, at(forward ? coil.b : coil.a), w.through >= 0 && !on_plus, a_first);
    if (first.open < 0 || second.open < 0) continue;
    if (best.open >= 0 && first.open + second.open >= best.open) continue;
    best = first;
    best.open += second.open;
    best.contacts.insert(best.contacts.end(), second.contacts.begin(), second.contacts.end());
  }
  return best;
}

std::vector<Condition> FeedPaths::conditions(std::size_t coil, const circuit::State& state,
                                             int through) const {
  Best best;
  for (const circuit::Source& s : network_.sources) {
    const Best found = best_way(ways(s, state, through), network_.coils[coil], state);
    if (found.open >= 0 && (best.open < 0 || found.open < best.open)) best = found;
  }
  std::vector<Condition> conditions;
  for (const int k : best.contacts) {
    const bool closed = state.contacts[at(k)].gap == circuit::Gap::kClosed;
    conditions.push_back({contact_labels_[at(k)], closed ? 1.0 : 0.0, 1.0, closed});
  }
  return conditions;
}

}  // namespace sixty
