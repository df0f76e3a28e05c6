#include "gui/bench/values_panel.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>

#include "gui/bench/panel_pieces.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/sheet.hpp"
#include "sim/scene/values.hpp"
#include "sim/scene/yaml_document.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kValueLabels = 70, kPopUp = 420;
constexpr double kUnbounded = 1e300;  // as in expectation()

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

/// A flag's or choice's value by its name in the spoken language, others as they are written.
std::string shown(const std::string& written, const ParamDecl& decl) {
  const bool is_named = decl.kind == ParamKind::kFlag || decl.kind == ParamKind::kChoice;
  return is_named ? spoken_key(written) : written;
}

std::string spoken_range(const ParamDecl& decl) {
  const std::string unit = decl.kind == ParamKind::kCount ? "1" : decl.unit;
  const std::string least = format_quantity(decl.least, unit);
  if (decl.most >= kUnbounded) return say("at least {}", least);
  const std::string most = format_quantity(decl.most, unit);
  if (decl.step == 1) return say("a whole number from {} to {}", least, most);
  if (decl.step > 0)
    return say("from {} to {} in steps of {}", least, most, format_quantity(decl.step, unit));
  return say("from {} to {}", least, most);
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

std::string spoken_expectation(const ParamDecl& decl) {
  std::vector<std::string> choices;
  switch (decl.kind) {
    case ParamKind::kQuantity:
      if (decl.told != Told::kDial) return spoken_range(decl);
      return say("a time of the dial such as 8:30, {}", spoken_range(decl));
    case ParamKind::kCount:
      return say("a whole number {}", spoken_range(decl));
    case ParamKind::kFlag:
      return tr("yes or no");
    case ParamKind::kChoice:
      for (const std::string& choice : decl.choices) choices.push_back(spoken_key(choice));
      return say("one of: {}", listed(choices));
    case ParamKind::kText:
      return tr("a text");
    default:
      return expectation(decl);  // of lists, which are not written here
  }
}

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
    const std::string from = source.empty() ? tr("not told") : source;
    if (tolerance.empty()) return say("Data sheet: {}.\nSource: {}.", value, from);
    return say("Data sheet: {}, give or take {}.\nSource: {}.", value, tolerance, from);
  }
  if (decl.required || decl.source.empty()) return "";
  if (part.values.at(decl.name).number != decl.standard.number) return "";
  return say("As if nobody says otherwise.\nSource: {}.", decl.source);
}

void ValuesPanel::show_sheet(const PartInstance& part) const {
  ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
  if (part.sheet.empty()) {
    ImGui::TextUnformatted(tr("set in the scene"));
  } else if (sources_.lines.empty()) {
    ImGui::TextWrapped("%s", say("data sheet {}", part.sheet).c_str());
  } else {
    ImGui::TextWrapped("%s: %s", part.sheet.c_str(), sources_.title.c_str());
    const std::size_t bare = sources_.unpublished(), all = sources_.lines.size();
    const std::string told =
        bare == all ? tr("Source: common practice, none published.")
                    : say_counted("Sources: {} of {} values have none published; point at a value.",
                                  "Sources: {} of {} values have none published; point at a value.",
                                  static_cast<std::int64_t>(bare), all);
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
  if (ImGui::Button(tr("Keep as own sheet"))) ImGui::OpenPopup("keep");
  ImGui::SameLine();
  if (ImGui::Button(tr("As it was"))) tell({});
  ImGui::EndDisabled();
  const std::optional<OwnSheet> keep = show_keeping(part);
  panel_mistakes(told_, tr("Nothing was written."));
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
  std::string explained = say("{}: {}", tr(decl.help), spoken_expectation(decl));
  if (const std::string origin = origin_of(part, decl); !origin.empty())
    explained += "\n\n" + origin;
  ImGui::TableNextColumn();
  ImGui::AlignTextToFramePadding();
  show_text(tr(words_of_key(decl.name)));
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
  show_second(say("was {}; takes {}", shown(standing, decl), spoken_expectation(decl)));
}

/// Returns whether it was written over.
bool ValuesPanel::edit(const ParamDecl& decl, std::string& words) {
  std::vector<std::string> choices = decl.choices;
  if (decl.kind == ParamKind::kFlag) choices = {"no", "yes"};
  if (choices.empty()) return ImGui::InputText("##value", &words);
  if (!ImGui::BeginCombo("##value", spoken_key(words).c_str())) return false;
  bool chosen = false;
  for (const std::string& choice : choices) {
    if (!ImGui::Selectable(spoken_key(choice).c_str(), choice == words)) continue;
    words = choice;
    chosen = true;
  }
  ImGui::EndCombo();
  return chosen;
}

std::optional<OwnSheet> ValuesPanel::show_keeping(const PartInstance& part) {
  ImGui::SetNextWindowSize({kPopUp, 0});
  if (!ImGui::BeginPopup("keep")) return std::nullopt;
  ImGui::TextWrapped("%s",
                     tr("A data sheet of your own, in the folder \"sheets\" beside the scene; "
                        "the part takes it from then on."));
  field(tr("Name"), "##name", "own_...", name_);
  field(tr("Who"), "##who", tr("who found it"), provenance_.who);
  field(tr("When"), "##when", tr("day of the measurement"), provenance_.when);
  field(tr("How"), "##how", tr("with what, at what temperature"), provenance_.how);
  ImGui::Checkbox(tr("also for those written together with it"), &all_alike_);
  show_tip(tr("Clocks that the scene writes down in one line, as clock_{n}, have one sheet."));
  const bool keep = ImGui::Button(tr("Keep"), ImVec2(-1, 0));
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
