#include "sim/scene/tree_reader.hpp"

#include <algorithm>

#include "sim/base/text.hpp"

namespace sixty {
namespace {

constexpr std::size_t kLongestName = 40;

bool is_name_char(char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '_'; }

std::string headed(const std::string& label, const std::string& what) {
  return label.empty() ? what : label + ": " + what;
}

}  // namespace

std::string describe(const YamlNode& node) {
  switch (node.kind) {
    case YamlNode::kScalar:
      return node.scalar.empty() ? "an empty text" : node.scalar;
    case YamlNode::kList:
      return node.items.empty() ? "an empty list" : "a list";
    case YamlNode::kMap:
      return node.entries.empty() ? "an empty map" : "a map";
    case YamlNode::kNull:
      break;
  }
  return "nothing";
}

bool is_name(std::string_view text) {
  return !text.empty() && text.size() <= kLongestName && is_letter(text[0]) &&
         std::all_of(text.begin(), text.end(), is_name_char);
}

void TreeReader::add(const YamlNode& node, const std::string& label, const std::string& what,
                     const std::string& expected, const std::string& mend) {
  mistakes_.add(place(node), {headed(label, what), describe(node), expected, mend});
}

bool TreeReader::is_map(const YamlNode& node, const std::string& label,
                        const std::string& example) {
  if (node.kind == YamlNode::kMap) return true;
  add(node, label, "names with values belong here", "a map, as in " + example,
      "write each as \"name: value\"");
  return false;
}

bool TreeReader::is_list(const YamlNode& node, const std::string& label,
                         const std::string& example) {
  if (node.kind == YamlNode::kList) return true;
  add(node, label, "a list belongs here", "a list, as in " + example,
      "put it in square brackets, with commas between");
  return false;
}

bool TreeReader::is_scalar(const YamlNode& node, const std::string& label,
                           const std::string& expected) {
  if (node.kind == YamlNode::kScalar && !node.scalar.empty()) return true;
  add(node, label, "a single value belongs here", expected, "write one value after the colon");
  return false;
}

void TreeReader::check_keys(const YamlNode& map, const std::string& holder,
                            const std::vector<std::string>& known) {
  for (const auto& [key, value] : map.entries) {
    if (std::find(known.begin(), known.end(), key.scalar) != known.end()) continue;
    mistakes_.add_unknown(place(key), holder, "key", key.scalar, known);
  }
}

const YamlNode* TreeReader::required(const YamlNode& map, const YamlNode& whole,
                                     std::string_view key, const std::string& label,
                                     const std::string& example) {
  const YamlNode* value = map.find(key);
  if (value != nullptr) return value;
  mistakes_.add(place(whole),
                {headed(label, "\"" + std::string(key) + "\" is missing"), "", example, "add it"});
  return nullptr;
}

std::string TreeReader::text(const YamlNode& map, const char* key, const std::string& label,
                             bool needed) {
  const YamlNode* node = needed ? required(map, map, key, label, "a text") : map.find(key);
  return node != nullptr && is_scalar(*node, label + "." + key, "a text") ? node->scalar : "";
}

std::vector<std::string> TreeReader::texts(const YamlNode& map, const char* key,
                                           const std::string& label) {
  std::vector<std::string> found;
  const YamlNode* list = map.find(key);
  if (list == nullptr || !is_list(*list, label + "." + key, "[first, second]")) return found;
  for (const YamlNode& item : list->items) {
    if (is_scalar(item, label + "." + key, "a text")) found.push_back(item.scalar);
  }
  return found;
}

std::optional<std::size_t> TreeReader::word_of(const YamlNode& map, const char* key,
                                               const std::string& label,
                                               const std::vector<std::string>& words) {
  const YamlNode* node = map.find(key);
  if (node == nullptr) return std::nullopt;
  const auto found = node->kind == YamlNode::kScalar
                         ? std::find(words.begin(), words.end(), node->scalar)
                         : words.end();
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  add(*node, label + "." + key, "no such word", listed(words), "choose one of these");
  return std::nullopt;
}

bool TreeReader::says_yes(const YamlNode& map, const char* key, const std::string& label) {
  return word_of(map, key, label, {"no", "yes"}) == 1U;
}

void TreeReader::check_name(const YamlNode& key, const std::string& kind) {
  if (is_name(key.scalar)) return;
  add(key, "", "this cannot be the name of a " + kind,
      "a letter, then letters, digits and underscores, 40 at most, as in \"hall_2\"", "rename it");
}

}  // namespace sixty
