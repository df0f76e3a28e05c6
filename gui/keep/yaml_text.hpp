#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scene/yaml_document.hpp"

namespace sixty::gui {

/// A YAML file's text with its tree, changed in place: comments, order and layout of all else stay.
/// Each change is read back; where anything but what was asked for would be another, it is refused.
class YamlText {
 public:
  /// Keys of maps and, in digits from 0, places in lists, from the root on.
  using Way = std::vector<std::string>;

  /// Errors: nothing, reported with places in `path`.
  static std::optional<YamlText> read(std::string text, const std::string& path,
                                      Diagnostics& mistakes);
  const std::string& text() const { return text_; }
  const YamlNode& root() const { return root_; }
  /// nullptr if there is nothing.
  const YamlNode* find(const Way& way) const;

  /// Gives an entry of the map at `way` a value, as it is written in YAML on one line; a new one
  /// comes behind the entry `behind`, or last. Errors: false, and nothing is changed.
  bool set(const Way& way, const std::string& key, const std::string& value,
           const std::string& behind = "");
  /// Takes an entry out of a map. Errors: false, and nothing is changed; so if it is not there.
  bool remove(const Way& way, const std::string& key);

 private:
  YamlText(std::string text, YamlNode root) : text_(std::move(text)), root_(std::move(root)) {}
  struct Edit {
    std::size_t begin = 0, end = 0;
    std::string by;
  };
  std::size_t offset(const YamlNode& node) const;
  std::optional<std::size_t> end_of(const YamlNode& node) const;
  std::optional<std::size_t> end_of_quoted(std::size_t at) const;
  std::optional<std::size_t> end_of_flow(std::size_t at) const;
  std::size_t line_begin(std::size_t at) const;
  std::size_t line_end(std::size_t at) const;
  bool is_flow(const YamlNode& map) const;
  std::optional<Edit> replacement(const YamlNode& value, const std::string& by) const;
  std::optional<Edit> insertion(const YamlNode& map, const std::string& entry,
                                const std::string& behind) const;
  std::optional<Edit> removal(const YamlNode& map, std::size_t index) const;
  bool apply(const std::optional<Edit>& edit, const YamlNode& wanted);

  std::string text_;
  YamlNode root_;
};

/// Whether two trees hold the same, wherever it stands.
bool same_content(const YamlNode& a, const YamlNode& b);

}  // namespace sixty::gui
