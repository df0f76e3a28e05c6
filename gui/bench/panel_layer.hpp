#pragma once

#include <imgui/imgui.h>

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/Window/Event.hpp>
#include <array>

#include "gui/paint/letters.hpp"
#include "gui/paint/theme.hpp"

namespace sixty::gui {

/// Dear ImGui in an SFML window: hands events on and draws its panels over the picture.
class PanelLayer {
 public:
  /// Errors: throws std::runtime_error where the display has no OpenGL 3.
  PanelLayer(sf::RenderWindow& window, const Letters& letters, float scale);
  ~PanelLayer();
  PanelLayer(const PanelLayer&) = delete;
  PanelLayer& operator=(const PanelLayer&) = delete;

  void style(const Theme& theme);
  /// How many pixels of the window there are to one of the panels'. Order: not within a frame.
  void set_scale(float scale);
  void handle(const sf::Event& event);
  /// Panels are to be made between begin() and draw(). Units: s.
  void begin(float frame_s);
  void draw();
  /// Whether the pointer at that pixel, or the keyboard, is a panel's. As panels were in the last
  /// frame, wherever the pointer was then.
  bool takes_pointer(sf::Vector2f at) const;
  bool takes_keys() const { return ImGui::GetIO().WantTextInput; }
  /// Closes lists and fields that have been opened over the panels; whether there were any. ImGui
  /// by itself leaves them there until something else is pressed, and keeps that press to itself.
  bool close_popups();
  /// Whether arrows, space and tab go from field to field of the panels.
  void let_keys_choose(bool fields);
  ImFont* heading() const { return heading_; }

 private:
  void load_letters();

  sf::RenderWindow& window_;
  const Letters& letters_;
  float scale_;
  ImFont* heading_ = nullptr;
  // Pressed since the last frame: what goes down and up within one frame counts too.
  std::array<bool, 3> button_latch_{}, button_down_{};
  std::array<bool, sf::Keyboard::KeyCount> key_latch_{}, key_down_{};
};

}  // namespace sixty::gui
