#include "sim/scene/line_template.hpp"

#include <utility>

#include "sim/scene/part_reader.hpp"

namespace sixty {
namespace {

constexpr const char* kTemplateExample =
    "{type: ..., sheet: ..., set: {...}, connect: {...}, join: {...}}";

void read_join(const YamlNode& map, TreeReader& reader, LineTemplate& into) {
  const std::string label = into.part.name + ".join";
  const YamlNode* join = map.find("join");
  if (join == nullptr || !reader.is_map(*join, label, "{own_terminal: part.terminal}")) return;
  const std::vector<NamedDecl>& terminals = into.part.kind->declaration.terminals;
  for (const auto& [key, node] : join->entries) {
    if (index_of(terminals, key.scalar) == terminals.size())
      reader.mistakes().add_unknown(reader.place(key), into.part.kind->name, "terminal", key.scalar,
                                    names_of(terminals));
    else if (reader.is_scalar(node, label, "part.terminal"))
      into.joins.push_back({key.scalar, reader.written(node, label)});
  }
}

bool has_two_ends(const YamlNode& map, TreeReader& reader, const DraftPart& part) {
  const std::size_t count = part.kind->declaration.terminals.size();
  if (count >= 2) return true;
  reader.add(map, part.name, "a " + part.kind->name + " cannot hang on a line",
             "a part type with two terminals", "take another type");
  return false;
}

std::optional<LineTemplate> fill(LineTemplate made, const YamlNode& map, TreeReader& reader) {
  if (made.part.kind == nullptr || !has_two_ends(map, reader, made.part)) return std::nullopt;
  reader.check_keys(map, made.part.name, template_keys());
  read_sheet_name(map, reader, made.part);
  read_notes(map, reader, made.part);
  read_set(map, reader, made.part);
  read_connect(map, reader, made.part);
  read_join(map, reader, made);
  return made;
}

}  // namespace

const std::vector<std::string>& template_keys() {
  static const std::vector<std::string> keys = {"type", "sheet", "set", "connect", "join", "notes"};
  return keys;
}

std::optional<LineTemplate> read_template(const YamlNode& map, const std::string& label,
                                          const Registry& registry, TreeReader& reader) {
  if (!reader.is_map(map, label, kTemplateExample)) return std::nullopt;
  LineTemplate made;
  made.part.name = label;
  made.part.place = reader.place(map);
  read_type(map, map, registry, reader, made.part);
  return fill(std::move(made), map, reader);
}

std::optional<LineTemplate> overlay_template(const LineTemplate& base, const YamlNode& map,
                                             const std::string& label, const Registry& registry,
                                             TreeReader& reader) {
  if (map.find("type") != nullptr) return read_template(map, label, registry, reader);
  if (!reader.is_map(map, label, kTemplateExample)) return std::nullopt;
  LineTemplate made = base;
  made.part.name = label;
  made.part.place = reader.place(map);
  return fill(std::move(made), map, reader);
}

DraftPart stamped(const LineTemplate& from, const std::string& name, const std::string& room) {
  DraftPart part = from.part;
  part.name = name;
  part.room = room;
  for (DraftConnection& connection : part.connections) {
    connection.own.label = name + "." + connection.own.text;
    for (Written& source : connection.sources) source.label = connection.own.label;
  }
  return part;
}

}  // namespace sixty
