#include "sim/scene/part_reader.hpp"

#include <fmt/format.h>

#include <utility>

#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

void read_source(const YamlNode& node, const std::string& label, TreeReader& reader,
                 DraftConnection& connection) {
  if (reader.is_scalar(node, label, "part.output"))
    connection.sources.push_back(reader.written(node, label));
}

}  // namespace

void report_too_many(const Place& place, const std::string& label, std::size_t count,
                     Mistakes& mistakes) {
  mistakes.add(place, {label + ": too many", std::to_string(count),
                       "at most " + std::to_string(kMostParts), "split the scene"});
}

std::vector<std::string> part_types(const Registry& registry) {
  std::vector<std::string> names;
  for (const auto& [name, entry] : registry.entries()) names.push_back(name);
  return names;
}

void read_type(const YamlNode& map, const YamlNode& whole, const Registry& registry,
               TreeReader& reader, DraftPart& part) {
  const YamlNode* type = reader.required(map, whole, "type", part.name, "type: a part type");
  if (type == nullptr || !reader.is_scalar(*type, part.name + ".type", "a part type")) return;
  part.kind = registry.find(type->scalar);
  if (part.kind == nullptr)
    reader.mistakes().add_unknown(reader.place(*type), "", "part type", type->scalar,
                                  part_types(registry));
}

void read_sheet_name(const YamlNode& map, TreeReader& reader, DraftPart& part) {
  const YamlNode* sheet = map.find("sheet");
  if (sheet == nullptr || !reader.is_scalar(*sheet, part.name + ".sheet", "a data sheet's name"))
    return;
  part.sheet = sheet->scalar;
  part.sheet_place = reader.place(*sheet);
}

void read_notes(const YamlNode& map, TreeReader& reader, DraftPart& part) {
  const YamlNode* notes = map.find("notes");
  const std::string label = part.name + ".notes";
  if (notes == nullptr || !reader.is_scalar(*notes, label, "a text")) return;
  part.notes = trimmed(notes->scalar);
  if (part.notes.size() <= kMostNotes) return;
  reader.mistakes().add(
      reader.place(*notes),
      {label + ": the notes are too long", fmt::format("{} letters", part.notes.size()),
       fmt::format("a sentence or two, at most {} letters", kMostNotes),
       "leave out what is not wanted at a glance; a comment (#) may be as long as you like"});
}

void read_set(const YamlNode& map, TreeReader& reader, DraftPart& part) {
  const YamlNode* set = map.find("set");
  if (set == nullptr || !reader.is_map(*set, part.name + ".set", "{resistance: 80 ohm}")) return;
  if (part.kind == nullptr) return;
  const std::vector<ParamDecl>& params = part.kind->declaration.params;
  reader.check_keys(*set, part.name + ".set", names_of(params));
  for (const auto& [key, node] : set->entries) {
    const std::size_t i = index_of(params, key.scalar);
    if (i == params.size()) continue;
    const std::string label = part.name + "." + key.scalar;
    std::optional<Value> value = check_value(params[i], node, label, reader);
    if (value) part.given[key.scalar] = {std::move(*value), reader.written(node, label)};
    part.values_sound = part.values_sound && value;
  }
}

void read_connect(const YamlNode& map, TreeReader& reader, DraftPart& part) {
  const YamlNode* connect = map.find("connect");
  if (connect == nullptr ||
      !reader.is_map(*connect, part.name + ".connect", "{own_input: part.output}"))
    return;
  for (const auto& [key, node] : connect->entries) {
    const std::string label = part.name + "." + key.scalar;
    std::erase_if(part.connections, [&key = key.scalar](const DraftConnection& earlier) {
      return earlier.own.text == key;
    });
    DraftConnection connection{reader.written(key, label), {}};
    if (node.kind == YamlNode::kList) {
      for (const YamlNode& item : node.items) read_source(item, label, reader, connection);
    } else {
      read_source(node, label, reader, connection);
    }
    part.connections.push_back(std::move(connection));
  }
}

DraftPart read_part(const YamlNode& key, const YamlNode& map, const Registry& registry,
                    const Plan& plan, TreeReader& reader) {
  DraftPart part;
  part.name = key.scalar;
  part.place = reader.place(key);
  reader.check_name(key, "part");
  if (!reader.is_map(map, part.name, kPartExample)) return part;
  reader.check_keys(map, part.name, {"type", "sheet", "room", "set", "connect", "notes"});
  read_type(map, key, registry, reader, part);
  read_sheet_name(map, reader, part);
  part.room = read_room(map, part.name, plan, reader);
  read_notes(map, reader, part);
  read_set(map, reader, part);
  read_connect(map, reader, part);
  return part;
}

}  // namespace sixty
