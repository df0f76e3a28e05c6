#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scene/mistakes.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {

/// Takes pieces out of one file's tree and reports what is not as it should be.
class TreeReader {
 public:
  TreeReader(std::string file, Mistakes& mistakes) : file_(std::move(file)), mistakes_(mistakes) {}

  Place place(const YamlNode& node) const { return {file_, node.line, node.column}; }
  Written written(const YamlNode& scalar, std::string label) const {
    return {std::move(label), scalar.scalar, place(scalar)};
  }
  Mistakes& mistakes() { return mistakes_; }
  const std::string& file() const { return file_; }

  /// A mistake at a node, with what was found there. `what` follows the label.
  void add(const YamlNode& node, const std::string& label, const std::string& what,
           const std::string& expected, const std::string& mend);
  /// Whether the node is of a kind; otherwise reported, with an example or what is expected.
  bool is_map(const YamlNode& node, const std::string& label, const std::string& example);
  bool is_list(const YamlNode& node, const std::string& label, const std::string& example);
  bool is_scalar(const YamlNode& node, const std::string& label, const std::string& expected);
  /// Reports every key of a map that is none of the known ones; `holder` is what has them.
  void check_keys(const YamlNode& map, const std::string& holder,
                  const std::vector<std::string>& known);
  /// The value of a key that must be there. Errors: nullptr, reported at `whole`.
  const YamlNode* required(const YamlNode& map, const YamlNode& whole, std::string_view key,
                           const std::string& label, const std::string& example);
  /// The text of a key; empty if it is not there or is no text. `needed`: not there is a mistake.
  std::string text(const YamlNode& map, const char* key, const std::string& label, bool needed);
  /// The texts of a key that holds a list; none if it is not there. Those that are none are
  /// reported.
  std::vector<std::string> texts(const YamlNode& map, const char* key, const std::string& label);
  /// Which of the words a key says. Errors: nothing, and reported but where the key is not there.
  std::optional<std::size_t> word_of(const YamlNode& map, const char* key, const std::string& label,
                                     const std::vector<std::string>& words);
  /// Whether a key says yes; not if it is not there.
  bool says_yes(const YamlNode& map, const char* key, const std::string& label);
  /// A name that references can use: a letter, then letters, digits and underscores.
  void check_name(const YamlNode& key, const std::string& kind);

 private:
  std::string file_;
  Mistakes& mistakes_;
};

/// What a node is, in words: its text, "a list", "nothing".
std::string describe(const YamlNode& node);

/// Whether a text can be the name of a part, net or data sheet.
bool is_name(std::string_view text);

}  // namespace sixty
