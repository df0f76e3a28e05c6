#include "gui/bench/hunt_form.hpp"

#include <fmt/format.h>
#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <utility>

#include "gui/bench/panel_pieces.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace diagnose;
using How = Observation::How;

constexpr std::size_t kMostFound = 9, kMostTold = 4;
constexpr float kHuntLabels = 70;

struct Measure {
  const char* key;
  const char* says;
};
constexpr std::array kMeasures{
    Measure{"", to_tr("how much is not known")}, Measure{"about", to_tr("about")},
    Measure{"at_least", to_tr("at least")}, Measure{"at_most", to_tr("at most")},
    Measure{"reads", to_tr("a meter reads")}};

std::string sentence_of(const Observation& one, const std::vector<SignAt>& signs) {
  return words_of_key(sentence(one, signs));
}

std::string place_text(const Tellable& told, bool capital = false) {
  return words_of_key(spoken_place(told.place), capital);
}

void show_entry(const HuntNotes::Entry& entry, const Hunter::Form& form) {
  if (entry.title.empty()) {
    for (const Observation& one : entry.observations) show_text(sentence_of(one, form.signs));
    return;
  }
  const auto& all = entry.observations;
  const auto so =
      std::count_if(all.begin(), all.end(), [](const Observation& o) { return o.is_there(); });
  ImGui::TextWrapped("%s",
                     say("{}: {} looked at, of which so: {}", entry.title, all.size(), so).c_str());
  std::size_t told = 0;
  for (const Observation& one : all) {
    if (one.is_there() && told++ < kMostTold) show_second(sentence_of(one, form.signs));
  }
  if (told > kMostTold)
    show_second(
        say_counted("and {} more", "and {} more", static_cast<std::int64_t>(told - kMostTold)));
}

}  // namespace

void show_notes(const Hunter::Form& form, HuntNotes& notes) {
  std::optional<std::size_t> out;
  const ImGuiStyle& style = ImGui::GetStyle();
  const float wide = ImGui::CalcTextSize(tr("Take back")).x + 2 * style.FramePadding.x;
  for (std::size_t k = 0; k < notes.entries().size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    ImGui::Separator();
    ImGui::PushTextWrapPos(ImGui::GetContentRegionMax().x - wide - 8);
    ImGui::BeginGroup();
    show_entry(notes.entries()[k], form);
    ImGui::EndGroup();
    ImGui::PopTextWrapPos();
    ImGui::SameLine(ImGui::GetContentRegionMax().x - wide);
    if (ImGui::Button(tr("Take back"))) out = k;
    ImGui::PopID();
  }
  if (out) notes.take_out(*out);
}

void HuntForm::fill_in(const Tellable& told, const Hunter::Form& form, bool checked) {
  draft_.emplace();
  draft_->told = told;
  draft_->checked = checked;
  places_ = form.search.elsewhere(told);
  mistakes_.clear();
}

void HuntForm::show(const Hunter::Form& form, HuntNotes& notes) {
  if (draft_)
    show_draft(form, notes);
  else
    show_search(form);
}

void HuntForm::show_search(const Hunter::Form& form) {
  ImGui::SetNextItemWidth(-1);
  if (std::exchange(takes_keys_, false)) ImGui::SetKeyboardFocusHere();
  const bool entered =
      ImGui::InputTextWithHint("##words", tr("what is wrong? clocks upstairs slow"), &words_,
                               ImGuiInputTextFlags_EnterReturnsTrue);
  show_tip(tr("in your own words: what, and where; Enter takes the first that is found"));
  if (words_ != searched_) {
    searched_ = words_;
    part_.reset();
    candidates_ = form.search.find(words_, kMostFound);
  }
  if (entered && !part_ && !candidates_.empty()) return fill_in(candidates_.front(), form, false);
  show_candidates(form);
}

void HuntForm::show_candidates(const Hunter::Form& form) {
  if (part_) {
    const std::string name = words_of_key(form.installation->parts[*part_].name);
    show_second(say("What is wrong with {}?", name));
  }
  const std::vector<Tellable> offered = part_ ? form.search.of_part(*part_) : candidates_;
  std::optional<Tellable> chosen;
  for (std::size_t k = 0; k < offered.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    const std::string says =
        part_ ? tr(form.signs[offered[k].which.front()].sign->says) : offered[k].words;
    if (ImGui::Selectable(("  " + says).c_str())) chosen = offered[k];
    ImGui::PopID();
  }
  if (!part_ && !words_.empty() && offered.empty())
    show_second(tr("Nothing of that is known here. Try other words: slow, stopped, silent, hum."));
  if (chosen) fill_in(*chosen, form, false);
}

void HuntForm::show_draft(const Hunter::Form& form, HuntNotes& notes) {
  const Sign& sign = *form.signs[draft_->told.which.front()].sign;
  ImGui::TextWrapped("%s", say("{} {}", place_text(draft_->told, true), tr(sign.says)).c_str());
  show_place(form);
  show_half_day(form);
  show_amount(form);
  if (draft_->told.which.size() > 1) {
    show_label(kHuntLabels, "");
    ImGui::Checkbox(tr("only at some of them"), &draft_->only_some);
  }
  show_answers(form, notes);
  panel_mistakes(mistakes_, tr("Nothing is taken down before this is mended."));
}

void HuntForm::show_place(const Hunter::Form&) {
  show_label(kHuntLabels, tr("where"));
  if (!ImGui::BeginCombo("##where", place_text(draft_->told).c_str())) return;
  for (const Tellable& other : places_) {
    const std::string text =
        place_text(other) +
        (other.which.size() > 1 ? fmt::format(" ({})", other.which.size()) : std::string());
    if (ImGui::Selectable(text.c_str(), other.place == draft_->told.place)) draft_->told = other;
  }
  ImGui::EndCombo();
}

void HuntForm::show_half_day(const Hunter::Form& form) {
  const auto name = [&](std::size_t span) {
    return span == 0 ? std::string(tr("all the time, or nobody knows"))
                     : spoken_half_day(*form.installation, span);
  };
  show_label(kHuntLabels, tr("when"));
  if (!ImGui::BeginCombo("##when", name(draft_->span).c_str())) return;
  for (std::size_t span = 0; span < form.watch.spans(); ++span) {
    if (ImGui::Selectable(name(span).c_str(), span == draft_->span)) draft_->span = span;
  }
  ImGui::EndCombo();
}

void HuntForm::show_amount(const Hunter::Form& form) {
  const Sign& sign = *form.signs[draft_->told.which.front()].sign;
  const auto is_chosen = [&](const Measure& m) { return draft_->measure == m.key; };
  const auto chosen = std::find_if(kMeasures.begin(), kMeasures.end(), is_chosen);
  show_label(kHuntLabels, tr_as("so much", "by"));
  if (!draft_->measure.empty()) ImGui::SetNextItemWidth(140);
  if (ImGui::BeginCombo("##by", chosen == kMeasures.end() ? "" : tr(chosen->says))) {
    for (const Measure& measure : kMeasures) {
      if (ImGui::Selectable(tr(measure.says), is_chosen(measure))) draft_->measure = measure.key;
    }
    ImGui::EndCombo();
  }
  if (draft_->measure.empty()) return;
  ImGui::SameLine();
  ImGui::SetNextItemWidth(-1);
  const bool is_share = sign.by_share && draft_->measure != "reads";
  const std::string hint = is_share           ? tr("a share: 30 %")
                           : sign.unit == "1" ? tr("how often: 5")
                                              : say("with its unit, as in {}", sign.unit);
  ImGui::InputTextWithHint("##amount", hint.c_str(), &draft_->amount);
}

void HuntForm::show_answers(const Hunter::Form& form, HuntNotes& notes) {
  bool done = false;
  const bool entered =
      ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false) && !ImGui::IsAnyItemActive();
  const auto answer = [&](const char* text, const char* word, const char* what) {
    const bool is_so = std::string_view(word) == "yes";
    if (ImGui::Button(text) || (is_so && entered)) {
      draft_->answer = word;
      Diagnostics mistakes;
      if (auto one = observation_of(*draft_, form, mistakes)) {
        notes.add({"", {std::move(*one)}});
        done = true;
      }
      mistakes_ = mistakes.list();
    }
    show_tip(what);
    ImGui::SameLine();
  };
  answer(tr("It is so"), "yes", tr("it was noticed (Enter)"));
  answer(tr("Not so"), "no", tr("it was looked for, and is not"));
  answer(tr("Not looked at"), "not looked at", tr("nothing follows from nobody telling it"));
  if (ImGui::Button(tr("Cancel"))) done = true;
  if (!done) return;
  draft_.reset();
  part_.reset();
  words_.clear();
  searched_.clear();
  candidates_.clear();
  takes_keys_ = true;
}

}  // namespace sixty::gui
