#include "sim/cli/sheet_view.hpp"

#include "sim/scene/yaml_document.hpp"

namespace sixty::cli {
namespace {

// "[a, b]" and "{k: v}" for what is no single word.
std::string text_of(const YamlNode& node) {
  std::string inside;
  for (const YamlNode& item : node.items) {
    inside += (inside.empty() ? "" : ", ") + text_of(item);
  }
  for (const YamlEntry& entry : node.entries) {
    inside += (inside.empty() ? "" : ", ") + entry.key.scalar + ": " + text_of(entry.value);
  }
  if (node.kind == YamlNode::kList) return "[" + inside + "]";
  if (node.kind == YamlNode::kMap) return "{" + inside + "}";
  return node.scalar;
}

std::string text_under(const YamlNode& map, std::string_view key) {
  const YamlNode* node = map.find(key);
  return node == nullptr ? "" : text_of(*node);
}

SheetLine line_of(const YamlEntry& entry) {
  SheetLine line;
  line.name = entry.key.scalar;
  line.value =
      entry.value.kind == YamlNode::kMap ? text_under(entry.value, "value") : text_of(entry.value);
  line.tolerance = text_under(entry.value, "tolerance");
  line.source = text_under(entry.value, "source");
  const YamlNode* range = entry.value.find("range");
  if (range == nullptr) return line;
  for (const YamlNode& end : range->items) line.range.push_back(text_of(end));
  return line;
}

}  // namespace

SheetView view_of(const SheetText& sheet) {
  SheetView view;
  view.name = sheet.name;
  view.path = sheet.path;
  Diagnostics unused;  // the tests of the parts find every sheet sound
  const std::optional<YamlNode> root = parse_yaml(sheet.text, sheet.path, unused);
  if (!root) return view;
  view.title = text_under(*root, "title");
  const YamlNode* values = root->find("values");
  if (values == nullptr) return view;
  for (const YamlEntry& entry : values->entries) view.values.push_back(line_of(entry));
  return view;
}

}  // namespace sixty::cli
