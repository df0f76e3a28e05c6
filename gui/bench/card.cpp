#include "gui/bench/card.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::gui {

Card::Kept& Card::kept(const Bench& bench, PartId id) {
  const auto [place, is_new] = kept_.try_emplace(id);
  if (!is_new) return place->second;
  const PartInstance& part = bench.installation().parts[id];
  place->second.arguments.resize(part.kind->declaration.commands.size(), 0);
  for (const auto& fault : faults_.all()) {
    if (fault->kind == part.kind && fits(*fault, part))
      place->second.faults.push_back({fault, fault->typical, false});
  }
  return place->second;
}

Wishes Card::show(Bench& bench, const sf::FloatRect& box, ImFont* heading) {
  heading_ = heading;
  const PartId id = *bench.look().selected;
  const Panel panel("card", box);
  const PartInstance& part = bench.installation().parts[id];
  const Declaration& declared = part.kind->declaration;
  show_heading(heading_, words_of_key(part.name).c_str());
  ImGui::TextDisabled("%s", declared.title.c_str());
  ImGui::TextWrapped("%s", declared.help.c_str());
  Wishes wishes;
  if (ImGui::Button("Why?")) wishes.why = id;
  show_tip("why what begins here about now does, or does not (W)");
  ImGui::Separator();
  show_readings(bench, id);
  show_commands(bench, id);
  show_faults(bench, id);
  return wishes;
}

/// As they are, and beside them a sound twin's.
void Card::show_readings(const Bench& bench, PartId id) const {
  const Picture& picture = bench.picture();
  const bool twin = picture.twin.has_value();
  if (picture.watched != id || !ImGui::BeginTable("readings", twin ? 3 : 2)) return;
  const float value = ImGui::CalcTextSize("00.00 mohm").x;
  ImGui::TableSetupColumn("", ImGuiTableColumnFlags_WidthStretch);
  ImGui::TableSetupColumn("now", ImGuiTableColumnFlags_WidthFixed, value);
  if (twin) {
    ImGui::TableSetupColumn("twin", ImGuiTableColumnFlags_WidthFixed, value);
    ImGui::TableHeadersRow();
  }
  const std::vector<NamedDecl>& readings =
      bench.installation().parts[id].kind->declaration.readings;
  const auto put = [](const std::string& text) {
    ImGui::TableNextColumn();
    const float room = ImGui::GetContentRegionAvail().x - ImGui::CalcTextSize(text.c_str()).x;
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(room, 0.0F));
    ImGui::TextUnformatted(text.c_str());
  };
  for (std::size_t k = 0; k < picture.readings.size(); ++k) {
    ImGui::TableNextColumn();
    ImGui::TextWrapped("%s", words_of_key(readings[k].name).c_str());
    show_tip(readings[k].help.c_str());
    put(explain::value_text(picture.readings[k], readings[k]));
    if (twin) put(explain::value_text(picture.twin->readings[k], readings[k]));
  }
  ImGui::EndTable();
}

/// What a hand can do to it, each with its quantity in the unit that it is declared in.
void Card::show_commands(Bench& bench, PartId id) {
  const PartInstance& part = bench.installation().parts[id];
  const std::vector<CommandDecl>& commands = part.kind->declaration.commands;
  if (commands.empty()) return;
  ImGui::Separator();
  show_heading(heading_, "By hand");
  std::vector<double>& arguments = kept(bench, id).arguments;
  for (std::size_t k = 0; k < commands.size(); ++k) {
    const CommandDecl& command = commands[k];
    ImGui::PushID(static_cast<int>(k));
    const bool pressed = ImGui::Button(words_of_key(command.name).c_str());
    show_tip(command.help.c_str());
    if (command.argument) {
      const ParamDecl& argument = *command.argument;
      arguments[k] = std::clamp(arguments[k], argument.least, argument.most);
      ImGui::SameLine();
      ImGui::SetNextItemWidth(110);
      ImGui::InputDouble(argument.unit.c_str(), &arguments[k], 0, 0, "%.6g");
    }
    if (pressed) bench.command(id, k, arguments[k]);
    ImGui::PopID();
  }
}

void Card::show_faults(Bench& bench, PartId id) {
  std::vector<Kept::Choice>& choices = kept(bench, id).faults;
  if (choices.empty()) return;
  ImGui::Separator();
  show_heading(heading_, "Faults");
  for (std::size_t k = 0; k < choices.size(); ++k) {
    Kept::Choice& choice = choices[k];
    ImGui::PushID(static_cast<int>(k));
    bool changes = ImGui::Checkbox("##in", &choice.put_in);
    ImGui::SameLine();
    ImGui::TextWrapped("%s", choice.fault->title.c_str());
    show_tip(choice.fault->seen.c_str());
    if (choice.put_in) {
      auto severity = static_cast<float>(choice.severity);
      if (ImGui::SliderFloat("severity", &severity, 0.01F, 1.0F, "%.2f")) {
        choice.severity = static_cast<double>(severity);
        changes = true;
      }
      if (!choice.fault->caution.empty())
        ImGui::TextWrapped("Caution: %s.", choice.fault->caution.c_str());
    }
    if (changes) put_fault(bench, id, choice);
    ImGui::PopID();
  }
}

void Card::put_fault(Bench& bench, PartId id, const Kept::Choice& choice) {
  Injection injection;
  injection.fault = choice.fault;
  injection.part = id;
  injection.severity = choice.severity;
  injection.course = choice.fault->course;
  Action action;
  action.part = id;
  action.fault = std::make_shared<const Injection>(injection);
  action.clears = !choice.put_in;
  action.text = choice.fault->name;
  bench.runner().act(std::move(action));
}

}  // namespace sixty::gui
