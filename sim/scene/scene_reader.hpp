#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {

/// Most parts that a scene may hold.
constexpr std::size_t kMostParts = 5000;

/// Reads a scene's tree: keys, part types and the values that it sets.
/// Errors: reported; the draft holds what could be read.
Draft read_scene(const YamlNode& root, const std::string& file, const Registry& registry,
                 Mistakes& mistakes);

/// Names of all part types, in order.
std::vector<std::string> part_types(const Registry& registry);

}  // namespace sixty
