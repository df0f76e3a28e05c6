#include "sim/instruments/leads.hpp"

#include <algorithm>

namespace sixty::instruments {
namespace {

constexpr const char* kAcross = "..";

const std::vector<NamedDecl>& terminals_of(const PartInstance& part) {
  return part.kind->declaration.terminals;
}

bool has(const PartInstance& part, const std::string& terminal) {
  return index_of(terminals_of(part), terminal) < terminals_of(part).size();
}

/// "PART.ITEM", or a part alone.
struct Half {
  PartId part = 0;
  std::string item;
};

std::optional<Half> take_half(const Asked& asked, const Installation& installation,
                              Mistakes& mistakes) {
  const std::size_t dot = asked.piece.find('.');
  const auto part = read_part({asked.piece.substr(0, dot), asked.whole}, installation, mistakes);
  if (!part) return std::nullopt;
  return Half{*part, dot == std::string::npos ? "" : asked.piece.substr(dot + 1)};
}

std::optional<Terminal> read_terminal(const Asked& asked, const Installation& installation,
                                      Mistakes& mistakes) {
  const std::optional<Half> half = take_half(asked, installation, mistakes);
  if (!half) return std::nullopt;
  const PartInstance& part = installation.parts[half->part];
  if (has(part, half->item)) return Terminal{half->part, half->item};
  mistakes.add_unknown(asked.whole.place, part.name, "terminal", half->item,
                       names_of(terminals_of(part)));
  return std::nullopt;
}

/// Names of two terminals that belong together.
std::optional<Hookup> pair_of(const Half& half, const PartInstance& part) {
  const auto both = [&](const std::string& a, const std::string& b) -> std::optional<Hookup> {
    if (!has(part, a) || !has(part, b)) return std::nullopt;
    return Hookup{{half.part, a}, {half.part, b}};
  };
  if (!half.item.empty()) return both(half.item + "_a", half.item + "_b");
  if (const auto ends = both("a", "b")) return ends;
  if (const auto poles = both("plus", "minus")) return poles;
  const std::vector<NamedDecl>& terminals = terminals_of(part);
  if (terminals.size() != 2) return std::nullopt;
  return both(terminals[0].name, terminals[1].name);
}

/// What can be written for a part whose two ends are not clear.
std::vector<std::string> places_of(const PartInstance& part) {
  std::vector<std::string> places;
  for (const NamedDecl& t : terminals_of(part)) {
    const std::size_t end = t.name.size() - std::min<std::size_t>(t.name.size(), 2);
    const bool first_of_two = t.name.substr(end) == "_a" && has(part, t.name.substr(0, end) + "_b");
    if (first_of_two) places.push_back(part.name + "." + t.name.substr(0, end));
  }
  if (!places.empty()) return places;
  for (const NamedDecl& t : terminals_of(part)) places.push_back(part.name + "." + t.name);
  return places;
}

}  // namespace

std::optional<PartId> read_part(const Asked& asked, const Installation& installation,
                                Mistakes& mistakes) {
  const std::size_t part = index_of(installation.parts, asked.piece);
  if (part < installation.parts.size()) return static_cast<PartId>(part);
  mistakes.add_unknown(asked.whole.place, "", "part", asked.piece, names_of(installation.parts));
  return std::nullopt;
}

std::optional<Hookup> read_two(const Asked& asked, const Installation& installation,
                               Mistakes& mistakes) {
  const std::size_t across = asked.piece.find(kAcross);
  if (across != std::string::npos) {
    const auto a =
        read_terminal({asked.piece.substr(0, across), asked.whole}, installation, mistakes);
    const auto b =
        read_terminal({asked.piece.substr(across + 2), asked.whole}, installation, mistakes);
    if (!a || !b) return std::nullopt;
    return Hookup{*a, *b};
  }
  const std::optional<Half> half = take_half(asked, installation, mistakes);
  if (!half) return std::nullopt;
  const PartInstance& part = installation.parts[half->part];
  if (auto pair = pair_of(*half, part)) return pair;
  if (has(part, half->item)) {
    mistakes.add(asked.whole.place, {"this is one terminal, and a meter's tips need two",
                                     asked.piece, "two terminals with .. between them",
                                     "write it like " + asked.piece + "..PART.TERMINAL"});
  } else {
    mistakes.add_unknown(asked.whole.place, part.name, "pair of terminals", asked.piece,
                         places_of(part));
  }
  return std::nullopt;
}

std::optional<Hookup> read_wire(const Asked& asked, const Installation& installation,
                                Mistakes& mistakes) {
  if (asked.piece.find(kAcross) != std::string::npos)
    return read_two(asked, installation, mistakes);
  const std::optional<Half> half = take_half(asked, installation, mistakes);
  if (!half) return std::nullopt;
  const PartInstance& part = installation.parts[half->part];
  const bool one = has(part, half->item);
  std::optional<Hookup> wire = one ? Hookup{{half->part, half->item}, {}} : pair_of(*half, part);
  if (wire) {
    wire->in_series = true;
    return wire;
  }
  mistakes.add_unknown(asked.whole.place, part.name, "terminal",
                       half->item.empty() ? asked.piece : half->item, names_of(terminals_of(part)));
  return std::nullopt;
}

}  // namespace sixty::instruments
