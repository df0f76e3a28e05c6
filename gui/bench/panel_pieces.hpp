#pragma once

#include <imgui/imgui.h>

#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

/// A panel at a fixed place, whose end comes by itself.
class PanelWindow {
 public:
  PanelWindow(const char* name, ImVec2 at, ImVec2 size);
  ~PanelWindow() { ImGui::End(); }
  PanelWindow(const PanelWindow&) = delete;
  PanelWindow& operator=(const PanelWindow&) = delete;
};

/// The panel's name with a button that closes it. Returns whether that was pressed.
bool panel_title(const char* text, ImFont* heading);
/// A section's name, with a rule above it; in the panel's own letters without a font.
void panel_heading(const char* text, ImFont* heading = nullptr);
/// What is wrong, each with place, what was found and expected, and how to mend it; and a sentence
/// behind them. Nothing if nothing is.
void panel_mistakes(const std::vector<Diagnostic>& mistakes, const char* behind);
/// A question mark would be one more thing to aim at: what is pointed at explains itself.
void explain_hovered(const std::string& text);

}  // namespace sixty::gui
