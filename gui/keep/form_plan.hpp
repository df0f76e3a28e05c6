#pragma once

#include <optional>

#include "gui/keep/form.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::gui {

/// Reads what a form asks for: `form`, `title`, `help`, `fields` and `groups` of its file.
/// Errors: reported; what could be read is returned.
FormGroup read_form_plan(const YamlNode& root, TreeReader& reader);

}  // namespace sixty::gui
