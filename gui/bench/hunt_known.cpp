#include "gui/bench/hunt_known.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <optional>

#include "gui/bench/panel_pieces.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace diagnose;

constexpr float kKnownLabels = 84;

using Shown = std::string (*)(const std::string&);

std::string shown_doing(const std::string& name) { return tr(words_of_key(name)); }
std::string shown_place(const std::string& name) { return words_of_key(spoken_place(name)); }

/// `shown`: a name for people.
void choose(const char* id, const std::vector<std::string>& all, Shown shown, const char* none,
            std::string& chosen) {
  if (!ImGui::BeginCombo(id, chosen.empty() ? none : shown(chosen).c_str())) return;
  if (ImGui::Selectable(none, chosen.empty())) chosen.clear();
  for (const std::string& one : all) {
    if (ImGui::Selectable(shown(one).c_str(), one == chosen)) chosen = one;
  }
  ImGui::EndCombo();
}

/// Returns whether what is written has been entered, or left.
bool show_field(const char* name, const char* id, const char* hint, std::string& text) {
  show_label(kKnownLabels, name);
  const bool entered =
      ImGui::InputTextWithHint(id, hint, &text, ImGuiInputTextFlags_EnterReturnsTrue);
  return entered || ImGui::IsItemDeactivatedAfterEdit();
}

}  // namespace

/// As it would stand in a file, so that it means the same there. Returns whether it could be read.
bool HuntKnown::take(const Beforehand& changed, const Hunter::Form& form, HuntNotes& notes) {
  Diagnostics mistakes;
  auto known = read_known(beforehand_text(changed), form, mistakes);
  mistakes_ = mistakes.list();
  if (!known) return false;
  notes.set_known(std::move(*known));
  return true;
}

void HuntKnown::show(const Hunter::Form& form, HuntNotes& notes) {
  if (version_ != notes.version()) {
    version_ = notes.version();
    const Beforehand& known = notes.known();
    age_ = !known.age.empty() ? known.age : known.built;
    serviced_ = known.serviced;
  }
  ImGui::TextWrapped(
      "%s", tr("What is known beforehand makes faults likelier or less, and never decides alone."));
  show_ages(form, notes);
  show_weather(form, notes);
  show_draft(form, notes);
  show_done(notes);
  panel_mistakes(mistakes_, tr("What was known before is still there."));
}

void HuntKnown::show_ages(const Hunter::Form& form, HuntNotes& notes) {
  // What is to be written is shown as it is read, in English.
  const bool aged =
      show_field(tr("age"), "##age", say("{}, or the year: {}", "94 years", 1931).c_str(), age_);
  const bool served = show_field(tr("serviced"), "##serviced", "18 months ago", serviced_);
  if (!aged && !served) return;
  Beforehand changed = notes.known();
  const bool is_year = !age_.empty() && age_.find_first_not_of("0123456789") == std::string::npos;
  changed.built = is_year ? age_ : "";
  changed.age = is_year ? "" : age_;
  changed.serviced = serviced_;
  take(changed, form, notes);
}

void HuntKnown::show_weather(const Hunter::Form& form, HuntNotes& notes) {
  std::optional<Beforehand> changed;
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s", tr("weather"));
  for (const std::string& name : form.weather) {
    ImGui::SameLine();
    const float wide = ImGui::CalcTextSize(tr(name).c_str()).x + ImGui::GetFrameHeight() + 16;
    const bool is_full = ImGui::GetContentRegionAvail().x < wide;
    if (is_full) ImGui::NewLine();
    if (is_full || &name == &form.weather.front()) ImGui::SetCursorPosX(kKnownLabels);
    Beforehand now = notes.known();
    const auto at = std::find_if(now.weather.begin(), now.weather.end(),
                                 [&](const auto& one) { return one.what == name; });
    bool is_so = at != now.weather.end();
    if (!ImGui::Checkbox(tr(name).c_str(), &is_so)) continue;
    if (is_so) {
      now.weather.emplace_back().what = name;
    } else {
      now.weather.erase(at);
    }
    changed = std::move(now);
  }
  if (changed) take(*changed, form, notes);
}

void HuntKnown::show_draft(const Hunter::Form& form, HuntNotes& notes) {
  ImGui::Separator();
  show_label(kKnownLabels, tr("done"));
  choose("##what", form.doings, shown_doing, tr("what was done lately"), draft_.what);
  if (draft_.what.empty()) return;
  show_label(kKnownLabels, tr_as("a place", "at"));
  choose("##at", form.places, shown_place, tr("all there is, or what it concerns"), draft_.place);
  show_label(kKnownLabels, tr_as("when it was done", "ago"));
  ImGui::InputTextWithHint("##ago", "2 weeks, yesterday", &draft_.ago);
  show_label(kKnownLabels, tr_as("whom", "by"));
  ImGui::InputTextWithHint("##by", tr("whom, if that is known"), &draft_.by);
  show_label(kKnownLabels, "");
  if (!ImGui::Button(tr("Take down"))) return;
  Beforehand changed = notes.known();
  changed.done.push_back(draft_);
  if (take(changed, form, notes)) draft_ = {};
}

void HuntKnown::show_done(HuntNotes& notes) {
  std::optional<std::size_t> out;
  const std::vector<Beforehand::Happened>& done = notes.known().done;
  for (std::size_t k = 0; k < done.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    if (ImGui::Button(tr("Take back"))) out = k;
    ImGui::SameLine();
    Beforehand one;
    one.done.push_back(done[k]);
    show_text(words_of_key(beforehand_words(one).front()));
    ImGui::PopID();
  }
  if (!out) return;
  Beforehand changed = notes.known();
  changed.done.erase(changed.done.begin() + static_cast<std::ptrdiff_t>(*out));
  notes.set_known(std::move(changed));
}

}  // namespace sixty::gui
