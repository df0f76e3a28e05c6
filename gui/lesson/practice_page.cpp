#include "gui/lesson/practice_page.hpp"

#include <fmt/format.h>
#include <imgui/imgui.h>
#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <cctype>

#include "gui/bench/panel.hpp"
#include "gui/bench/panel_pieces.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using practice::Deed;
using practice::Score;

constexpr std::array<const char*, practice::kLevels> kLevelTexts = {
    to_tr("One, and obvious"), to_tr("One, and faint"), to_tr("One that comes and goes"),
    to_tr("Two at once"), to_tr("Something that hands did")};

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

/// A place as it stands behind what is done there.
std::string place_behind(const std::string& place) {
  return place.empty() ? "" : ", " + words_of_key(diagnose::spoken_place(place));
}

void show_deed(std::size_t number, const Deed& deed) {
  const std::string place = place_behind(deed.part);
  show_text(say("{}. {}{} ({:g} min)", number, deed.what, place, deed.minutes));
  ImGui::Indent();
  for (const std::string& found : deed.found) show_second(words_of_key(found));
  show_text(practice::sentence_of(deed.worth));
  if (deed.kind == Deed::Kind::kCheck || deed.kind == Deed::Kind::kQuestion)
    show_second(
        say("{:.1f} bit; the best would have told {:.1f}", deed.expected_bits, deed.best_bits));
  ImGui::Unindent();
}

void show_score(const char* whose, const Score& score) {
  ImGui::TextDisabled("%s", whose);
  show_text(
      say("{:g} min, risk worth {:g} min; needless checks {}, dangerous {}, good "
          "parts worked at {}",
          score.minutes, score.harm, score.needless, score.harmful, score.good_parts));
  if (!score.mended) show_second(tr("It was not found this way."));
  if (score.sufficed_after)
    show_second(*score.sufficed_after == 0
                    ? tr("What people said sufficed.")
                    : say("The evidence sufficed after deed {}.", *score.sufficed_after));
}

practice::HuntTaken taken_of(const Coach::Told& told, const diagnose::Library& library) {
  practice::HuntTaken taken;
  taken.scene = library.installation->name;
  taken.level = practice::name_of(told.level);
  taken.seed = told.seed;
  taken.mended = told.score->mended;
  taken.proved = told.score->proved;
  taken.minutes = told.score->minutes;
  taken.best_minutes = told.best->minutes;
  taken.harm = told.score->harm;
  taken.needless = static_cast<int>(told.score->needless);
  taken.harmful = static_cast<int>(told.score->harmful);
  taken.good_parts = static_cast<int>(told.score->good_parts);
  return taken;
}

}  // namespace

void PracticePage::show(const Registry& registry,
                        const std::shared_ptr<const diagnose::Library>& library, Wish& wish) {
  if (coach_ == nullptr) {
    coach_ = std::make_unique<Coach>(registry, library);
    hidden_ = 0;
  }
  follow(wish);
  if (told_.hunt == 0) return show_beginning();
  panel_heading(tr("People say"));
  for (const std::string& one : told_.reports) show_text(words_of_key(one));
  if (!told_.deeds.empty()) show_deeds();
  if (coach_->is_busy()) return show_second(tr("Somebody goes and looks."));
  if (told_.score) return show_end();
  show_checks();
  show_mending();
  if (ImGui::Button(tr("Give up"))) coach_->end();
}

void PracticePage::follow(Wish& wish) {
  told_ = coach_->told();
  if (told_.hunt != hidden_) {
    hidden_ = told_.hunt;
    ended_ = false;
    part_.reset();
    suspect_.reset();
    for (const practice::Hidden& one : told_.hidden) {
      const diagnose::Suspect& suspect = coach_->library().suspects[one.suspect];
      wish.hide.push_back({suspect.fault, suspect.part, one.manner.severity, one.manner.course});
      wish.from.push_back(one.manner.from);
    }
  }
  if (!told_.score || ended_) return;
  ended_ = true;
  wish.reveal = true;
  wish.taken = taken_of(told_, coach_->library());
}

void PracticePage::show_beginning() {
  show_text(
      tr("A fault is hidden in the installation. Ask, look, measure, mend, and prove the cure."));
  ImGui::SetNextItemWidth(-1);
  std::array<const char*, practice::kLevels> levels{};
  std::transform(kLevelTexts.begin(), kLevelTexts.end(), levels.begin(),
                 [](const char* text) { return tr(text); });
  ImGui::Combo("##level", &level_, levels.data(), static_cast<int>(levels.size()));
  constexpr float kWide = 140;
  ImGui::SetNextItemWidth(kWide);
  ImGui::InputInt(tr("number of the case"), &seed_);
  seed_ = std::max(seed_, 0);
  show_second(tr("The same number hides the same fault from a whole class."));
  if (coach_->is_busy()) return show_second(tr("A fault is being chosen."));
  if (!told_.failure.empty()) show_text(told_.failure);
  if (ImGui::Button(tr("Hide a fault")))
    coach_->hide(static_cast<practice::Level>(level_), static_cast<std::uint64_t>(seed_));
}

void PracticePage::show_deeds() const {
  panel_heading(tr("What was done"));
  for (std::size_t k = 0; k < told_.deeds.size(); ++k) show_deed(k + 1, told_.deeds[k]);
}

/// All that could be looked at, by words: help is not offered here.
void PracticePage::show_checks() {
  constexpr std::size_t kMost = 12;
  panel_heading(tr("Ask, look or measure"));
  ImGui::SetNextItemWidth(-1);
  ImGui::InputTextWithHint("##filter", tr("words of a check or place"), &filter_);
  const std::string wanted = lower(filter_);
  std::size_t shown = 0;
  for (std::size_t k = 0; k < told_.checks.size() && shown < kMost; ++k) {
    const diagnose::Proposal& one = told_.checks[k];
    std::string text = tr(one.check->what);
    if (one.check->asks) text += ": " + tr(coach_->library().signs[one.sign].sign->says);
    text += place_behind(one.place);
    if (!wanted.empty() && lower(text).find(wanted) == std::string::npos) continue;
    ++shown;
    ImGui::PushID(static_cast<int>(k));
    const bool does = ImGui::Button(say("{:g} min", one.check->minutes).c_str());
    if (!one.check->care.empty()) show_tip(tr(one.check->care).c_str());
    ImGui::SameLine();
    show_text(text);
    if (!one.check->hazard.empty()) show_second(say("Care: {}", tr(one.check->care)));
    ImGui::PopID();
    if (does) coach_->check(one);
  }
  if (shown == kMost) show_second(tr("More by other words."));
}

void PracticePage::show_mending() {
  panel_heading(tr("Mend"));
  const diagnose::Library& library = coach_->library();
  const auto& parts = library.installation->parts;
  ImGui::SetNextItemWidth(-1);
  if (ImGui::BeginCombo("##part",
                        part_ ? words_of_key(parts[*part_].name).c_str() : tr("which part"))) {
    for (PartId part = 0; part < parts.size(); ++part) {
      const bool has = std::any_of(library.suspects.begin(), library.suspects.end(),
                                   [&](const diagnose::Suspect& s) { return s.part == part; });
      if (!has || !ImGui::Selectable(words_of_key(parts[part].name).c_str(), part_ == part))
        continue;
      part_ = part;
      suspect_.reset();
    }
    ImGui::EndCombo();
  }
  if (part_) {
    const std::string chosen =
        suspect_ ? tr(library.suspects[*suspect_].fault->title) : tr("as what");
    ImGui::SetNextItemWidth(-1);
    if (ImGui::BeginCombo("##fault", chosen.c_str())) {
      for (std::size_t k = 0; k < library.suspects.size(); ++k) {
        const diagnose::Suspect& one = library.suspects[k];
        if (one.part == *part_ && ImGui::Selectable(tr(one.fault->title).c_str(), suspect_ == k))
          suspect_ = k;
      }
      ImGui::EndCombo();
    }
  }
  if (suspect_) {
    const Fault& fault = *library.suspects[*suspect_].fault;
    show_second(say("Remedy: {}", tr(fault.remedy)));
    if (!fault.caution.empty()) show_text(say("Care: {}", tr(fault.caution)));
    if (ImGui::Button(tr("Mend it so"))) coach_->mend(*suspect_);
    ImGui::SameLine();
  }
  if (ImGui::Button(tr("Prove the cure"))) coach_->prove();
  show_tip(tr("watches two whole minutes and a ring"));
}

void PracticePage::show_end() {
  panel_heading(told_.over ? tr("Found, mended and proved") : tr("This is what it was"));
  for (const std::string& truth : told_.truths) show_text(truth);
  for (std::size_t k = 0; k < told_.why.size(); ++k)
    show_second(fmt::format("{}. {}", k + 1, told_.why[k]));
  show_score(tr("Your way"), *told_.score);
  show_score(tr("The best way"), *told_.best);
  for (std::size_t k = 0; k < told_.best_deeds.size(); ++k)
    show_second(fmt::format("{}. {}{}", k + 1, told_.best_deeds[k].what,
                            place_behind(told_.best_deeds[k].part)));
  if (ImGui::Button(tr("Another one"))) {
    ++seed_;
    coach_.reset();
    told_ = {};
  }
}

}  // namespace sixty::gui
