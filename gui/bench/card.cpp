#include "gui/bench/card.hpp"

#include <algorithm>
#include <cmath>

#include "gui/bench/meters.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"

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
  place->second.neighbours = neighbours_of(bench.installation(), id);
  place->second.orders = orders_at(bench.installation(), id);
  return place->second;
}

Wishes Card::show(Bench& bench, const sf::FloatRect& box, ImFont* heading) {
  heading_ = heading;
  const PartId id = *bench.look().selected;
  const Panel panel("card", box);
  const PartInstance& part = bench.installation().parts[id];
  const Declaration& declared = part.kind->declaration;
  show_heading(heading_, words_of_key(part.name).c_str());
  ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
  ImGui::TextWrapped("%s", declared.title.c_str());
  ImGui::PopStyleColor();
  ImGui::TextWrapped("%s", declared.help.c_str());
  Wishes wishes;
  if (ImGui::Button("Why?")) wishes.why = id;
  show_tip("why what begins here about now does, or does not (W)");
  ImGui::Separator();
  show_readings(bench, id);
  if (std::string order = show_orders(bench, id); !order.empty()) wishes.measure = std::move(order);
  wishes.select = show_neighbours(bench, id);
  show_commands(bench, id);
  show_faults(bench, id);
  ImGui::Separator();
  show_heading(heading_, "Data sheet");
  if (auto sheet = values_.show(bench.installation().parts[id])) sheet_ = std::move(sheet);
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
    put(shown_text(picture.readings[k], readings[k]));
    if (twin) put(shown_text(picture.twin->readings[k], readings[k]));
  }
  ImGui::EndTable();
}

/// What it works with; each leads to its own card. Returns the one that was pressed.
std::optional<PartId> Card::show_neighbours(const Bench& bench, PartId id) {
  constexpr std::size_t kMost = 8;
  std::optional<PartId> chosen;
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  const auto show = [&](const char* words, const std::vector<PartId>& parts) {
    if (parts.empty()) return;
    ImGui::AlignTextToFramePadding();
    ImGui::TextDisabled("%s", words);
    for (std::size_t k = 0; k < std::min(parts.size(), kMost); ++k) {
      const std::string name = words_of_key(bench.installation().parts[parts[k]].name);
      const float width = ImGui::CalcTextSize(name.c_str()).x + 20;
      ImGui::SameLine();
      if (ImGui::GetCursorScreenPos().x + width > right) ImGui::NewLine();
      ImGui::PushID(static_cast<int>(parts[k]));
      if (ImGui::Button(name.c_str())) chosen = parts[k];
      ImGui::PopID();
    }
    if (parts.size() > kMost) {
      ImGui::SameLine();
      ImGui::TextDisabled("and %zu more", parts.size() - kMost);
    }
  };
  ImGui::Separator();
  const Neighbours& neighbours = kept(bench, id).neighbours;
  show("Fed by", neighbours.fed_by);
  show("Feeds", neighbours.feeds);
  show("Wired to", neighbours.joined);
  return chosen;
}

/// What can be measured at it. Returns what was chosen.
std::string Card::show_orders(const Bench& bench, PartId id) {
  Kept& own = kept(bench, id);
  if (own.orders.empty() || !ImGui::BeginCombo("##measure", "Measure ...")) return "";
  std::string chosen;
  for (const std::string& order : own.orders) {
    if (ImGui::Selectable(order.c_str())) chosen = order;
  }
  ImGui::EndCombo();
  return chosen;
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
  bool hides = bench.look().hides_wrong;
  if (ImGui::Checkbox("hide what is wrong", &hides)) bench.hide_wrong(hides);
  show_tip("no marks, no twin, no why, and none of these: for hunting faults (X)");
  if (hides) return;
  for (std::size_t k = 0; k < choices.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    show_fault(bench, id, choices[k]);
    ImGui::PopID();
  }
}

/// What is in force is what the run says, whoever has put it in.
void Card::show_fault(Bench& bench, PartId id, Kept::Choice& choice) {
  const std::optional<double> in_force = bench.severity_of(id, *choice.fault);
  bool put_in = in_force.has_value();
  if (ImGui::Checkbox("##in", &put_in)) {
    if (put_in)
      bench.put_fault(id, choice.fault, choice.severity);
    else
      bench.clear_fault(id, choice.fault);
  }
  ImGui::SameLine();
  ImGui::TextWrapped("%s", choice.fault->title.c_str());
  show_tip(choice.fault->seen.c_str());
  if (!in_force) return;
  // While the slider is drawn along, the run has not always followed.
  auto severity = static_cast<float>(choice.drawn ? choice.severity : *in_force);
  if (ImGui::SliderFloat("severity", &severity, 0.01F, 1.0F, "%.2f"))
    choice.severity = static_cast<double>(severity);
  choice.drawn = ImGui::IsItemActive();
  // Each is a deed of its own: not one for each pixel.
  const bool is_far = std::fabs(choice.severity - *in_force) >= 0.03;
  if ((choice.drawn && is_far) || ImGui::IsItemDeactivatedAfterEdit())
    bench.put_fault(id, choice.fault, choice.severity);
  ImGui::TextWrapped("Remedy: %s.", choice.fault->remedy.c_str());
  if (!choice.fault->caution.empty())
    ImGui::TextWrapped("Caution: %s.", choice.fault->caution.c_str());
}

}  // namespace sixty::gui
