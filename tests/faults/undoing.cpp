#include "tests/faults/undoing.hpp"

namespace sixty {
namespace {

using explain::Link;

constexpr double kJumperOhm = 1e-3, kOffOhm = 1e12;

/// The terminal of a part that has a node; empty if none has.
std::string terminal_at(const PartInstance& part, circuit::Node node) {
  for (const auto& [name, at] : part.nodes) {
    if (at == node) return name;
  }
  return "";
}

/// The two terminals between which a part conducts: its one contact's, or its first resistor's.
std::optional<Hookup> ends_of(const Installation& scene, PartId p) {
  const PartInstance& part = scene.parts[p];
  circuit::Node a = -1, b = -1;
  if (part.contacts.size() == 1) {
    const circuit::Contact& c =
        scene.network->contacts[static_cast<std::size_t>(part.contacts.front())];
    a = c.a, b = c.b;
  }
  const std::string first = a >= 0 ? terminal_at(part, a) : "a";
  const std::string second = b >= 0 ? terminal_at(part, b) : "b";
  if (part.nodes.count(first) == 0 || part.nodes.count(second) == 0) return std::nullopt;
  return Hookup{{p, first}, {p, second}};
}

/// Where what leaks out of a run leaves it: its terminal beyond both ends.
std::optional<Hookup> leak_of(const Installation& scene, PartId p) {
  const PartInstance& part = scene.parts[p];
  if (part.nodes.size() != 3 || part.nodes.count("earth") == 0) return std::nullopt;
  return Hookup{{p, "earth"}, {p, "a"}};
}

}  // namespace

std::optional<Hookup> undoing(const explain::Link& link, const Installation& scene) {
  std::optional<Hookup> hookup;
  const bool too_open = link.what == Link::What::kContact && link.expected == 1;
  // Inside a winding nobody can lay a jumper.
  const bool loses = link.what == Link::What::kDrop && link.quantity == "volts lost" &&
                     scene.parts[link.part].coils.empty();
  if (too_open || loses) {
    hookup = ends_of(scene, link.part);
    if (hookup) hookup->resistance_ohm = kJumperOhm;
  } else if (link.what == Link::What::kContact || link.what == Link::What::kDraws) {
    const std::optional<Hookup> leak = leak_of(scene, link.part);
    hookup = leak && link.what == Link::What::kDraws ? leak : ends_of(scene, link.part);
    if (!hookup) return hookup;
    hookup->in_series = true;
    hookup->resistance_ohm = kOffOhm;
  }
  return hookup;
}

}  // namespace sixty
