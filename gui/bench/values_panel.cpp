#include "gui/bench/values_panel.hpp"

#include <fmt/format.h>
#include <imgui/imgui_stdlib.h>

#include <algorithm>

#include "gui/bench/panel_pieces.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/sheet.hpp"
#include "sim/scene/values.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::gui {
namespace {

constexpr float kValueLabels = 70, kPopUp = 420;

bool is_list(const ParamDecl& decl) {
  return decl.kind == ParamKind::kTexts || decl.kind == ParamKind::kRecords;
}

std::string text_of(const Value& value, const ParamDecl& decl) {
  switch (decl.kind) {
    case ParamKind::kQuantity:
      return format_quantity(value.number, decl.unit);
    case ParamKind::kCount:
      return format_exact(value.number);
    case ParamKind::kFlag:
      return value.number != 0 ? "yes" : "no";
    case ParamKind::kChoice:
      return decl.choices[static_cast<std::size_t>(value.number)];
    default:
      return value.text;
  }
}

std::string text_under(const YamlNode& map, std::string_view key) {
  const YamlNode* node = map.find(key);
  return node == nullptr ? "" : node->scalar;
}

void field(const char* label, const char* id, const char* hint, std::string& words) {
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s", label);
  ImGui::SameLine(kValueLabels);
  ImGui::SetNextItemWidth(-1);
  ImGui::InputTextWithHint(id, hint, &words);
}

}  // namespace

std::size_t SheetSources::unpublished() const {
  return static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), [](const auto& named) {
    return named.second.source.find("no source") != std::string::npos;
  }));
}

namespace {

std::optional<YamlNode> sheet_of(const PartInstance& part, const std::string& scene) {
  Diagnostics unused;  // whoever has loaded the scene has been told
  if (is_own_sheet(part.sheet)) return read_yaml(own_sheet_path(scene, part.sheet), unused);
  const std::vector<SheetText>& sheets = part.kind->sheets;
  const auto sheet = std::find_if(sheets.begin(), sheets.end(),
                                  [&](const SheetText& s) { return s.name == part.sheet; });
  if (sheet == sheets.end()) return std::nullopt;
  return parse_yaml(sheet->text, sheet->path, unused);
}

}  // namespace

SheetSources sources_of(const PartInstance& part, const std::string& scene) {
  SheetSources sources;
  const std::optional<YamlNode> root = sheet_of(part, scene);
  if (!root) return sources;
  sources.title = text_under(*root, "title");
  const YamlNode* values = root->find("values");
  if (values == nullptr) return sources;
  for (const auto& [key, line] : values->entries) {
    sources.lines[key.scalar] = {text_under(line, "value"), text_under(line, "tolerance"),
                                 text_under(line, "source")};
  }
  return sources;
}

void ValuesPanel::begin(const PartInstance& part, const std::string& scene) {
  part_ = part.name;
  sources_ = sources_of(part, scene);
  written_.clear();
  told_.clear();
  name_ =
      is_own_sheet(part.sheet) ? part.sheet : (std::string(kOwnSheet) + part.name).substr(0, 40);
  all_alike_ = false;
}

/// Where a value comes from, as far as sheet and declaration know.
std::string ValuesPanel::origin_of(const PartInstance& part, const ParamDecl& decl) const {
  if (const auto line = sources_.lines.find(decl.name); line != sources_.lines.end()) {
    const auto& [value, tolerance, source] = line->second;
    return fmt::format("Data sheet: {}{}{}.\nSource: {}.", value,
                       tolerance.empty() ? "" : ", give or take ", tolerance,
                       source.empty() ? "not told" : source);
  }
  if (decl.required || decl.source.empty()) return "";
  if (part.values.at(decl.name).number != decl.standard.number) return "";
  return "As if nobody says otherwise.\nSource: " + decl.source + ".";
}

void ValuesPanel::show_sheet(const PartInstance& part) const {
  ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
  if (part.sheet.empty()) {
    ImGui::TextUnformatted("set in the scene");
  } else if (sources_.lines.empty()) {
    ImGui::TextWrapped("data sheet %s", part.sheet.c_str());
  } else {
    ImGui::TextWrapped("%s: %s", part.sheet.c_str(), sources_.title.c_str());
    const std::size_t bare = sources_.unpublished(), all = sources_.lines.size();
    const std::string told =
        bare == all ? "Source: common practice, none published."
                    : fmt::format("Sources: {} of {} values have none published; point at a value.",
                                  bare, all);
    show_text(told);
  }
  ImGui::PopStyleColor();
}

std::optional<OwnSheet> ValuesPanel::show(const PartInstance& part, const std::string& scene) {
  if (part_ != part.name) begin(part, scene);
  ImGui::PushID("values");
  show_sheet(part);
  // Above the values, so that nothing moves under the pointer while one is written over.
  ImGui::BeginDisabled(written_.empty());
  if (ImGui::Button("Keep as own sheet")) ImGui::OpenPopup("keep");
  ImGui::SameLine();
  if (ImGui::Button("As it was")) tell({});
  ImGui::EndDisabled();
  const std::optional<OwnSheet> keep = show_keeping(part);
  panel_mistakes(told_, "Nothing was written.");
  show_values(part);
  ImGui::PopID();
  return keep;
}

void ValuesPanel::tell(const std::vector<Diagnostic>& mistakes) {
  told_ = mistakes;
  if (told_.empty()) written_.clear();
}

void ValuesPanel::show_values(const PartInstance& part) {
  if (!ImGui::BeginTable("values", 2)) return;
  ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch, 0.52F);
  ImGui::TableSetupColumn("value", ImGuiTableColumnFlags_WidthStretch, 0.48F);
  for (const ParamDecl& decl : part.kind->declaration.params) {
    if (is_list(decl)) continue;
    ImGui::PushID(decl.name.c_str());
    ImGui::TableNextRow();
    show_value(part, decl);
    ImGui::PopID();
  }
  ImGui::EndTable();
}

void ValuesPanel::show_value(const PartInstance& part, const ParamDecl& decl) {
  const std::string standing = text_of(part.values.at(decl.name), decl);
  const auto over = written_.find(decl.name);
  std::string words = over == written_.end() ? standing : over->second;
  std::string explained = fmt::format("{}: {}", decl.help, expectation(decl));
  if (const std::string origin = origin_of(part, decl); !origin.empty())
    explained += "\n\n" + origin;
  ImGui::TableNextColumn();
  ImGui::AlignTextToFramePadding();
  show_text(words_of_key(decl.name));
  show_tip(explained.c_str());
  ImGui::TableNextColumn();
  ImGui::SetNextItemWidth(-1);
  if (edit(decl, words)) {
    if (words == standing) {
      written_.erase(decl.name);
    } else {
      written_[decl.name] = words;
    }
  }
  if (words == standing) {
    if (!ImGui::IsItemActive()) show_tip(explained.c_str());
    return;
  }
  // No tip now: it would lie on what is said below about the words.
  std::string wrong;
  if (!value_of(decl, words, wrong)) ImGui::TextWrapped("! %s", wrong.c_str());
  show_second("was " + standing + "; takes " + expectation(decl));
}

/// Returns whether it was written over.
bool ValuesPanel::edit(const ParamDecl& decl, std::string& words) {
  std::vector<std::string> choices = decl.choices;
  if (decl.kind == ParamKind::kFlag) choices = {"no", "yes"};
  if (choices.empty()) return ImGui::InputText("##value", &words);
  if (!ImGui::BeginCombo("##value", words.c_str())) return false;
  bool chosen = false;
  for (const std::string& choice : choices) {
    if (!ImGui::Selectable(choice.c_str(), choice == words)) continue;
    words = choice;
    chosen = true;
  }
  ImGui::EndCombo();
  return chosen;
}

std::optional<OwnSheet> ValuesPanel::show_keeping(const PartInstance& part) {
  ImGui::SetNextWindowSize({kPopUp, 0});
  if (!ImGui::BeginPopup("keep")) return std::nullopt;
  ImGui::TextWrapped(
      "A data sheet of your own, in the folder \"sheets\" beside the scene; the part "
      "takes it from then on.");
  field("Name", "##name", "own_...", name_);
  field("Who", "##who", "who found it", provenance_.who);
  field("When", "##when", "day of the measurement", provenance_.when);
  field("How", "##how", "with what, at what temperature", provenance_.how);
  ImGui::Checkbox("also for those written together with it", &all_alike_);
  show_tip("Clocks that the scene writes down in one line, as clock_{n}, have one sheet.");
  const bool keep = ImGui::Button("Keep", ImVec2(-1, 0));
  if (keep) ImGui::CloseCurrentPopup();
  ImGui::EndPopup();
  if (!keep) return std::nullopt;
  OwnSheet own;
  own.part = part.name;
  own.name = name_;
  own.values.assign(written_.begin(), written_.end());
  own.provenance = provenance_;
  own.all_alike = all_alike_;
  return own;
}

}  // namespace sixty::gui
