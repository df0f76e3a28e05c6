#include "sim/scene/sheet.hpp"

#include <filesystem>
#include <limits>
#include <utility>

#include "sim/scene/part_reader.hpp"

namespace sixty {
namespace {

constexpr const char* kValueExample =
    "{value: 24 V, range: [20 V, 28 V], tolerance: 1 %, source: \"...\"}";

bool is_number(const ParamDecl& decl) {
  return decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount;
}

bool ends_with(const std::string& text, std::string_view tail) {
  return text.size() >= tail.size() &&
         text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

// A tolerance's own declaration: a share of at most one, or a difference in the value's unit.
ParamDecl tolerance_decl(const ParamDecl& decl, bool relative) {
  if (relative) return quantity_field("tolerance", "%", 0, 100, "");
  return quantity_field("tolerance", decl.unit == "K" ? "delta_K" : decl.unit, 0,
                        std::numeric_limits<double>::max(), "");
}

Tolerance read_tolerance(const ParamDecl& decl, const YamlNode& node, const std::string& label,
                         TreeReader& reader) {
  if (decl.kind != ParamKind::kQuantity || decl.step > 0) {
    reader.add(node, label, "only a quantity has a tolerance", "a value and its source",
               "leave it out");
    return {};
  }
  if (!reader.is_scalar(node, label, "a tolerance, as in 1 %")) return {};
  const bool relative = ends_with(node.scalar, "%") || ends_with(node.scalar, "ppm");
  const std::optional<Value> value =
      check_value(tolerance_decl(decl, relative), node, label, reader);
  if (!value) return {};
  return {relative ? value->number / 100 : value->number, relative};
}

// The range must hold the value and lie within what the part takes at all.
void check_range(const ParamDecl& decl, const YamlNode& node, const std::optional<Value>& value,
                 const YamlNode* value_node, const std::string& label, TreeReader& reader) {
  if (!reader.is_list(node, label + ".range", "[20 V, 28 V]")) return;
  if (node.items.size() != 2) {
    reader.add(node, label + ".range", "two values belong here", "the least and the most",
               "write [least, most]");
    return;
  }
  const std::optional<Value> least = check_value(decl, node.items[0], label + ".range", reader);
  const std::optional<Value> most = check_value(decl, node.items[1], label + ".range", reader);
  if (!least || !most) return;
  ParamDecl narrow = decl;
  narrow.least = least->number;
  narrow.most = most->number;
  if (narrow.least > narrow.most) {
    reader.add(node.items[1], label + ".range", "the most is less than the least", "[least, most]",
               "exchange the two");
  } else if (value && !in_range(narrow, value->number)) {
    reader.add(*value_node, label + ".value", "outside the sheet's own range", expectation(narrow),
               "correct the value or the range");
  }
}

void check_source(const YamlNode& map, const std::string& label, TreeReader& reader) {
  const char* example = "where the value comes from, as in \"common practice, no source\"";
  const YamlNode* source = reader.required(map, map, "source", label, example);
  if (source != nullptr) reader.is_scalar(*source, label + ".source", example);
}

void read_value(const ParamDecl& decl, const YamlNode& map, const std::string& label,
                TreeReader& reader, Sheet& sheet) {
  if (!reader.is_map(map, label, kValueExample)) return;
  reader.check_keys(map, label, {"value", "range", "tolerance", "source"});
  check_source(map, label, reader);
  SheetValue result;
  std::optional<Value> value;
  const YamlNode* node = reader.required(map, map, "value", label, expectation(decl));
  if (node != nullptr) value = check_value(decl, *node, label + ".value", reader);
  if (const YamlNode* tolerance = map.find("tolerance"))
    result.tolerance = read_tolerance(decl, *tolerance, label + ".tolerance", reader);
  if (is_number(decl)) {
    const YamlNode* range = decl.kind == ParamKind::kCount
                                ? map.find("range")
                                : reader.required(map, map, "range", label, "[least, most]");
    if (range != nullptr) check_range(decl, *range, value, node, label, reader);
  } else if (const YamlNode* range = map.find("range")) {
    reader.add(*range, label + ".range", "only a number has a range", "a value and its source",
               "leave it out");
  }
  if (!value) return;
  result.value = std::move(*value);
  result.written = reader.written(*node, label);
  sheet.values.insert_or_assign(decl.name, std::move(result));
}

void read_values(const Declaration& declaration, const YamlNode& values, TreeReader& reader,
                 Sheet& sheet) {
  if (!reader.is_map(values, "values", "{name: " + std::string(kValueExample) + "}")) return;
  reader.check_keys(values, "values", names_of(declaration.params));
  for (const auto& [key, node] : values.entries) {
    const std::size_t i = index_of(declaration.params, key.scalar);
    if (i == declaration.params.size()) continue;
    read_value(declaration.params[i], node, key.scalar, reader, sheet);
  }
}

void check_heading(const YamlNode& root, TreeReader& reader) {
  if (const YamlNode* title = reader.required(root, root, "title", "", "title: what it describes"))
    reader.is_scalar(*title, "title", "what it describes");
  if (const YamlNode* notes = root.find("notes")) reader.is_scalar(*notes, "notes", "a text");
  const YamlNode* name = reader.required(root, root, "sheet", "", "sheet: its file's name");
  if (name == nullptr || !reader.is_scalar(*name, "sheet", "its file's name")) return;
  reader.check_name(*name, "data sheet");
  const std::string stem = std::filesystem::path(reader.file()).stem().string();
  if (name->scalar == stem) return;
  reader.add(*name, "sheet", "a data sheet bears its file's name", stem,
             "rename the file or the sheet");
}

const Registry::Entry* find_part(const YamlNode& root, const std::string& part,
                                 const Registry& registry, TreeReader& reader) {
  const YamlNode* node = reader.required(root, root, "part", "", "part: the part type");
  if (node == nullptr || !reader.is_scalar(*node, "part", "a part type")) return nullptr;
  const Registry::Entry* entry = registry.find(node->scalar);
  if (entry == nullptr) {
    reader.mistakes().add_unknown(reader.place(*node), "", "part type", node->scalar,
                                  part_types(registry));
  } else if (!part.empty() && entry->name != part) {
    reader.add(*node, "part", "this data sheet lies with another part", part, "move it");
    return nullptr;
  }
  return entry;
}

}  // namespace

bool is_own_sheet(std::string_view name) { return name.substr(0, kOwnSheet.size()) == kOwnSheet; }

std::string own_sheet_path(const std::string& scene, const std::string& name) {
  return (std::filesystem::path(scene).parent_path() / "sheets" / (name + ".yaml")).string();
}

Sheet read_sheet(const YamlNode& root, const std::string& file, const std::string& part,
                 const Registry& registry, Mistakes& mistakes) {
  Sheet sheet;
  const std::size_t before = mistakes.count();
  TreeReader reader(file, mistakes);
  if (!reader.is_map(root, "", "sheet: name, part: type, title: ..., values: {...}")) return sheet;
  reader.check_keys(root, "a data sheet", {"sheet", "part", "title", "values", "notes"});
  check_heading(root, reader);
  const Registry::Entry* entry = find_part(root, part, registry, reader);
  const YamlNode* values = reader.required(root, root, "values", "", "values: {...}");
  if (entry != nullptr && values != nullptr)
    read_values(entry->declaration, *values, reader, sheet);
  sheet.sound = mistakes.count() == before;
  return sheet;
}

}  // namespace sixty
