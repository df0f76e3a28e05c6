#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/bench/panel.hpp"
#include "sim/base/diagnostic.hpp"
#include "sim/part/declaration.hpp"

namespace sixty::gui {

/// The panel's name with a button that closes it. Returns whether that was pressed.
bool panel_title(const char* text, ImFont* heading);
/// A section's name, with a rule above it; in the panel's own letters without a font.
void panel_heading(const char* text, ImFont* heading = nullptr);
/// A label; the field beside it begins so far from the panel's left and takes the rest of the line.
/// Units: pixels.
void show_label(float field_from, const char* text);
/// What is wrong, each with place, what was found and expected, and how to mend it; and a sentence
/// behind them. Nothing if nothing is.
void panel_mistakes(const std::vector<Diagnostic>& mistakes, const char* behind);

/// A number as it is written in a field, "2.017 mm", so that the declaration takes it again.
std::string written_number(const ParamDecl& decl, double number);
/// The value that is written there. Errors: nothing, and why in `complaint`.
std::optional<Value> value_of(const ParamDecl& decl, const std::string& written,
                              std::string& complaint);

}  // namespace sixty::gui
