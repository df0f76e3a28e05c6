// What a person has chosen for good, the panel for that, and what sounds in writing.
#include <algorithm>

#include "gui/bench/language.hpp"
#include "gui/bench/scale.hpp"
#include "gui/bench/settings_panel.hpp"
#include "gui/bench/window.hpp"

namespace sixty::gui {

/// What follows from the settings alone.
void Window::obey_settings() {
  sight_.glide(!settings_.calm);
  desk_->bench.runner().write_captions(settings_.captions);
}

void Window::show_settings_panel() {
  if (!settings_open_) return;
  const Pixel s = size();
  ImGui::SetNextWindowPos({s.x / 2, s.y / 2}, ImGuiCond_Always, {0.5F, 0.5F});
  constexpr float kWidest = 460;
  const Settings before = settings_;
  const Chosen chosen = show_settings({settings_, light_, scale_}, settings_open_,
                                      std::min(s.x - 20, kWidest), s.y - 20, panels_->heading());
  if (chosen.other_theme) toggle_theme();
  if (chosen.scale > 0) rescale(chosen.scale);
  if (chosen.language) {
    speak(chosen_language(settings_.language, ""));
    lesson_.speaks(spoken().code);
  }
  if (settings_ == before) return;
  obey_settings();
  if (keeps_) keep_settings();
}

/// The run's sounds, in the lowest lines of the drawing.
void Window::show_captions() {
  if (!settings_.captions) return;
  const std::vector<std::string> lines =
      desk_->bench.runner().captions(since_loaded_.getElapsedTime().asSeconds());
  if (lines.empty()) return;
  const sf::FloatRect box = drawing();
  ImGui::SetNextWindowPos({box.left + box.width / 2, box.top + box.height - 8}, ImGuiCond_Always,
                          {0.5F, 1});
  ImGui::SetNextWindowSizeConstraints({0, 0}, {box.width - 16, box.height});
  constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoInputs |
                                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_AlwaysAutoResize |
                                      ImGuiWindowFlags_NoFocusOnAppearing |
                                      ImGuiWindowFlags_NoSavedSettings;
  ImGui::Begin("captions", nullptr, kStill);
  for (const std::string& line : lines) ImGui::TextUnformatted(line.c_str());
  ImGui::End();
}

}  // namespace sixty::gui
