#include "gui/bench/panel.hpp"

#include <imgui/imgui_internal.h>

#include <algorithm>
#include <sstream>

#include "gui/paint/text_width.hpp"

namespace sixty::gui {
namespace {

/// What was in it when it was shown last would be seen whole at that height.
bool fits(const char* title, float most_high) {
  const ImGuiWindow* last = ImGui::FindWindowByName(title);
  // As it appears, it may have been laid out otherwise the last time: in another window.
  if (last == nullptr || last->LastFrameActive < ImGui::GetFrameCount() - 1) return true;
  const ImGuiStyle& style = ImGui::GetStyle();
  const float frame = last->TitleBarHeight() + 2 * style.WindowPadding.y;
  return last->ContentSize.y + frame <= most_high;
}

/// Broken between words only, paragraph by paragraph.
std::string in_lines(const std::string& text, float room) {
  const auto width = [](const std::string& line) { return ImGui::CalcTextSize(line.c_str()).x; };
  std::istringstream paragraphs(text);
  std::string all;
  for (std::string paragraph; std::getline(paragraphs, paragraph);) {
    if (paragraph.empty()) all += "\n";  // a line left free between two of them
    for (const std::string& line : broken_lines(paragraph, room, width))
      all += (all.empty() ? "" : "\n") + line;
  }
  return all;
}

}  // namespace

Panel::Panel(const char* name, const sf::FloatRect& box, Lies lies) {
  constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                      ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings;
  ImGui::SetNextWindowPos({box.left, box.top});
  ImGui::SetNextWindowSize({box.width, box.height});
  ImGui::Begin(name, nullptr,
               lies == Lies::kBeside ? kStill | ImGuiWindowFlags_NoBringToFrontOnFocus : kStill);
}

FloatingPanel::FloatingPanel(const char* title, bool& open, float width, float most_high) {
  constexpr float kLeast = 60;
  most_high = std::max(most_high, kLeast);
  ImGui::SetNextWindowSizeConstraints({width, 0}, {width, most_high});
  ImGui::SetNextWindowSize({width, 0});
  // ImGui gives one that takes its height from its words a bar already for the fraction of a pixel
  // by which it made it too low.
  const ImGuiWindowFlags bar =
      fits(title, most_high) ? ImGuiWindowFlags_NoScrollbar : ImGuiWindowFlags_None;
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  ImGui::Begin(title, &open,
               ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoResize | bar);
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

void show_text(const std::string& text) {
  const float room = std::max(ImGui::GetContentRegionAvail().x, 1.0F);
  // A word that is wider than all there is goes on in the next line.
  ImGui::TextWrapped("%s", in_lines(text, room).c_str());
}

void show_second(const std::string& text) {
  ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
  show_text(text);
  ImGui::PopStyleColor();
}

void show_tip(const char* text) {
  if (!ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
  ImGui::BeginTooltip();
  ImGui::TextUnformatted(in_lines(text, ImGui::GetFontSize() * 26).c_str());
  ImGui::EndTooltip();
}

}  // namespace sixty::gui
