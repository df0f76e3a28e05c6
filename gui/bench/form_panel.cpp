#include "gui/bench/form_panel.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "gui/bench/panel_pieces.hpp"
#include "gui/bench/values_panel.hpp"
#include "gui/keep/paths.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/loader.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kFormLabels = 150;  // width of the column of labels
constexpr float kField = 280;       // of a field beside its label
constexpr float kRemove = 30;       // of the button that takes an entry away
constexpr const char* kNewScene = "own-installation.yaml";

bool is_number(const FormField& field) {
  return field.kind == FormField::Kind::kParam &&
         (field.decl.kind == ParamKind::kQuantity || field.decl.kind == ParamKind::kCount);
}

std::string& words_of(const FormField& field, FormEntry& entry) {
  return entry.fields.try_emplace(field.decl.name, field.standard).first->second;
}

/// What a field is, in a sentence, with what may be written.
std::string explanation(const FormField& field) {
  const std::string help = tr(field.decl.help);
  return is_number(field) ? say("{} Write {}.", help, spoken_expectation(field.decl)) : help;
}

}  // namespace

FormPanel::FormPanel(Form form, const Registry& registry)
    : form_(std::move(form)), registry_(registry) {
  begin_new();
}

void FormPanel::begin_new() {
  filled_ = Form::fresh(form_.whole());
  path_ = kNewScene;
  opened_.clear();
  changed_ = true;
  refused_.clear();
}

void FormPanel::begin_with(const std::string& path) {
  Diagnostics mistakes;
  const auto root = read_yaml(path, mistakes);
  const auto filled = root ? form_.read_back(*root, path, mistakes) : std::nullopt;
  refused_ = mistakes.list();
  if (!filled) return;
  filled_ = *filled;
  path_ = opened_ = path;
  changed_ = true;
}

FormPanel::Wish FormPanel::show(const sf::FloatRect& box, ImFont* heading,
                                const std::string& on_bench) {
  Wish wish;
  heading_ = heading;
  const Panel panel("form", box, Panel::Lies::kOver);
  if (panel_title(tr(form_.title()).c_str(), heading)) wish.close = true;
  if (ImGui::Button(tr("A new one"))) begin_new();
  ImGui::SameLine();
  if (ImGui::Button(tr("The one on the bench"))) begin_with(on_bench);
  show_tip(tr("to change it, if this form has made it"));
  const float foot = ImGui::GetFrameHeightWithSpacing() * 2 + 16;
  ImGui::BeginChild("filled in", ImVec2(0, -foot));
  show_text(tr(form_.whole().help));
  ImGui::Spacing();
  show_fields(form_.whole(), filled_);
  for (const FormGroup& group : form_.whole().groups) show_group(group, filled_);
  look_through();
  panel_mistakes(told_, tr("Nothing is written before this is mended."));
  panel_mistakes(refused_, tr("The file is as it was."));
  ImGui::EndChild();
  ImGui::Separator();
  show_writing(wish);
  return wish;
}

/// One below the other, each with what it takes beside it.
void FormPanel::show_fields(const FormGroup& group, FormEntry& entry) {
  for (const FormField& field : group.fields) {
    if (!Form::asked(field, entry)) continue;
    ImGui::AlignTextToFramePadding();
    ImGui::TextDisabled("%s", tr(field.label).c_str());
    show_tip(explanation(field).c_str());
    ImGui::SameLine(kFormLabels);
    ImGui::SetNextItemWidth(kField);
    show_input(field, words_of(field, entry));
    if (!is_number(field)) continue;
    ImGui::SameLine();
    ImGui::TextDisabled("%s", spoken_expectation(field.decl).c_str());
  }
}

/// Side by side, with their labels above; times of day take a line of their own.
void FormPanel::show_row(const FormGroup& group, FormEntry& entry) {
  std::vector<const FormField*> row;
  for (const FormField& field : group.fields) {
    if (field.kind != FormField::Kind::kTimes && Form::asked(field, entry)) row.push_back(&field);
  }
  if (!row.empty() && ImGui::BeginTable("row", static_cast<int>(row.size()))) {
    for (const FormField* field : row) {
      ImGui::TableNextColumn();
      ImGui::TextDisabled("%s", tr(field->label).c_str());
      show_tip(explanation(*field).c_str());
    }
    for (const FormField* field : row) {
      ImGui::TableNextColumn();
      ImGui::SetNextItemWidth(-1);
      show_input(*field, words_of(*field, entry));
    }
    ImGui::EndTable();
  }
  for (const FormField& field : group.fields) {
    if (field.kind == FormField::Kind::kTimes && Form::asked(field, entry))
      show_times(field, entry);
  }
}

void FormPanel::show_times(const FormField& field, FormEntry& entry) {
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s", tr(field.label).c_str());
  show_tip(explanation(field).c_str());
  ImGui::SameLine(kFormLabels);
  ImGui::SetNextItemWidth(-1);
  show_input(field, words_of(field, entry));
}

void FormPanel::show_input(const FormField& field, std::string& words) {
  ImGui::PushID(field.decl.name.c_str());
  if (field.kind == FormField::Kind::kOneOf) {
    show_names(field, words);
  } else if (field.decl.kind == ParamKind::kChoice) {
    const std::size_t now = static_cast<std::size_t>(
        std::find(field.decl.choices.begin(), field.decl.choices.end(), words) -
        field.decl.choices.begin());
    const std::string shown = now < field.labels.size() ? tr(field.labels[now]) : words;
    if (ImGui::BeginCombo("##choice", shown.c_str())) {
      for (std::size_t k = 0; k < field.labels.size(); ++k) {
        if (!ImGui::Selectable(tr(field.labels[k]).c_str(), k == now)) continue;
        words = field.decl.choices[k];
        changed_ = true;
      }
      ImGui::EndCombo();
    }
  } else if (ImGui::InputText("##words", &words)) {
    changed_ = true;
  }
  show_tip(explanation(field).c_str());
  ImGui::PopID();
}

/// Names of the entries of a group, or none of them.
void FormPanel::show_names(const FormField& field, std::string& words) {
  if (!ImGui::BeginCombo("##names", words.empty() ? "-" : words.c_str())) return;
  const auto choose = [&](const std::string& name) {
    if (!ImGui::Selectable(name.empty() ? "-" : name.c_str(), name == words)) return;
    words = name;
    changed_ = true;
  };
  choose("");
  for (const FormGroup& group : form_.whole().groups) {
    if (group.name != field.group) continue;
    for (const FormEntry& entry : filled_.groups[group.name]) {
      for (const FormField& own : group.fields) {
        const auto name = entry.fields.find(own.decl.name);
        if (own.kind == FormField::Kind::kName && name != entry.fields.end()) choose(name->second);
      }
    }
  }
  ImGui::EndCombo();
}

void FormPanel::show_group(const FormGroup& group, FormEntry& holder) {
  std::vector<FormEntry>& entries = holder.groups[group.name];
  ImGui::PushID(group.name.c_str());
  if (&holder == &filled_) {
    panel_heading(tr(group.label).c_str(), heading_);
    show_tip(tr(group.help).c_str());
  }
  if (group.groups.empty()) {
    show_table(group, entries);
  } else {
    show_blocks(group, entries);
  }
  const std::string add = say("Add a {}", tr(group.one));
  if (entries.size() < group.most && ImGui::Button(add.c_str())) {
    entries.push_back(entries.empty() ? Form::fresh(group) : entries.back());
    changed_ = true;
  }
  show_tip(tr(group.help).c_str());
  ImGui::PopID();
}

/// Entries without lists of their own: one a row.
void FormPanel::show_table(const FormGroup& group, std::vector<FormEntry>& entries) {
  const int columns = static_cast<int>(group.fields.size()) + 1;
  if (entries.empty() || !ImGui::BeginTable("entries", columns)) return;
  for (const FormField& field : group.fields)
    ImGui::TableSetupColumn(field.label.c_str(), ImGuiTableColumnFlags_WidthStretch);
  ImGui::TableSetupColumn("", ImGuiTableColumnFlags_WidthFixed, kRemove);
  ImGui::TableNextRow();
  for (const FormField& field : group.fields) {
    ImGui::TableNextColumn();
    ImGui::TextDisabled("%s", tr(field.label).c_str());
    show_tip(explanation(field).c_str());
  }
  std::optional<std::size_t> removed;
  for (std::size_t k = 0; k < entries.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    ImGui::TableNextRow();
    for (const FormField& field : group.fields) {
      ImGui::TableNextColumn();
      ImGui::SetNextItemWidth(-1);
      show_input(field, words_of(field, entries[k]));
    }
    ImGui::TableNextColumn();
    if (entries.size() > group.least && ImGui::Button("x", ImVec2(kRemove, 0))) removed = k;
    show_tip(say("takes this {} away", tr(group.one)).c_str());
    ImGui::PopID();
  }
  ImGui::EndTable();
  if (!removed) return;
  entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(*removed));
  changed_ = true;
}

void FormPanel::show_blocks(const FormGroup& group, std::vector<FormEntry>& entries) {
  std::optional<std::size_t> removed;
  for (std::size_t k = 0; k < entries.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    ImGui::AlignTextToFramePadding();
    ImGui::Text("%s %d", words_of_key(tr(group.one), true).c_str(), static_cast<int>(k) + 1);
    if (entries.size() > group.least) {
      ImGui::SameLine(ImGui::GetContentRegionAvail().x - kRemove);
      if (ImGui::Button("x", ImVec2(kRemove, 0))) removed = k;
      show_tip(say("takes this {} away", tr(group.one)).c_str());
    }
    ImGui::Indent();
    show_row(group, entries[k]);
    for (const FormGroup& inner : group.groups) show_group(inner, entries[k]);
    ImGui::Unindent();
    ImGui::Spacing();
    ImGui::PopID();
  }
  if (!removed) return;
  entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(*removed));
  changed_ = true;
}

/// Only when something was changed: it takes longer than a frame should.
void FormPanel::look_through() {
  if (!changed_) return;
  changed_ = false;
  Diagnostics mistakes;
  form_.scene_of(filled_, mistakes);
  told_ = mistakes.list();
}

/// Always in sight, with the first thing that is wrong.
void FormPanel::show_writing(Wish& wish) {
  const std::vector<Diagnostic>& wrong = told_.empty() ? refused_ : told_;
  ImGui::AlignTextToFramePadding();
  if (!wrong.empty()) {
    const std::string first = "! " + printable(wrong[0].what);
    const auto more = static_cast<std::int64_t>(wrong.size() - 1);
    const std::string all =
        say_counted("{1} (and {0} more, above)", "{1} (and {0} more, above)", more, first);
    ImGui::TextUnformatted((more > 0 ? all : first).c_str());
    show_tip(to_text(wrong[0]).c_str());
  } else {
    ImGui::TextDisabled("%s", opened_.empty() ? tr("A new scene; nothing is overwritten.")
                                              : tr("What was written into it by hand stays."));
  }
  constexpr float kLeastForButton = 160;
  const char* button = tr("Write and open");
  const ImGuiStyle& style = ImGui::GetStyle();
  const float wide = ImGui::CalcTextSize(button).x + 2 * style.FramePadding.x + style.ItemSpacing.x;
  ImGui::SetNextItemWidth(-std::max(kLeastForButton, wide));
  ImGui::InputText("##path", &path_);
  show_tip(tr("The file that is written."));
  ImGui::SameLine();
  ImGui::BeginDisabled(!told_.empty());
  if (ImGui::Button(button, ImVec2(-1, 0)) && write()) wish.open = with_home(path_);
  ImGui::EndDisabled();
}

/// Returns whether the scene has been written. Errors: told in the panel.
bool FormPanel::write() {
  Diagnostics mistakes;
  const std::string path = with_home(path_);
  std::error_code code;
  std::optional<std::string> scene;
  if (opened_ != path && std::filesystem::exists(path, code)) {
    mistakes.add({path, 0, 0, "there is a file of that name already", path, "a name that is free",
                  "open it with the form to change it, or choose another name"});
  } else if (opened_.empty()) {
    scene = form_.scene_of(filled_, mistakes);
  } else if (const auto text = read_file_bounded(opened_, kYamlMaxBytes, mistakes)) {
    scene = form_.changed(*text, opened_, filled_, mistakes);
  }
  std::string error;
  bool done = scene && load_scene_text(*scene, path, registry_, {}, mistakes) != nullptr;
  if (done && !write_file_whole(path, *scene, error)) {
    mistakes.add({path, 0, 0, error, path, "a folder that may be written to",
                  "choose another folder, or make room"});
    done = false;
  }
  refused_ = mistakes.list();
  if (done) opened_ = path;
  return done;
}

}  // namespace sixty::gui
