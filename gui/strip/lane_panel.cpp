#include "gui/strip/lane_panel.hpp"

#include <imgui/imgui.h>

#include <algorithm>
#include <functional>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

/// All readings of a part that can be lanes: those that have a form of their own, and all others
/// as curves.
std::vector<LaneOf> all_of(const Installation& installation, PartId part) {
  std::vector<LaneOf> lanes;
  const auto& readings = installation.parts[part].kind->declaration.readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    const Lane form = readings[k].lane != Lane::kNone ? readings[k].lane
                      : readings[k].unit.empty()      ? Lane::kBar
                                                      : Lane::kCurve;
    lanes.push_back({part, k, form});
  }
  return lanes;
}

/// A tick for each lane of a kind.
void show_lanes(const char* heading, std::vector<LaneOf>& chosen, const std::vector<LaneOf>& all,
                const std::function<std::string(const LaneOf&)>& words) {
  if (all.empty() || !ImGui::TreeNode(heading)) return;
  for (const LaneOf& lane : all) {
    const auto it = std::find(chosen.begin(), chosen.end(), lane);
    bool is_in = it != chosen.end();
    if (!ImGui::Checkbox(words(lane).c_str(), &is_in)) continue;
    if (is_in)
      chosen.push_back(lane);
    else
      chosen.erase(it);
  }
  ImGui::TreePop();
}

}  // namespace

std::string show_lane_choice(Strip& strip, const Installation& installation) {
  std::string kept;
  if (ImGui::Button(tr("Lanes"))) ImGui::OpenPopup("lanes");
  ImGui::SameLine();
  if (ImGui::Button(tr("Export"))) ImGui::OpenPopup("export");
  ImGui::SetNextWindowSizeConstraints({260, 100}, {360, 460});
  if (ImGui::BeginPopup("lanes")) {
    std::vector<LaneOf> chosen = strip.chosen();
    if (ImGui::Button(tr_as("lanes", "The house's")))
      chosen = lanes_of_building(installation, strip.lines());
    ImGui::SameLine();
    if (ImGui::Button(tr_as("lanes", "The case's")))
      chosen = lanes_of_case(installation, strip.lines());
    ImGui::SameLine();
    if (ImGui::Button(tr_as("lanes", "None"))) chosen.clear();
    show_lanes((tr("lines and zones") + std::string("###lines")).c_str(), chosen, strip.lines(),
               [&](const LaneOf& lane) { return name_of(installation, lane); });
    for (PartId p = 0; p < installation.parts.size(); ++p) {
      show_lanes(
          words_of_key(installation.parts[p].name).c_str(), chosen, all_of(installation, p),
          [&](const LaneOf& lane) { return words_of_reading(reading_of(installation, lane)); });
    }
    if (chosen != strip.chosen()) strip.set_lanes(std::move(chosen));
    ImGui::EndPopup();
  }
  if (ImGui::BeginPopup("export")) {
    ImGui::TextDisabled("%s", tr("what is shown of all lanes, as a file"));
    if (ImGui::Selectable(tr("comma-separated values (.csv)"))) kept = "csv";
    if (ImGui::Selectable(tr("value change dump (.vcd)"))) kept = "vcd";
    if (ImGui::Selectable(tr("picture (.png)"))) kept = "png";
    ImGui::EndPopup();
  }
  return kept;
}

}  // namespace sixty::gui
