#include "gui/bench/settings_panel.hpp"

#include "gui/bench/panel.hpp"
#include "gui/bench/panel_pieces.hpp"
#include "gui/bench/scale.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

/// Languages by their own names, so that each is found by who reads only that one.
bool choose_language(std::string& code) {
  bool changed = false;
  for (const Language& language : languages()) {
    ImGui::PushID(language.code.c_str());
    if (ImGui::RadioButton(language.name.c_str(), spoken().code == language.code)) {
      code = language.code;
      changed = true;
    }
    ImGui::PopID();
    ImGui::SameLine();
  }
  ImGui::NewLine();
  return changed;
}

float choose_scale(float scale) {
  float chosen = 0;
  if (ImGui::Button("−##smaller")) chosen = next_scale(scale, -1);
  show_tip(tr("all smaller (ctrl -)"));
  ImGui::SameLine();
  ImGui::TextUnformatted(say("{:.0f} %", 100 * scale).c_str());
  ImGui::SameLine();
  if (ImGui::Button("+##larger")) chosen = next_scale(scale, 1);
  show_tip(tr("all larger (ctrl +)"));
  return chosen;
}

}  // namespace

Chosen show_settings(const Choosing& choosing, bool& open, float width, float most_high,
                     ImFont* heading) {
  Chosen chosen;
  const FloatingPanel panel((std::string(tr("Settings")) + "###settings").c_str(), open, width,
                            most_high);
  panel_heading(tr("Language"), heading);
  chosen.language = choose_language(choosing.settings.language);
  panel_heading(tr("How large all is"), heading);
  chosen.scale = choose_scale(choosing.scale);
  panel_heading(tr("Colours"), heading);
  if (ImGui::RadioButton(tr_as("colours", "Dark"), !choosing.light))
    chosen.other_theme = choosing.light;
  ImGui::SameLine();
  if (ImGui::RadioButton(tr_as("colours", "Light"), choosing.light))
    chosen.other_theme = !choosing.light;
  panel_heading(tr("Sound and motion"), heading);
  ImGui::Checkbox(tr("Write what sounds"), &choosing.settings.captions);
  show_second(tr("For who does not hear it: below the drawing, which part sounds, and of what."));
  ImGui::Checkbox(tr("Views change at once"), &choosing.settings.calm);
  show_second(tr("For who does not bear gliding pictures. What the clock moves still moves."));
  return chosen;
}

}  // namespace sixty::gui
