#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {

/// A terminal of its own that a template joins with one of the scene.
struct DraftJoin {
  std::string own;
  Written with;
};

/// What is put into a line again and again: a part without a name, wired by the first two terminals
/// of its type.
struct LineTemplate {
  DraftPart part;  ///< its name is what messages call the template
  std::vector<DraftJoin> joins;
};

/// Reads a template, "lines.upper.each". Errors: reported; nothing if it cannot be used.
std::optional<LineTemplate> read_template(const YamlNode& map, const std::string& label,
                                          const Registry& registry, TreeReader& reader);

/// The same for one that a place changes: laid over `base` if it names no type, else in its stead.
std::optional<LineTemplate> overlay_template(const LineTemplate& base, const YamlNode& map,
                                             const std::string& label, const Registry& registry,
                                             TreeReader& reader);

/// The part that a template makes.
DraftPart stamped(const LineTemplate& from, const std::string& name, const std::string& room);

/// Keys of a template.
const std::vector<std::string>& template_keys();

}  // namespace sixty
