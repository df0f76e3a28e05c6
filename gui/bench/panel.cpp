#include "gui/bench/panel.hpp"

namespace sixty::gui {

Panel::Panel(const char* name, const sf::FloatRect& box, Lies lies) {
  constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                      ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings;
  ImGui::SetNextWindowPos({box.left, box.top});
  ImGui::SetNextWindowSize({box.width, box.height});
  ImGui::Begin(name, nullptr,
               lies == Lies::kBeside ? kStill | ImGuiWindowFlags_NoBringToFrontOnFocus : kStill);
}

FloatingPanel::FloatingPanel(const char* title, bool& open, ImGuiWindowFlags more) {
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  ImGui::Begin(title, &open,
               ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse |
                   ImGuiWindowFlags_NoSavedSettings | more);
}

FloatingPanel::~FloatingPanel() {
  ImGui::End();
  ImGui::PopStyleVar();
}

void show_heading(ImFont* font, const char* text) {
  ImGui::PushFont(font);
  ImGui::TextWrapped("%s", text);
  ImGui::PopFont();
}

void show_second(const std::string& text) {
  ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
  ImGui::TextWrapped("%s", text.c_str());
  ImGui::PopStyleColor();
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
