#include "sim/diagnose/visit.hpp"

#include <algorithm>

#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::diagnose {
namespace {

constexpr SimTime kLooksOn = 5 * kSecond;  // after the last thing that is done

class VisitReader {
 public:
  VisitReader(const YamlNode& node, const Registry::Entry& kind, TreeReader& reader)
      : node_(node), declaration_(kind.declaration), reader_(reader) {
    act_.kind = &kind;
  }

  std::optional<VisitAct> read() {
    if (!reader_.is_map(node_, "visit", "{command: ..., at: 5 s}")) return std::nullopt;
    reader_.check_keys(node_, "visit",
                       {"command", "to", "at", "times", "apart", "if_still", "where"});
    const YamlNode* name = reader_.required(node_, node_, "command", "visit", "a command");
    if (name == nullptr || !reader_.is_scalar(*name, "visit", "a command")) return std::nullopt;
    if (!find(*name, "command", declaration_.commands, act_.command)) return std::nullopt;
    const auto& argument = declaration_.commands[act_.command].argument;
    if (argument) act_.value = number("to", *argument, 0);
    act_.at = time("at", 0);
    act_.apart = time("apart", act_.apart);
    act_.times = static_cast<int>(number("times", count_field("times", 1, 100, ""), 1));
    if (const YamlNode* still = node_.find("if_still")) {
      std::size_t reading = 0;
      if (!find(*still, "reading", declaration_.readings, reading)) return std::nullopt;
      act_.if_still = reading;
    }
    read_where();
    return act_;
  }

 private:
  template <class Decl>
  bool find(const YamlNode& name, const char* what, const std::vector<Decl>& all,
            std::size_t& found) {
    found = index_of(all, name.scalar);
    if (found < all.size()) return true;
    reader_.mistakes().add_unknown(reader_.place(name), "visit", what, name.scalar, names_of(all));
    return false;
  }

  double number(const char* key, const ParamDecl& field, double otherwise) {
    const YamlNode* node = node_.find(key);
    if (node == nullptr) return otherwise;
    const auto value = check_value(field, *node, "visit", reader_);
    return value ? value->number : otherwise;
  }

  SimTime time(const char* key, SimTime otherwise) {
    const double seconds =
        number(key, quantity_field(key, "s", 0, 3600, ""), to_seconds(otherwise));
    return from_seconds(seconds);
  }

  void read_where() {
    const YamlNode* map = node_.find("where");
    if (map == nullptr || !reader_.is_map(*map, "visit.where", "{parameter: value}")) return;
    for (const auto& [key, value] : map->entries) {
      std::size_t param = index_of(declaration_.params, key.scalar);
      if (param == declaration_.params.size()) {
        reader_.mistakes().add_unknown(reader_.place(key), "visit.where", "parameter", key.scalar,
                                       names_of(declaration_.params));
        continue;
      }
      const auto needed = check_value(declaration_.params[param], value, "visit.where", reader_);
      if (!needed) continue;
      act_.where = param;
      act_.is = needed->number;
    }
  }

  const YamlNode& node_;
  const Declaration& declaration_;
  TreeReader& reader_;
  VisitAct act_;
};

}  // namespace

std::vector<VisitAct> read_visit(const YamlNode& list, const std::string& file,
                                 const Registry::Entry& kind, Mistakes& mistakes) {
  std::vector<VisitAct> acts;
  TreeReader reader(file, mistakes);
  if (!reader.is_list(list, "visit", "[{command: ...}]")) return acts;
  for (const YamlNode& node : list.items) {
    if (auto act = VisitReader(node, kind, reader).read()) acts.push_back(*act);
  }
  return acts;
}

Visit visit_to(const Installation& installation, const std::vector<VisitAct>& acts) {
  Visit visit;
  for (const VisitAct& act : acts) {
    SimTime at = act.at;
    for (PartId id = 0; id < installation.parts.size(); ++id) {
      const PartInstance& part = installation.parts[id];
      if (part.kind != act.kind) continue;
      const Declaration& d = part.kind->declaration;
      if (act.where && part.values.at(d.params[*act.where].name).number != act.is) continue;
      for (int k = 0; k < act.times; ++k, at += act.apart) {
        Hand hand;
        hand.action.at = at;
        hand.action.part = id;
        hand.action.command = act.command;
        hand.action.value = act.value;
        hand.action.text = part.name + "." + d.commands[act.command].name;
        hand.if_still = act.if_still;
        visit.hands.push_back(std::move(hand));
      }
    }
  }
  std::stable_sort(visit.hands.begin(), visit.hands.end(),
                   [](const Hand& a, const Hand& b) { return a.action.at < b.action.at; });
  if (!visit.hands.empty()) visit.lasts = visit.hands.back().action.at + kLooksOn;
  return visit;
}

}  // namespace sixty::diagnose
