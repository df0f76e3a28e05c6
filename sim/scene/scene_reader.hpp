#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {

/// Reads a scene's tree: keys, part types and the values that it sets.
/// Errors: reported; the draft holds what could be read.
Draft read_scene(const YamlNode& root, const std::string& file, const Registry& registry,
                 Mistakes& mistakes);

}  // namespace sixty
