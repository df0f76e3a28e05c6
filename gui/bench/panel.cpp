#include "gui/bench/panel.hpp"

#include <array>

namespace sixty::gui {

Panel::Panel(const char* name, const sf::FloatRect& box) {
  constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                      ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                                      ImGuiWindowFlags_NoBringToFrontOnFocus;
  ImGui::SetNextWindowPos({box.left, box.top});
  ImGui::SetNextWindowSize({box.width, box.height});
  ImGui::Begin(name, nullptr, kStill);
}

void show_heading(ImFont* font, const char* text) {
  ImGui::PushFont(font);
  ImGui::TextWrapped("%s", text);
  ImGui::PopFont();
}

bool input_text(const char* label, std::string& text, ImGuiInputTextFlags flags) {
  std::array<char, 1024> line{};
  text.copy(line.data(), line.size() - 1);
  const bool entered = ImGui::InputText(label, line.data(), line.size(), flags);
  text = line.data();
  return entered;
}

void show_tip(const char* text) {
  if (!ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
  ImGui::BeginTooltip();
  ImGui::PushTextWrapPos(ImGui::GetFontSize() * 26);
  ImGui::TextUnformatted(text);
  ImGui::PopTextWrapPos();
  ImGui::EndTooltip();
}

}  // namespace sixty::gui
