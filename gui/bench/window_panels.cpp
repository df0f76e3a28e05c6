#include <fmt/format.h>

#include <algorithm>

#include "gui/bench/window.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::gui {
namespace {

constexpr float kBar = 44;
constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                    ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                                    ImGuiWindowFlags_NoBringToFrontOnFocus;

std::string speed_text(double speed) {
  return speed >= 1 ? fmt::format("{:.0f} x", speed) : fmt::format("1/{:.0f} x", 1 / speed);
}

std::string words(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// A panel whose end comes by itself.
class Panel {
 public:
  explicit Panel(const char* name) : shown_(ImGui::Begin(name, nullptr, kStill)) {}
  ~Panel() { ImGui::End(); }
  Panel(const Panel&) = delete;
  Panel& operator=(const Panel&) = delete;
  bool shown() const { return shown_; }

 private:
  bool shown_;
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
  if (!look_.selected.empty() && button("Part", "the selected part (3)")) travel(View::kPart);
  ImGui::SameLine(0, 24);
  if (button(light_ ? "Dark" : "Light", "the other colours (T)")) {
    light_ = !light_;
    panels_->style(theme());
  }
  if (seen_.running && seen_.behind) ImGui::TextDisabled("slower than asked: it cannot keep up");
  if (!seen_.failure.empty()) ImGui::TextDisabled("%s", seen_.failure.c_str());
}

void Window::show_card() {
  const float wide = std::clamp(size().x * 0.24F, 300.0F, 420.0F);
  ImGui::SetNextWindowPos({size().x - wide, kBar});
  ImGui::SetNextWindowSize({wide, size().y - kBar});
  const Panel panel("card");
  const PartInstance& part = installation_->parts[selected_];
  const Declaration& declared = part.kind->declaration;
  ImGui::PushFont(panels_->heading());
  ImGui::TextWrapped("%s", words(part.name).c_str());
  ImGui::PopFont();
  ImGui::TextDisabled("%s", declared.title.c_str());
  ImGui::TextWrapped("%s", declared.help.c_str());
  ImGui::Separator();
  runner_.watch(selected_);
  show_readings(declared);
  show_commands(declared);
  show_faults(part);
}

void Window::show_readings(const Declaration& declared) {
  const std::vector<double>& values = seen_.picture->readings;
  if (seen_.picture->watched == selected_ && ImGui::BeginTable("readings", 2)) {
    ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch, 0.6F);
    ImGui::TableSetupColumn("value", ImGuiTableColumnFlags_WidthStretch, 0.4F);
    for (std::size_t k = 0; k < values.size(); ++k) {
      const NamedDecl& reading = declared.readings[k];
      ImGui::TableNextColumn();
      ImGui::TextUnformatted(words(reading.name).c_str());
      if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", reading.help.c_str());
      ImGui::TableNextColumn();
      const std::string text = reading.unit.empty() ? (values[k] != 0 ? "yes" : "no")
                                                    : format_quantity(values[k], reading.unit);
      const float room = ImGui::GetContentRegionAvail().x - ImGui::CalcTextSize(text.c_str()).x;
      ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(room, 0.0F));
      ImGui::TextUnformatted(text.c_str());
    }
    ImGui::EndTable();
  }
}

/// What a hand can do to it, each with its quantity in the unit that it is declared in.
void Window::show_commands(const Declaration& declared) {
  if (declared.commands.empty()) return;
  arguments_.resize(declared.commands.size(), 0);
  ImGui::Separator();
  ImGui::PushFont(panels_->heading());
  ImGui::TextUnformatted("By hand");
  ImGui::PopFont();
  for (std::size_t k = 0; k < declared.commands.size(); ++k) {
    const CommandDecl& command = declared.commands[k];
    ImGui::PushID(static_cast<int>(k));
    const bool pressed = ImGui::Button(words(command.name).c_str());
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", command.help.c_str());
    if (command.argument) {
      const ParamDecl& argument = *command.argument;
      arguments_[k] = std::clamp(arguments_[k], argument.least, argument.most);
      ImGui::SameLine();
      ImGui::SetNextItemWidth(110);
      ImGui::InputDouble(argument.unit.c_str(), &arguments_[k], 0, 0, "%.6g");
    }
    if (pressed) {
      Action action;
      action.part = selected_;
      action.command = k;
      action.value = arguments_[k];
      action.text = installation_->parts[selected_].name + "." + command.name;
      runner_.act(std::move(action));
    }
    ImGui::PopID();
  }
}

void Window::show_faults(const PartInstance& part) {
  if (faults_.empty()) {
    Diagnostics none;
    Mistakes mistakes(none);
    const FaultBook book(registry_, mistakes);
    for (const auto& fault : book.all()) {
      if (fault->kind == part.kind && fits(*fault, part)) faults_.push_back(fault);
    }
    severities_.clear();
    faults_in_.clear();
    for (const auto& fault : faults_) severities_.push_back(fault->typical);
    faults_in_.resize(faults_.size(), false);
  }
  if (faults_.empty()) return;
  ImGui::Separator();
  ImGui::PushFont(panels_->heading());
  ImGui::TextUnformatted("Faults");
  ImGui::PopFont();
  for (std::size_t k = 0; k < faults_.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    bool is_in = faults_in_[k];
    if (ImGui::Checkbox("##in", &is_in)) {
      put_fault(faults_[k], severities_[k], !is_in);
      faults_in_[k] = is_in;
    }
    ImGui::SameLine();
    ImGui::TextWrapped("%s", faults_[k]->title.c_str());
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", faults_[k]->seen.c_str());
    if (is_in) {
      auto severity = static_cast<float>(severities_[k]);
      if (ImGui::SliderFloat("severity", &severity, 0.01F, 1.0F, "%.2f")) {
        severities_[k] = static_cast<double>(severity);
        put_fault(faults_[k], severities_[k], false);
      }
      if (!faults_[k]->caution.empty())
        ImGui::TextWrapped("Caution: %s.", faults_[k]->caution.c_str());
    }
    ImGui::PopID();
  }
}

void Window::put_fault(const std::shared_ptr<const Fault>& fault, double severity, bool clears) {
  Injection injection;
  injection.fault = fault;
  injection.part = selected_;
  injection.severity = severity;
  injection.course = fault->course;
  Action action;
  action.part = selected_;
  action.fault = std::make_shared<const Injection>(injection);
  action.clears = clears;
  action.text = fault->name;
  runner_.act(std::move(action));
}

}  // namespace sixty::gui
