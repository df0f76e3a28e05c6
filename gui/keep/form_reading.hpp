#pragma once

#include "gui/keep/form.hpp"

namespace sixty::gui {

/// Finds in a scene what a form's fields say, each at its place: "parts.clock.set.value", from the
/// root with "/" before it, else from where the entry stands. <<number>> is the entry's number;
/// "zone=2" the item of a list that has it so; "@key" the entry's own name. A group's ends in "*",
/// all there are, or has <<number>>, as many as there are from 1 on.
/// Errors: reported with the place in the scene.
FormEntry read_filled(const YamlNode& scene, const std::string& path, const FormGroup& whole,
                      Mistakes& mistakes);

}  // namespace sixty::gui
