#include "sim/scene/connections.hpp"

#include <utility>

namespace sixty {
namespace {

class Connector {
 public:
  Connector(const Draft& draft, Installation& installation, Mistakes& mistakes)
      : draft_(draft), installation_(installation), mistakes_(mistakes) {}

  LinkSources run() {
    for (PartInstance& part : installation_.parts) {
      const bool known = part.kind != nullptr;
      part.listeners.resize(known ? part.kind->declaration.outputs.size() : 0);
      part.takers.resize(known ? part.kind->declaration.offered.size() : 0);
      part.riders.resize(part.takers.size());
      sources_.emplace_back(known ? part.kind->declaration.taken.size() : 0);
    }
    for (PartId id = 0; id < draft_.parts.size(); ++id)
      if (draft_.parts[id].kind != nullptr) connect_part(id);
    return std::move(sources_);
  }

 private:
  void connect_part(PartId id) {
    const DraftPart& part = draft_.parts[id];
    const Declaration& own = part.kind->declaration;
    for (const DraftConnection& connection : part.connections) {
      const std::string name = connection.own.label.substr(part.name.size() + 1);
      const std::size_t input = index_of(own.inputs, name);
      const std::size_t link = index_of(own.taken, name);
      if (input < own.inputs.size()) {
        connect_input(id, input, connection);
      } else if (link < own.taken.size()) {
        connect_link(id, link, connection);
      } else {
        std::vector<std::string> candidates = names_of(own.inputs);
        for (const LinkDecl& l : own.taken) candidates.push_back(l.name);
        mistakes_.add_unknown(connection.own.place, titled(part), "input or link", name,
                              candidates);
      }
    }
    require_links(part, own);
  }

  void require_links(const DraftPart& part, const Declaration& own) {
    for (const LinkDecl& link : own.taken) {
      bool connected = link.optional;
      for (const DraftConnection& c : part.connections)
        connected = connected || c.own.label == part.name + "." + link.name;
      if (connected) continue;
      mistakes_.add(part.place, {part.name + ": \"" + link.name + "\" must be connected", "",
                                 "a " + link.kind + " that another part offers",
                                 "add connect: {" + link.name + ": " + offer(link.kind) + "}"});
    }
  }

  // The first link of a kind that any part offers, as an example.
  std::string offer(const std::string& kind) const {
    for (const DraftPart& part : draft_.parts) {
      if (part.kind == nullptr) continue;
      for (const LinkDecl& link : part.kind->declaration.offered)
        if (link.kind == kind) return part.name + "." + link.name;
    }
    return "part.link";
  }

  // The part that a source names. Errors: nullptr, reported.
  const DraftPart* source_part(const Written& source, Reference& reference) {
    if (!split_reference(source, "part.output", reference, mistakes_)) return nullptr;
    return find_part(draft_, reference.part, source, mistakes_);
  }

  void connect_input(PartId id, std::size_t input, const DraftConnection& connection) {
    for (const Written& source : connection.sources) {
      Reference reference;
      const DraftPart* from = source_part(source, reference);
      if (from == nullptr) continue;
      const std::vector<NamedDecl>& outputs = from->kind->declaration.outputs;
      const std::size_t output = index_of(outputs, reference.item);
      if (output == outputs.size()) {
        mistakes_.add_unknown(source.place, titled(*from), "output", reference.item,
                              names_of(outputs));
        continue;
      }
      add_listener(draft_.by_name.at(reference.part), output, {id, input}, source);
    }
  }

  void add_listener(PartId from, std::size_t output, std::pair<PartId, std::size_t> listener,
                    const Written& source) {
    auto& listeners = installation_.parts[from].listeners[output];
    // Parts are connected in turn, so that a repeated listener is among the last.
    for (std::size_t i = listeners.size(); i-- > 0 && listeners[i].first == listener.first;) {
      if (listeners[i].second != listener.second) continue;
      mistakes_.add(source.place, {source.label + ": connected twice", source.text,
                                   "each output once", "leave one out"});
      return;
    }
    listeners.push_back(listener);
  }

  void connect_link(PartId id, std::size_t link, const DraftConnection& connection) {
    const LinkDecl& taken = draft_.parts[id].kind->declaration.taken[link];
    if (connection.sources.size() > 1) {
      const Written& second = connection.sources[1];
      mistakes_.add(second.place, {second.label + ": only one can be connected", second.text,
                                   "one " + taken.kind, "leave one out"});
    }
    for (const Written& source : connection.sources) {
      Reference reference;
      const DraftPart* from = source_part(source, reference);
      if (from != nullptr) add_taker(id, link, taken, *from, reference.item, source);
    }
  }

  void add_taker(PartId id, std::size_t link, const LinkDecl& taken, const DraftPart& from,
                 const std::string& item, const Written& source) {
    const std::vector<LinkDecl>& offered = from.kind->declaration.offered;
    const std::size_t other = index_of(offered, item);
    if (other == offered.size()) {
      mistakes_.add_unknown(source.place, titled(from), "link", item, names_of(offered));
      return;
    }
    if (offered[other].kind != taken.kind) {
      mistakes_.add(source.place, {source.label + ": two kinds of link do not fit together",
                                   source.text + " (a " + offered[other].kind + ")",
                                   "a " + taken.kind, "connect it to a " + taken.kind});
      return;
    }
    const PartId from_id = draft_.by_name.at(from.name);
    sources_[id][link] = LinkSource{from_id, other};
    installation_.parts[from_id].takers[other].push_back({id, link});
  }

  const Draft& draft_;
  Installation& installation_;
  Mistakes& mistakes_;
  LinkSources sources_;
};

}  // namespace

LinkSources connect_parts(const Draft& draft, Installation& installation, Mistakes& mistakes) {
  return Connector(draft, installation, mistakes).run();
}

}  // namespace sixty
