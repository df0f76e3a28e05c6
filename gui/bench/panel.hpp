#pragma once

#include <imgui/imgui.h>

#include <SFML/Graphics/Rect.hpp>
#include <optional>
#include <string>

#include "gui/views/view.hpp"

namespace sixty::gui {

/// What a panel asks of the window.
struct Wishes {
  std::optional<View> travel;
  bool other_theme = false;
  bool keys_page = false, twin = false, meters = false, files = false, form = false;
  std::string measure;           ///< an order for an instrument
  std::optional<PartId> select;  ///< another part's card
  std::optional<PartId> why;     ///< what about this part is to be told
};

/// A panel that fills a box and does not move; its end comes by itself.
class Panel {
 public:
  Panel(const char* name, const sf::FloatRect& box);
  ~Panel() { ImGui::End(); }
  Panel(const Panel&) = delete;
  Panel& operator=(const Panel&) = delete;
};

/// Letters of a heading, once PanelLayer has them.
void show_heading(ImFont* font, const char* text);
/// A field for one line.
bool input_text(const char* label, std::string& text, ImGuiInputTextFlags flags = 0);
/// What is said about the last thing, while the pointer is on it.
void show_tip(const char* text);

}  // namespace sixty::gui
