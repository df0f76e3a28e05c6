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
  bool keys_page = false, settings = false, twin = false, meters = false, files = false,
       hunt = false, lessons = false;
  std::string measure;           ///< an order for an instrument
  std::optional<PartId> select;  ///< another part's card
  std::optional<PartId> why;     ///< what about this part is to be told
  std::optional<PartId> notice;  ///< what is wrong with this part is to be told
};

/// A panel that fills a box and does not move; its end comes by itself.
class Panel {
 public:
  /// Beside the others, or laid over them: then it comes to the front as it appears.
  enum class Lies { kBeside, kOver };
  Panel(const char* name, const sf::FloatRect& box, Lies lies = Lies::kBeside);
  ~Panel() { ImGui::End(); }
  Panel(const Panel&) = delete;
  Panel& operator=(const Panel&) = delete;
};

/// A panel over the drawing, with its title and a button that closes it. It is as high as what is
/// in it takes, up to a limit; only beyond that it scrolls. Order: its place is set for the next of
/// ImGui's windows.
class FloatingPanel {
 public:
  /// Units: pixels.
  FloatingPanel(const char* title, bool& open, float width, float most_high);
  ~FloatingPanel();
  FloatingPanel(const FloatingPanel&) = delete;
  FloatingPanel& operator=(const FloatingPanel&) = delete;
};

/// Letters of a heading, once PanelLayer has them.
void show_heading(ImFont* font, const char* text);
/// On as many lines as it takes, broken between words only: never within a number or a time.
void show_text(const std::string& text);
/// In second letters, on as many lines as it takes.
void show_second(const std::string& text);
/// What is said about the last thing, while the pointer is on it.
void show_tip(const char* text);

}  // namespace sixty::gui
