#include "gui/keep/yaml_text.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

namespace sixty::gui {
namespace {

template <class Node>
Node* step(Node* node, const std::string& piece) {
  if (node == nullptr) return nullptr;
  for (auto& entry : node->entries) {
    if (entry.key.scalar == piece) return &entry.value;
  }
  std::size_t index = 0;
  const auto [behind, code] = std::from_chars(piece.data(), piece.data() + piece.size(), index);
  const bool whole = code == std::errc() && behind == piece.data() + piece.size();
  return whole && index < node->items.size() ? &node->items[index] : nullptr;
}

template <class Node>
Node* walk(Node& root, const YamlText::Way& way) {
  Node* node = &root;
  for (const std::string& piece : way) node = step(node, piece);
  return node;
}

std::size_t index_of_key(const YamlNode& map, const std::string& key) {
  std::size_t k = 0;
  while (k < map.entries.size() && map.entries[k].key.scalar != key) ++k;
  return k;
}

/// What is written for a value, as a tree. Errors: nothing.
std::optional<YamlNode> value_of(const std::string& written) {
  Diagnostics none;
  auto root = parse_yaml("{v: " + written + "}", "", none);
  if (!root || root->entries.size() != 1) return std::nullopt;
  return root->entries[0].value;
}

}  // namespace

bool same_content(const YamlNode& a, const YamlNode& b) {
  if (a.kind != b.kind || a.scalar != b.scalar || a.items.size() != b.items.size() ||
      a.entries.size() != b.entries.size())
    return false;
  for (std::size_t k = 0; k < a.items.size(); ++k) {
    if (!same_content(a.items[k], b.items[k])) return false;
  }
  for (std::size_t k = 0; k < a.entries.size(); ++k) {
    if (a.entries[k].key.scalar != b.entries[k].key.scalar ||
        !same_content(a.entries[k].value, b.entries[k].value))
      return false;
  }
  return true;
}

std::optional<YamlText> YamlText::read(std::string text, const std::string& path,
                                       Diagnostics& mistakes) {
  std::optional<YamlNode> root = parse_yaml(text, path, mistakes);
  if (!root) return std::nullopt;
  return YamlText(std::move(text), std::move(*root));
}

const YamlNode* YamlText::find(const Way& way) const { return walk(root_, way); }

std::size_t YamlText::offset(const YamlNode& node) const {
  std::size_t at = 0;
  for (int line = 1; line < node.line; ++line) {
    const std::size_t feed = text_.find('\n', at);
    if (feed == std::string::npos) break;
    at = feed + 1;
  }
  return std::min(at + static_cast<std::size_t>(std::max(node.column - 1, 0)), text_.size());
}

std::size_t YamlText::line_begin(std::size_t at) const {
  const std::size_t feed = at == 0 ? std::string::npos : text_.rfind('\n', at - 1);
  return feed == std::string::npos ? 0 : feed + 1;
}

std::size_t YamlText::line_end(std::size_t at) const {
  return std::min(text_.find('\n', at), text_.size());
}

bool YamlText::is_flow(const YamlNode& map) const {
  const std::size_t at = offset(map);
  return at < text_.size() && (text_[at] == '{' || text_[at] == '[');
}

std::optional<std::size_t> YamlText::end_of_quoted(std::size_t at) const {
  const char quote = text_[at];
  for (std::size_t k = at + 1; k < text_.size(); ++k) {
    if (quote == '"' && text_[k] == '\\') {
      ++k;
    } else if (text_[k] == quote) {
      if (quote == '"' || k + 1 >= text_.size() || text_[k + 1] != quote) return k + 1;
      ++k;  // two single quotes stand for one
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> YamlText::end_of_flow(std::size_t at) const {
  int depth = 0;
  for (std::size_t k = at; k < text_.size(); ++k) {
    const char c = text_[k];
    const char before = k == 0 ? '\n' : text_[k - 1];
    const bool begins = before == ' ' || before == '\n' || before == '{' || before == '[' ||
                        before == ',' || before == '\t';
    if ((c == '"' || c == '\'') && begins) {
      const auto end = end_of_quoted(k);
      if (!end) return std::nullopt;
      k = *end - 1;
    } else if (c == '#' && (before == ' ' || before == '\n' || before == '\t')) {
      k = line_end(k) - 1;
    } else if (c == '{' || c == '[') {
      ++depth;
    } else if ((c == '}' || c == ']') && --depth == 0) {
      return k + 1;
    }
  }
  return std::nullopt;
}

/// Behind the last letter of a value. Errors: nothing where that cannot be told: a text over
/// several lines, or no value at all.
std::optional<std::size_t> YamlText::end_of(const YamlNode& node) const {
  const std::size_t at = offset(node);
  if (at >= text_.size()) return std::nullopt;
  if (node.kind == YamlNode::kScalar) {
    if (text_[at] == '"' || text_[at] == '\'') return end_of_quoted(at);
    const bool plain = text_.compare(at, node.scalar.size(), node.scalar) == 0;
    return plain ? std::optional(at + node.scalar.size()) : std::nullopt;
  }
  if (node.kind == YamlNode::kNull) return std::nullopt;
  if (is_flow(node)) return end_of_flow(at);
  if (!node.items.empty()) return end_of(node.items.back());
  return node.entries.empty() ? std::nullopt : end_of(node.entries.back().value);
}

std::optional<YamlText::Edit> YamlText::replacement(const YamlNode& value,
                                                    const std::string& by) const {
  const auto end = end_of(value);
  const bool block = value.kind != YamlNode::kScalar && !is_flow(value);
  if (!end || block) return std::nullopt;
  return Edit{offset(value), *end, by};
}

std::optional<YamlText::Edit> YamlText::insertion(const YamlNode& map, const std::string& entry,
                                                  const std::string& behind) const {
  if (map.entries.empty()) {
    const auto end = end_of(map);
    if (!is_flow(map) || !end) return std::nullopt;
    return Edit{offset(map), *end, "{" + entry + "}"};
  }
  const std::size_t k = std::min(index_of_key(map, behind), map.entries.size() - 1);
  const auto end = end_of(map.entries[k].value);
  if (!end) return std::nullopt;
  if (is_flow(map)) return Edit{*end, *end, ", " + entry};
  const std::size_t line = line_end(*end);
  const auto indent = static_cast<std::size_t>(map.entries.front().key.column - 1);
  return Edit{line, line, "\n" + std::string(indent, ' ') + entry};
}

std::optional<YamlText::Edit> YamlText::removal(const YamlNode& map, std::size_t index) const {
  const YamlEntry& entry = map.entries[index];
  const auto end = end_of(entry.value);
  if (!end) return std::nullopt;
  const std::size_t begin = offset(entry.key);
  if (is_flow(map)) {
    if (index + 1 < map.entries.size()) return Edit{begin, offset(map.entries[index + 1].key), ""};
    if (index == 0) return Edit{begin, *end, ""};
    const auto before = end_of(map.entries[index - 1].value);
    return before ? std::optional(Edit{*before, *end, ""}) : std::nullopt;
  }
  const std::size_t line = line_begin(begin);
  const bool alone = text_.find_first_not_of(' ', line) == begin;
  if (!alone || map.entries.size() == 1) return std::nullopt;
  return Edit{line, std::min(line_end(*end) + 1, text_.size()), ""};
}

bool YamlText::apply(const std::optional<Edit>& edit, const YamlNode& wanted) {
  if (!edit) return false;
  std::string changed = text_;
  changed.replace(edit->begin, edit->end - edit->begin, edit->by);
  Diagnostics none;
  auto read = parse_yaml(changed, "", none);
  if (!read || !same_content(*read, wanted)) return false;
  text_ = std::move(changed);
  root_ = std::move(*read);
  return true;
}

bool YamlText::set(const Way& way, const std::string& key, const std::string& value,
                   const std::string& behind) {
  const YamlNode* map = find(way);
  const auto node = value_of(value);
  if (map == nullptr || map->kind != YamlNode::kMap || !node) return false;
  YamlNode wanted = root_;
  YamlNode& there = *walk(wanted, way);
  const std::size_t index = index_of_key(*map, key);
  if (index < map->entries.size()) {
    there.entries[index].value = *node;
    return apply(replacement(map->entries[index].value, value), wanted);
  }
  YamlNode name;
  name.kind = YamlNode::kScalar;
  name.scalar = key;
  const std::size_t place = std::min(index_of_key(*map, behind) + 1, map->entries.size());
  there.entries.insert(there.entries.begin() + static_cast<std::ptrdiff_t>(place), {name, *node});
  return apply(insertion(*map, key + ": " + value, behind), wanted);
}

bool YamlText::remove(const Way& way, const std::string& key) {
  const YamlNode* map = find(way);
  if (map == nullptr || map->kind != YamlNode::kMap) return false;
  const std::size_t index = index_of_key(*map, key);
  if (index == map->entries.size()) return false;
  YamlNode wanted = root_;
  YamlNode& there = *walk(wanted, way);
  there.entries.erase(there.entries.begin() + static_cast<std::ptrdiff_t>(index));
  return apply(removal(*map, index), wanted);
}

}  // namespace sixty::gui
