#pragma once

#include <optional>
#include <string>

#include "gui/keep/yaml_text.hpp"

namespace sixty::gui {

/// Where a scene's text writes a part down: among `parts`, or as a place of a line.
struct PartSpot {
  YamlText::Way map;          ///< of the part, or of the place
  std::string piece;          ///< of a place: "each" or "run"; empty: a part by itself
  YamlText::Way template_of;  ///< of a place: what the line says of all
  bool counted = false;       ///< one piece of text for many parts
};

/// Errors: nothing where the part has no text of its own, as a loop's way home.
std::optional<PartSpot> find_spot(const YamlText& scene, const std::string& part);

}  // namespace sixty::gui
