#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {

/// Reads a scene's tree: keys, part types and the values that it sets. `begins_on`: day of the week
/// on which it begins, the last one up to its own start. Errors: reported; the draft holds what
/// could be read.
Draft read_scene(const YamlNode& root, const std::string& file, const Registry& registry,
                 std::optional<int> begins_on, Mistakes& mistakes);

}  // namespace sixty
