#include "sim/scene/part_builder.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <utility>

#include "sim/base/units.hpp"

namespace sixty {
namespace {

constexpr std::size_t kAlignment = 8;

std::size_t take_place(std::size_t& used, std::size_t bytes) {
  const std::size_t offset = used;
  used += (bytes + kAlignment - 1) / kAlignment * kAlignment;
  return offset;
}

class PartBuilder final : public Builder {
 public:
  PartBuilder(PartId id, const DraftPart& draft, const SettledPart& settled,
              const LinkSources& links, Installation& installation, circuit::Network& network,
              Mistakes& mistakes)
      : id_(id),
        draft_(draft),
        settled_(settled),
        links_(links),
        installation_(installation),
        network_(network),
        mistakes_(mistakes),
        part_(installation.parts[id]) {}

  /// Declared terminals that the part has not asked for, as "part.terminal".
  std::vector<std::string> idle_terminals() const {
    std::vector<std::string> idle;
    for (const auto& [terminal, node] : part_.nodes) {
      if (asked_.count(terminal) == 0) idle.push_back(part_.name + "." + terminal);
    }
    return idle;
  }

  const std::string& name() const override { return part_.name; }

  const Assumptions& assumptions() const override { return installation_.assumptions; }

  const Value& value(std::string_view param) const override {
    const auto it = settled_.values.find(std::string(param));
    if (it == settled_.values.end()) undeclared("parameter", param);
    return it->second;
  }

  circuit::Node node(std::string_view terminal) const override {
    const auto it = part_.nodes.find(std::string(terminal));
    if (it == part_.nodes.end()) undeclared("terminal", terminal);
    asked_.insert(it->first);
    return it->second;
  }

  void mains(std::string_view param) override {
    const double half_period_s = 0.5 / number(param);
    const bool first = std::none_of(network_.sources.begin(), network_.sources.end(),
                                    [](const circuit::Source& s) { return s.rectified; });
    if (!first && half_period_s != network_.half_period_s) {
      refuse(param, "another part rectifies mains of another frequency", "one frequency for all");
    }
    network_.half_period_s = half_period_s;
  }

  circuit::Node inner_node() override { return network_.node_count++; }

  int add(circuit::Source source) override {
    need_positive(source.resistance_ohm, "ohm", "a source's resistance");
    source.owner = owner();
    const int element = append(network_.sources, source);
    part_.sources.push_back(element);
    return element;
  }
  int add(circuit::Resistor resistor) override {
    need_positive(resistor.resistance_ohm, "ohm", "a resistor");
    const int element = append(network_.resistors, resistor);
    part_.resistors.push_back(element);
    return element;
  }
  int add(circuit::Capacitor capacitor) override {
    need_positive(capacitor.capacitance_f, "F", "a capacitor");
    need_positive(capacitor.resistance_ohm, "ohm", "a capacitor's series resistance");
    return append(network_.capacitors, capacitor);
  }
  int add(circuit::Diode diode) override {
    need_positive(diode.resistance_ohm, "ohm", "a diode's resistance");
    return append(network_.diodes, diode);
  }
  int add(circuit::Contact contact) override {
    need_positive(contact.closed_ohm, "ohm", "a closed contact");
    contact.owner = owner();
    const int element = append(network_.contacts, contact);
    part_.contacts.push_back(element);
    return element;
  }
  int add(circuit::Coil coil) override {
    need_positive(coil.resistance_ohm, "ohm", "a coil's resistance");
    coil.owner = owner();
    const int element = append(network_.coils, std::move(coil));
    part_.coils.push_back(element);
    return element;
  }
  int add(circuit::Fuse fuse) override {
    need_positive(fuse.melts_a, "A", "the least current that melts a fuse");
    need_positive(fuse.time_constant_s, "s", "a fuse's time constant");
    return append(network_.fuses, fuse);
  }

  void ride(std::string_view link, Rider rider) override {
    const std::optional<LinkSource>& source = taken_source(link);
    if (!source) return;
    rider.part = id_;
    installation_.parts[source->part].riders[source->offered].push_back(rider);
  }

  const std::vector<Rider>* riders(std::string_view link) const override {
    return &part_.riders[offered_index(link)];
  }

  using Builder::refuse;
  void refuse(std::string_view param, const Value& entry, std::string what,
              std::string mend) override {
    const auto origin = settled_.origins.find(std::string(param));
    const bool written = origin != settled_.origins.end();
    Place place = written ? origin->second.place : draft_.place;
    std::string found = written ? origin->second.text : "";
    if (entry.line > 0) {
      place.line = entry.line;
      place.column = entry.column;
      found = entry.text;
    }
    mistakes_.add(place, {part_.name + "." + std::string(param) + ": " + what, std::move(found),
                          "a value that goes with the others", std::move(mend)});
  }

 protected:
  std::size_t reserve(std::size_t bytes) override {
    return take_place(installation_.state_bytes, bytes);
  }

  std::size_t link_offset(std::string_view link, bool offered) const override {
    if (offered) return part_.offered_offset[offered_index(link)];
    const std::optional<LinkSource>& source = taken_source(link);
    if (!source) return SIZE_MAX;
    return installation_.parts[source->part].offered_offset[source->offered];
  }

 private:
  // A part that asks for what it has not declared is wrong itself; no scene can mend that.
  [[noreturn]] void undeclared(const char* kind, std::string_view asked) const {
    throw std::logic_error("part type " + part_.kind->name + " asks for the " + kind + " " +
                           std::string(asked) + ", which it does not declare");
  }

  circuit::Owner owner() const { return static_cast<circuit::Owner>(id_); }

  template <class Element>
  int append(std::vector<Element>& elements, Element element) {
    elements.push_back(std::move(element));
    return static_cast<int>(elements.size() - 1);
  }

  void need_positive(double size, const char* unit, const char* what) {
    if (std::isfinite(size) && size > 0) return;
    mistakes_.add(draft_.place, {part_.name + ": its values do not go together; they make " + what,
                                 format_exact(size) + " " + unit,
                                 "more than 0 " + std::string(unit), "check what is set for it"});
  }

  std::size_t offered_index(std::string_view link) const {
    const std::size_t i = index_of(part_.kind->declaration.offered, link);
    if (i == part_.kind->declaration.offered.size()) undeclared("offered link", link);
    return i;
  }

  const std::optional<LinkSource>& taken_source(std::string_view link) const {
    const std::size_t i = index_of(part_.kind->declaration.taken, link);
    if (i == part_.kind->declaration.taken.size()) undeclared("taken link", link);
    return links_[id_][i];
  }

  PartId id_;
  const DraftPart& draft_;
  const SettledPart& settled_;
  const LinkSources& links_;
  Installation& installation_;
  circuit::Network& network_;
  Mistakes& mistakes_;
  PartInstance& part_;
  mutable std::set<std::string> asked_;  ///< terminals
};

}  // namespace

void place_links(Installation& installation) {
  for (PartInstance& part : installation.parts) {
    if (part.kind == nullptr) continue;
    for (const LinkDecl& link : part.kind->declaration.offered)
      part.offered_offset.push_back(take_place(installation.state_bytes, link.bytes));
  }
}

std::vector<std::string> make_part(PartId id, const DraftPart& draft, const SettledPart& settled,
                                   const LinkSources& links, Installation& installation,
                                   circuit::Network& network, Mistakes& mistakes) {
  PartBuilder builder(id, draft, settled, links, installation, network, mistakes);
  installation.parts[id].part = draft.kind->type->make(builder);
  return builder.idle_terminals();
}

}  // namespace sixty
