#include <fmt/format.h>

#include <algorithm>

#include "gui/bench/window.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::gui {
namespace {

constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                    ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                                    ImGuiWindowFlags_NoBringToFrontOnFocus;

std::string speed_text(double speed) {
  return speed >= 1 ? fmt::format("{:.0f} x", speed) : fmt::format("1/{:.0f} x", 1 / speed);
}

/// A panel whose end comes by itself.
class Panel {
 public:
  explicit Panel(const char* name) { ImGui::Begin(name, nullptr, kStill); }
  ~Panel() { ImGui::End(); }
  Panel(const Panel&) = delete;
  Panel& operator=(const Panel&) = delete;
};

}  // namespace

void Window::show_bar() {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({size().x, kBar});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(14, 7));
  const Panel panel("bar");
  ImGui::PopStyleVar();
  const auto button = [](const char* text, const char* what) {
    const bool pressed = ImGui::Button(text);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", what);
    ImGui::SameLine();
    return pressed;
  };
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s", installation_->title.c_str());
  ImGui::SameLine(0, 24);
  ImGui::TextUnformatted(
      format_instant(installation_->clock, std::max<SimTime>(seen_.picture->at, 0), 3).c_str());
  ImGui::SameLine(0, 24);
  if (button("|<", "to the event before (left arrow)")) runner_.step(false);
  if (button(seen_.running ? "Pause" : "Run", "run or pause (space)")) toggle_running();
  if (button(">|", "to the next event (right arrow)")) runner_.step(true);
  ImGui::SameLine(0, 24);
  if (button("-", "slower (down arrow)")) change_speed(-1);
  ImGui::AlignTextToFramePadding();
  ImGui::Text("%s", speed_text(seen_.speed).c_str());
  ImGui::SameLine();
  if (button("+", "faster (up arrow)")) change_speed(1);
  ImGui::SameLine(0, 24);
  if (button("Building", "the whole building (1)")) travel(View::kBuilding);
  if (button("Case", "the master's case (2)")) travel(View::kCase);
  if (look_.selected && button("Part", "the selected part (3)")) travel(View::kPart);
  ImGui::SameLine(0, 24);
  if (button(light_ ? "Dark" : "Light", "the other colours (T)")) toggle_theme();
  if (seen_.running && seen_.behind) ImGui::TextDisabled("slower than asked: it cannot keep up");
  if (!seen_.failure.empty()) ImGui::TextDisabled("%s", seen_.failure.c_str());
}

void Window::show_heading(const char* text) {
  ImGui::PushFont(panels_->heading());
  ImGui::TextWrapped("%s", text);
  ImGui::PopFont();
}

void Window::show_card(PartId id) {
  ImGui::SetNextWindowPos({size().x - card_width(), kBar});
  ImGui::SetNextWindowSize({card_width(), size().y - kBar});
  const Panel panel("card");
  const PartInstance& part = installation_->parts[id];
  const Declaration& declared = part.kind->declaration;
  show_heading(words_of_key(part.name).c_str());
  ImGui::TextDisabled("%s", declared.title.c_str());
  ImGui::TextWrapped("%s", declared.help.c_str());
  ImGui::Separator();
  show_readings(id);
  show_commands(id);
  show_faults(id);
}

void Window::show_readings(PartId id) {
  if (seen_.picture->watched != id || !ImGui::BeginTable("readings", 2)) return;
  ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch, 0.6F);
  ImGui::TableSetupColumn("value", ImGuiTableColumnFlags_WidthStretch, 0.4F);
  const std::vector<double>& values = seen_.picture->readings;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const NamedDecl& reading = installation_->parts[id].kind->declaration.readings[k];
    ImGui::TableNextColumn();
    ImGui::TextUnformatted(words_of_key(reading.name).c_str());
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", reading.help.c_str());
    ImGui::TableNextColumn();
    const std::string text = explain::value_text(values[k], reading);
    const float room = ImGui::GetContentRegionAvail().x - ImGui::CalcTextSize(text.c_str()).x;
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(room, 0.0F));
    ImGui::TextUnformatted(text.c_str());
  }
  ImGui::EndTable();
}

/// What a hand can do to it, each with its quantity in the unit that it is declared in.
void Window::show_commands(PartId id) {
  const PartInstance& part = installation_->parts[id];
  const std::vector<CommandDecl>& commands = part.kind->declaration.commands;
  if (commands.empty()) return;
  ImGui::Separator();
  show_heading("By hand");
  std::vector<double>& arguments = cards_.at(id).arguments;
  for (std::size_t k = 0; k < commands.size(); ++k) {
    const CommandDecl& command = commands[k];
    ImGui::PushID(static_cast<int>(k));
    const bool pressed = ImGui::Button(words_of_key(command.name).c_str());
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", command.help.c_str());
    if (command.argument) {
      const ParamDecl& argument = *command.argument;
      arguments[k] = std::clamp(arguments[k], argument.least, argument.most);
      ImGui::SameLine();
      ImGui::SetNextItemWidth(110);
      ImGui::InputDouble(argument.unit.c_str(), &arguments[k], 0, 0, "%.6g");
    }
    if (pressed) {
      Action action;
      action.part = id;
      action.command = k;
      action.value = arguments[k];
      action.text = part.name + "." + command.name;
      runner_.act(std::move(action));
    }
    ImGui::PopID();
  }
}

void Window::show_faults(PartId id) {
  std::vector<Card::Choice>& choices = cards_.at(id).faults;
  if (choices.empty()) return;
  ImGui::Separator();
  show_heading("Faults");
  for (std::size_t k = 0; k < choices.size(); ++k) {
    Card::Choice& choice = choices[k];
    ImGui::PushID(static_cast<int>(k));
    bool changes = ImGui::Checkbox("##in", &choice.put_in);
    ImGui::SameLine();
    ImGui::TextWrapped("%s", choice.fault->title.c_str());
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", choice.fault->seen.c_str());
    if (choice.put_in) {
      auto severity = static_cast<float>(choice.severity);
      if (ImGui::SliderFloat("severity", &severity, 0.01F, 1.0F, "%.2f")) {
        choice.severity = static_cast<double>(severity);
        changes = true;
      }
      if (!choice.fault->caution.empty())
        ImGui::TextWrapped("Caution: %s.", choice.fault->caution.c_str());
    }
    if (changes) put_fault(id, choice);
    ImGui::PopID();
  }
}

void Window::put_fault(PartId id, const Card::Choice& choice) {
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
  runner_.act(std::move(action));
}

}  // namespace sixty::gui
