#include "gui/lesson/answer_form.hpp"

#include <imgui/imgui.h>
#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <numeric>

#include "gui/bench/panel.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace lesson;

/// As people write it: with a comma, and without the unit that is asked for.
std::optional<double> read_number(std::string text, const std::string& unit,
                                  const std::string& asked, std::string& complaint) {
  std::replace(text.begin(), text.end(), ',', '.');
  std::string unused;
  if (!asked.empty()) {
    if (const auto bare = parse_quantity(text + " " + asked, unit, unused)) return bare;
  }
  return parse_quantity(text, unit, complaint);
}

/// Says what is given, and gives it.
bool give_button() { return ImGui::Button(tr("That is my answer")); }

}  // namespace

void AnswerForm::begin(const Question& question) {
  written_.clear();
  complaint_.clear();
  chosen_.reset();
  pressed_.reset();
  order_.resize(question.items.size());
  std::iota(order_.begin(), order_.end(), 0U);
}

std::optional<Reply> AnswerForm::show(const Question& question, const Tutor::Words& words,
                                      const Lesson& lesson, const Installation& installation,
                                      std::optional<PartId> selected) {
  switch (question.kind) {
    case Question::Kind::kChoice:
      return show_choices(words);
    case Question::Kind::kNumber:
      return show_number(question, lesson);
    case Question::Kind::kPart:
      return show_part(installation, selected);
    case Question::Kind::kOrder:
      break;
  }
  return show_order(words);
}

std::optional<Reply> AnswerForm::show_choices(const Tutor::Words& words) {
  for (std::size_t k = 0; k < words.choices.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    if (ImGui::RadioButton("##choice", chosen_ == k)) chosen_ = k;
    ImGui::SameLine();
    show_text(words.choices[k]);
    if (ImGui::IsItemClicked()) chosen_ = k;
    ImGui::PopID();
  }
  if (!chosen_ || !give_button()) return std::nullopt;
  return *chosen_;
}

std::optional<Reply> AnswerForm::show_number(const Question& question, const Lesson& lesson) {
  const std::string& unit = lesson.facts[question.number].fact.unit;
  constexpr float kNumberWide = 150;
  ImGui::SetNextItemWidth(kNumberWide);
  const bool entered =
      ImGui::InputText("##number", &written_, ImGuiInputTextFlags_EnterReturnsTrue);
  ImGui::SameLine();
  ImGui::TextUnformatted(question.unit.empty() ? unit.c_str() : question.unit.c_str());
  if (!complaint_.empty()) show_text(complaint_);
  if (trimmed(written_).empty() || !(give_button() || entered)) return std::nullopt;
  complaint_.clear();
  const auto number = read_number(trimmed(written_), unit, question.unit, complaint_);
  if (!number) return std::nullopt;
  return *number;
}

std::optional<Reply> AnswerForm::show_part(const Installation& installation,
                                           std::optional<PartId> selected) {
  if (selected != pressed_) {
    pressed_ = selected;
    if (selected) chosen_ = *selected;
  }
  const auto name = [&](std::size_t part) { return words_of_key(installation.parts[part].name); };
  const std::string shown = chosen_ ? name(*chosen_) : tr("press it on the drawing");
  // For who has no pointer.
  ImGui::SetNextItemWidth(-1);
  if (ImGui::BeginCombo("##part", shown.c_str())) {
    for (std::size_t k = 0; k < installation.parts.size(); ++k) {
      const Declaration& declaration = installation.parts[k].kind->declaration;
      if (declaration.stand.where == Stand::Where::kNowhere) continue;
      if (ImGui::Selectable(name(k).c_str(), chosen_ == k)) chosen_ = k;
    }
    ImGui::EndCombo();
  }
  if (!chosen_ || !give_button()) return std::nullopt;
  return static_cast<PartId>(*chosen_);
}

std::optional<Reply> AnswerForm::show_order(const Tutor::Words& words) {
  for (std::size_t k = 0; k < order_.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    if (ImGui::ArrowButton("up", ImGuiDir_Up) && k > 0) std::swap(order_[k - 1], order_[k]);
    show_tip(tr("earlier"));
    ImGui::SameLine();
    if (ImGui::ArrowButton("down", ImGuiDir_Down) && k + 1 < order_.size())
      std::swap(order_[k], order_[k + 1]);
    show_tip(tr("later"));
    ImGui::SameLine();
    show_text(std::to_string(k + 1) + ". " + words.items[order_[k]]);
    ImGui::PopID();
  }
  if (!give_button()) return std::nullopt;
  return order_;
}

}  // namespace sixty::gui
