#include "gui/bench/hunt_findings.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <map>

#include "sim/base/text.hpp"
#include "sim/diagnose/wording.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace diagnose;
using How = Observation::How;

constexpr std::size_t kMostSuspects = 10;
constexpr std::size_t kMostResults = 8;

void show_reasons(const Hunter::Told& told, const Ranked& one, bool in_favour) {
  const Hunter::Verdict& verdict = *told.verdict;
  auto reasons = speaking(one, verdict.ranking, in_favour);
  constexpr std::size_t kMost = 5;
  if (reasons.size() > kMost) reasons.resize(kMost);
  for (const Speaks& reason : reasons) {
    const std::string what =
        reason_words(reason, one, verdict.ranking, verdict.observations, *told.verdict->library);
    show_second(in_favour ? say("for: {}", words_of_key(what))
                          : say("against: {}", words_of_key(what)));
  }
}

void show_care(const std::string& text) {
  if (!text.empty()) ImGui::TextWrapped("⚠ %s", text.c_str());
}

}  // namespace

void show_place_badge(std::size_t place) {
  const float size = ImGui::GetTextLineHeight() + 4;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const ImVec2 centre{at.x + size / 2, at.y + size / 2};
  ImDrawList& lines = *ImGui::GetWindowDrawList();
  const ImU32 ink = ImGui::GetColorU32(ImGuiCol_Text);
  const bool leads = place == 1;
  if (leads) lines.AddNgonFilled(centre, size / 2, ink, 6);
  lines.AddNgon(centre, size / 2, ink, 6, 1.5F);
  const std::string number = std::to_string(place);
  const ImVec2 wide = ImGui::CalcTextSize(number.c_str());
  lines.AddText({centre.x - wide.x / 2, centre.y - wide.y / 2},
                leads ? ImGui::GetColorU32(ImGuiCol_WindowBg) : ink, number.c_str());
  ImGui::Dummy({size, size});
  ImGui::SameLine();
}

std::string proposal_key(const Proposal& one) {
  return title_of(one) + " " + std::to_string(one.sign);
}

void show_provisional(const Hunter::Told& told) {
  if (!told.verdict->provisional) return;
  show_second(say_counted("Provisional: from {} runs so far.", "Provisional: from {} runs so far.",
                          static_cast<std::int64_t>(told.verdict->library->simulations)));
}

void show_leaders(const Hunter::Told& told, std::size_t lines) {
  const Ranking& ranking = told.verdict->ranking;
  show_provisional(told);
  for (std::size_t k = 0; k < lines && k < ranking.ranked.size(); ++k) {
    const Ranked& one = ranking.ranked[k];
    show_place_badge(k + 1);
    const std::string text =
        percent(one.probability) + "  " + words_of_key(title_of(one, *told.verdict->library));
    ImGui::TextUnformatted(text.c_str());
    show_tip(text.c_str());
  }
  show_second(say("{}  none of these", percent(ranking.none_of_these)));
}

std::optional<PartId> HuntSuspects::show(const Hunter::Told& told) {
  std::optional<PartId> chosen;
  const Ranking& ranking = told.verdict->ranking;
  const std::size_t worth = worth_telling(ranking, kMostSuspects).size();
  show_provisional(told);
  for (std::size_t k = 0; k < worth; ++k) {
    ImGui::PushID(static_cast<int>(k));
    show_one(told, k, chosen);
    ImGui::PopID();
  }
  ImGui::Separator();
  ImGui::TextWrapped("%s", say("{}  none of these", percent(ranking.none_of_these)).c_str());
  ImGui::TextWrapped("%s", say("{}  nothing is the matter", percent(ranking.sound)).c_str());
  for (const std::size_t o : ranking.unexplained) {
    const Observation& one = told.verdict->observations[o];
    const std::string what = words_of_key(sentence(one, told.verdict->library->signs));
    ImGui::TextWrapped("%s", say("The first does not explain: {}", what).c_str());
  }
  return chosen;
}

void HuntSuspects::show_one(const Hunter::Told& told, std::size_t place,
                            std::optional<PartId>& chosen) {
  const Ranked& one = told.verdict->ranking.ranked[place];
  const std::vector<std::size_t> suspects = one.suspects();
  ImGui::Separator();
  ImGui::BeginGroup();
  show_place_badge(place + 1);
  ImGui::TextWrapped("%s  %s", percent(one.probability).c_str(),
                     words_of_key(title_of(one, *told.verdict->library)).c_str());
  ImGui::ProgressBar(static_cast<float>(one.probability), {-1, 5}, "");
  ImGui::EndGroup();
  show_tip(tr("why, and how to make sure; its part is selected on the drawing"));
  if (ImGui::IsItemClicked()) {
    const bool was_open = open_ == suspects;
    open_ = was_open ? std::vector<std::size_t>() : suspects;
    if (!was_open) chosen = told.verdict->library->suspects[one.suspect].part;
  }
  if (open_ != suspects) return;
  ImGui::Indent();
  show_second(words_of_key(fault_words(one, *told.verdict->library)));
  show_reasons(told, one, true);
  show_reasons(told, one, false);
  for (const std::size_t number : suspects) {
    const Fault& fault = *told.verdict->library->suspects[number].fault;
    if (!fault.check.empty()) show_text(say("To make sure: {}.", tr(fault.check)));
    if (!fault.remedy.empty()) show_text(say("Remedy: {}.", tr(fault.remedy)));
  }
  show_care(care_of(one, *told.verdict->library));
  ImGui::Unindent();
}

HuntChecks::Wish HuntChecks::show(const Hunter::Told& told, HuntNotes& notes, bool hidden) {
  Wish wish;
  const Hunter::Verdict& verdict = *told.verdict;
  if (!verdict.has_next) {
    show_second(tr("What would tell most is being weighed."));
    return wish;
  }
  for (const auto* proposals : {&verdict.questions, &verdict.checks}) {
    for (const Proposal& one : *proposals) {
      ImGui::PushID(proposal_key(one).c_str());
      show_one(told, one, notes, hidden, wish);
      ImGui::PopID();
    }
  }
  if (verdict.questions.empty() && verdict.checks.empty())
    ImGui::TextWrapped("%s", tr("No check at hand would tell more."));
  return wish;
}

void HuntChecks::show_one(const Hunter::Told& told, const Proposal& one, HuntNotes& notes,
                          bool hidden, Wish& wish) {
  const std::string question = words_of_key(question_words(one, *told.verdict->library));
  ImGui::Separator();
  if (one.check->asks) {
    ImGui::TextWrapped("%s", say("Ask: {}", question).c_str());
  } else {
    ImGui::TextWrapped("%s: %s.", words_of_key(title_of(one)).c_str(), tr(one.check->what).c_str());
    show_second(question);
  }
  show_second(effort_words(one));
  if (!one.check->care.empty()) show_care(tr(one.check->hazard) + ": " + tr(one.check->care));
  const std::string name = proposal_key(one);
  if (hidden && ImGui::Button(one.check->asks ? tr("Ask") : tr("Do it"))) wish.look = &one;
  if (hidden) {
    show_tip(tr("of the installation with the hidden fault in it"));
    ImGui::SameLine();
  }
  const bool is_open = open_ == name;
  if (ImGui::Button(is_open           ? tr("Later")
                    : one.check->asks ? tr("They say")
                                      : tr("I have looked"))) {
    open_ = is_open ? "" : name;
    mistake_.clear();
    number_.clear();
  }
  show_tip(tr("write down what was found"));
  if (open_ == name) show_results(told, one, notes, wish);
}

/// One line for each sign that the check shows: the most telling first.
void HuntChecks::show_results(const Hunter::Told& told, const Proposal& proposal, HuntNotes& notes,
                              Wish& wish) {
  const auto& signs = told.verdict->library->signs;
  std::vector<std::pair<const Sign*, std::vector<std::size_t>>> by_sign;
  const auto put = [&](std::size_t k) {
    const auto known = std::find_if(by_sign.begin(), by_sign.end(),
                                    [&](const auto& e) { return e.first == signs[k].sign; });
    if (known == by_sign.end())
      by_sign.push_back({signs[k].sign, {k}});
    else if (k != known->second.front())
      known->second.push_back(k);
  };
  put(proposal.sign);
  for (const std::size_t k : proposal.signs) put(k);
  ImGui::Indent();
  for (std::size_t k = 0; k < by_sign.size() && k < kMostResults; ++k) {
    ImGui::PushID(static_cast<int>(k));
    std::sort(by_sign[k].second.begin(), by_sign[k].second.end());
    show_result(told, by_sign[k].second, proposal, notes, wish);
    ImGui::PopID();
  }
  if (by_sign.size() > kMostResults)
    show_second(tr("What else it shows is told among what was noticed."));
  if (!mistake_.empty()) show_text(mistake_);
  ImGui::Unindent();
}

void HuntChecks::show_result(const Hunter::Told& told, const std::vector<std::size_t>& which,
                             const Proposal& proposal, HuntNotes& notes, Wish& wish) {
  const Hunter::Form& form = *told.form;
  const SignAt& at = form.signs[which.front()];
  const std::string part = form.installation->parts[at.part].name;
  const bool several = which.size() > 1;
  const auto same = form.search.of_signs(which);
  const std::string place = same ? same->place : several ? "all " + at.sign->kind->name : part;
  const std::string subject = words_of_key(spoken_place(place), true);
  ImGui::TextWrapped("%s", say("{} {}", subject, tr(at.sign->says)).c_str());
  const auto add = [&](How how) {
    HuntNotes::Entry entry;
    if (!same) entry.title = words_of_key(title_of(proposal));
    for (const std::size_t k : which) {
      Observation one =
          same ? observation_at(place, which, form.signs)
               : observation_at(form.installation->parts[form.signs[k].part].name, {k}, form.signs);
      one.how = how;
      one.checked = !proposal.check->asks;
      entry.observations.push_back(std::move(one));
      if (same) break;
    }
    notes.add(std::move(entry));
  };
  if (ImGui::Button(several ? tr_as("found so", "All") : tr_as("found", "So"))) add(How::kThere);
  ImGui::SameLine();
  if (several && ImGui::Button(tr_as("found so", "Some ...")))
    wish.fill_in = form.search.of_signs({proposal.sign})
                       .value_or(Tellable{part, at.sign->name, {which.front()}, ""});
  if (several) ImGui::SameLine();
  if (ImGui::Button(several ? tr_as("found so", "None") : tr("Not so"))) add(How::kNot);
  if (!several && at.sign->sense == Sense::kMeasured)
    show_reading(form, {part, at.sign->name, which, ""}, notes);
}

void HuntChecks::show_reading(const Hunter::Form& form, const Tellable& one, HuntNotes& notes) {
  const std::string name = one.place + "." + one.sign;
  if (at_ != name) number_.clear();
  ImGui::SameLine();
  ImGui::SetNextItemWidth(-1);
  std::string written = at_ == name ? number_ : "";
  const std::string& unit = form.signs[one.which.front()].sign->unit;
  const std::string hint =
      unit == "1" ? std::string(tr("it reads: 5")) : say("it reads, with its unit: {}", unit);
  const bool entered = ImGui::InputTextWithHint("##reads", hint.c_str(), &written,
                                                ImGuiInputTextFlags_EnterReturnsTrue);
  if (ImGui::IsItemActive() || entered) {
    at_ = name;
    number_ = written;
  }
  if (!entered || written.empty()) return;
  HuntDraft draft;
  draft.told = one;
  draft.measure = "reads";
  draft.amount = written;
  draft.checked = true;
  Diagnostics mistakes;
  if (auto read = observation_of(draft, form, mistakes)) notes.add({"", {std::move(*read)}});
  mistake_ = mistakes.empty() ? ""
                              : say("{}; expected {}", mistakes.list().front().what,
                                    mistakes.list().front().expected);
}

}  // namespace sixty::gui
