#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty {

struct YamlEntry;

/// One value of a YAML file and the place where it stands. A file's tree is read once and not
/// changed; it holds no anchors, aliases, tags or merge keys, no key twice, and only text as keys.
struct YamlNode {
  enum Kind { kNull, kScalar, kList, kMap };

  Kind kind = kNull;
  std::string scalar;  ///< the text of a kScalar; valid UTF-8, no controls but line end and tab
  bool quoted =
      false;       ///< it stood in quotes or as a block: a text, even if it looks like a number
  int line = 0;    ///< from 1; where the value begins (for an absent one, where its key stands)
  int column = 0;  ///< from 1, counted in bytes
  std::vector<YamlNode> items;     ///< of a kList
  std::vector<YamlEntry> entries;  ///< of a kMap, in the order of the file

  /// The value under a key, or nullptr; also nullptr if this is no map. Looks at one after another.
  const YamlNode* find(std::string_view key) const;
};

/// One line of a map. Taken apart as: for (const auto& [key, value] : node.entries).
struct YamlEntry {
  YamlNode key;  ///< always a kScalar
  YamlNode value;
};

/// Bounds on what is read. Depth and nodes bound time and stack, bytes and marks the memory.
constexpr std::size_t kYamlMaxBytes = 262'144;  // 256 kB
constexpr std::size_t kYamlMaxDepth = 32;
constexpr std::size_t kYamlMaxNodes = 20'000;
constexpr std::size_t kYamlMaxScalarBytes = 4096;

/// Reads a YAML file; every YAML file comes in this way.
/// Errors: nothing is returned, and every mistake found (up to 50) is added to the diagnostics with
/// line and column; what a person cannot have meant is refused rather than guessed at.
std::optional<YamlNode> read_yaml(const std::string& path, Diagnostics& diagnostics);

/// The same for a text; `path` is the name by which messages call it.
std::optional<YamlNode> parse_yaml(std::string_view text, const std::string& path,
                                   Diagnostics& diagnostics);

}  // namespace sixty
