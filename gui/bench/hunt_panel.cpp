#include "gui/bench/hunt_panel.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <filesystem>

#include "gui/bench/panel_pieces.hpp"
#include "gui/keep/paths.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/diagnose/page.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kMostMarks = 6, kLeaders = 3;
constexpr double kLeastMark = 0.02;

}  // namespace

std::vector<Injection> hidden_faults(const Bench& bench) {
  std::vector<Injection> faults;
  if (!bench.look().hides_wrong) return faults;
  for (const Action& action : *bench.seen().log) {
    if (action.fault == nullptr || action.at > bench.picture().at) continue;
    const auto same = [&](const Injection& one) {
      return one.part == action.part && one.fault->number == action.fault->fault->number;
    };
    faults.erase(std::remove_if(faults.begin(), faults.end(), same), faults.end());
    if (!action.clears) faults.push_back(*action.fault);
  }
  return faults;
}

/// Found anew only where the run is another, or has come past another of its actions.
const std::vector<Injection>& HuntPanel::hidden_now(const Bench& bench) {
  const auto& log = bench.seen().log;
  const auto is_later = [](SimTime now, const Action& action) { return now < action.at; };
  const auto due = static_cast<std::size_t>(
      std::upper_bound(log->begin(), log->end(), bench.picture().at, is_later) - log->begin());
  const bool hides = bench.look().hides_wrong;
  if (hidden_.log != log || hidden_.due != due || hidden_.hides != hides)
    hidden_ = {hides, log, due, hidden_faults(bench)};
  return hidden_.faults;
}

void HuntPanel::open(const Registry& registry, const diagnose::LibraryPlan& plan,
                     const std::string& cache) {
  open_ = true;
  registry_ = &registry;
  if (hunter_ == nullptr) {
    hunter_ = std::make_unique<Hunter>(registry, plan, cache);
    practice_.forget();
    told_ = {};
    weighed_ = notes_.version() - 1;
    looks_ = 0;
  }
  form_.take_keys();
}

void HuntPanel::close() {
  open_ = false;
  practises_ = false;
  if (told_.stage != Hunter::Stage::kReady) hunter_.reset();
}

void HuntPanel::point_at(PartId part) {
  form_.point_at(part);
  turns_to_ = Page::kNoticed;
}

void HuntPanel::follow() {
  if (hunter_ == nullptr) return;
  told_ = hunter_->told();
  if (weighed_ != notes_.version()) {
    weighed_ = notes_.version();
    hunter_->weigh(notes_.all());
  }
  if (looks_ == 0 || told_.look != looks_) return;
  looks_ = 0;
  said_.clear();
  if (told_.seen.empty()) said_ = tr("Nobody could tell.");
  if (look_title_.empty())
    notes_.add_each(told_.seen);
  else
    notes_.add({look_title_, told_.seen});
}

void HuntPanel::look(Hunter::Look how, const std::string& title, std::vector<std::size_t> signs,
                     std::vector<Injection> hidden) {
  look_title_ = title;
  looks_ = ++asked_;
  hunter_->look(looks_, how, std::move(signs), std::move(hidden));
}

std::vector<SuspectMark> HuntPanel::marks() const {
  std::vector<SuspectMark> marks;
  if (!open_ || !has_verdict()) return marks;
  for (const diagnose::Ranked& one : told_.verdict->ranking.ranked) {
    if (marks.size() >= kMostMarks || one.probability < kLeastMark) break;
    const std::size_t place = marks.empty() ? 1 : marks.back().place + 1;
    for (const std::size_t number : one.suspects())
      marks.push_back({told_.verdict->library->suspects[number].part, place, one.probability});
  }
  return marks;
}

std::optional<PartId> HuntPanel::show(const Bench& bench, const sf::FloatRect& box,
                                      ImFont* heading) {
  std::optional<PartId> chosen;
  if (!open_) return chosen;
  bool stays = true;
  {
    const Panel panel("hunt", box);
    if (panel_title(practises_ ? tr("Hunt a fault") : tr("Find the fault"), heading)) stays = false;
    show_stage();
    // Whoever hunts a hidden fault is not helped.
    if (practises_ && is_ready())
      practice_.show(*registry_, told_.library, practice_wish_);
    else if (!practises_ && told_.form != nullptr)
      show_pages(bench, chosen);
  }
  if (!stays) close();
  return chosen;
}

void HuntPanel::show_stage() const {
  constexpr float kHigh = 8;
  switch (told_.stage) {
    case Hunter::Stage::kReading:
      return show_second(tr("The installation is being read."));
    case Hunter::Stage::kSound:
      return show_second(tr("Simulating what is usual. You can tell what was noticed meanwhile."));
    case Hunter::Stage::kFaults: {
      const auto share =
          static_cast<float>(told_.done) / static_cast<float>(std::max<std::size_t>(told_.all, 1));
      ImGui::ProgressBar(share, {-1, kHigh}, "");
      return show_second(
          say("Simulating what may be the matter: {} of {} runs. You can tell what was noticed "
              "meanwhile.",
              told_.done, told_.all));
    }
    case Hunter::Stage::kReady:
      if (!told_.failure.empty()) show_text(told_.failure);
      return;
    case Hunter::Stage::kFailed:
      show_text(told_.failure);
  }
}

void HuntPanel::show_pages(const Bench& bench, std::optional<PartId>& chosen) {
  const std::vector<Injection>& hidden = hidden_now(bench);
  const bool provisional = has_verdict() && told_.verdict->provisional;
  const float lines = static_cast<float>(kLeaders + 1 + (provisional ? 1 : 0));
  const float leaders = ImGui::GetTextLineHeightWithSpacing() * lines + 30;
  if (!ImGui::BeginTabBar("pages")) return;
  const auto page = [&](const char* title, const char* id, bool turn, bool all, const auto& show) {
    const ImGuiTabItemFlags flags = turn ? ImGuiTabItemFlags_SetSelected : ImGuiTabItemFlags_None;
    if (!ImGui::BeginTabItem((std::string(title) + id).c_str(), nullptr, flags)) return;
    const bool has_foot = has_verdict() && !all;
    ImGui::BeginChild("page", {0, has_foot ? -leaders : 0});
    show();
    ImGui::EndChild();
    if (has_foot) show_foot();
    ImGui::EndTabItem();
  };
  const bool to_noticed = std::exchange(turns_to_, Page::kNone) == Page::kNoticed;
  page(tr_as("page", "Noticed"), "###noticed", to_noticed, false, [&] { show_noticed(hidden); });
  page(tr("Suspects"), "###suspects", false, true, [&] {
    if (has_verdict())
      chosen = suspects_.show(told_);
    else
      show_second(notes_.entries().empty() ? tr("Tell what was noticed: then it is weighed here.")
                                           : tr("It is weighed as soon as there are runs of it."));
  });
  page(tr_as("page", "Next"), "###next", false, false, [&] { show_next(hidden); });
  page(tr_as("page", "Known"), "###known", false, false, [&] { known_.show(*told_.form, notes_); });
  page(tr("File"), "###file", false, false, [&] { show_file(); });
  ImGui::EndTabBar();
}

void HuntPanel::show_noticed(const std::vector<Injection>& hidden) {
  form_.show(*told_.form, notes_);
  ImGui::Spacing();
  if (!hidden.empty() && is_ready() && looks_ == 0) {
    if (ImGui::Button(tr("What people report"))) look(Hunter::Look::kReports, "", {}, hidden);
    show_tip(tr("of the fault that is hidden: some of it may be wrong or left out"));
    ImGui::SameLine();
  }
  if (notes_.can_undo() && ImGui::Button(tr("Undo"))) notes_.undo();
  if (looks_ > 0) show_second(tr("Somebody goes and looks."));
  ImGui::NewLine();
  show_notes(*told_.form, notes_);
}

void HuntPanel::show_next(const std::vector<Injection>& hidden) {
  if (!has_verdict()) return show_second(tr("Tell what was noticed first."));
  if (looks_ > 0) return show_second(tr("Somebody goes and looks."));
  if (!said_.empty()) show_text(said_);
  if (notes_.can_undo() && ImGui::Button(tr("Undo"))) notes_.undo();
  const HuntChecks::Wish wish = checks_.show(told_, notes_, !hidden.empty() && is_ready());
  if (wish.look != nullptr) {
    const std::string place = wish.look->place.empty()
                                  ? ""
                                  : " " + words_of_key(diagnose::spoken_place(wish.look->place));
    const bool asks = wish.look->check->asks;
    look(asks ? Hunter::Look::kAsked : Hunter::Look::kChecked,
         asks ? "" : wish.look->check->id + place, wish.look->signs, hidden);
  }
  if (!wish.fill_in) return;
  form_.fill_in(*wish.fill_in, *told_.form, true);
  turns_to_ = Page::kNoticed;
}

void HuntPanel::show_foot() const {
  ImGui::Separator();
  show_leaders(told_, kLeaders);
}

void HuntPanel::show_file() {
  if (path_.empty()) path_ = told_.form->installation->name + "-observations.yaml";
  ImGui::TextWrapped(
      "%s", tr("What was noticed, as a file that opens here again and on the command line."));
  ImGui::SetNextItemWidth(-1);
  ImGui::InputText("##path", &path_);
  if (ImGui::Button(tr("Keep"))) keep();
  ImGui::SameLine();
  if (ImGui::Button(tr_as("button", "Open"))) take();
  if (has_verdict()) {
    ImGui::SameLine();
    if (ImGui::Button(tr("Print"))) print();
    show_tip(tr("a page beside it, to be opened and printed"));
  }
  if (!said_.empty()) show_text(said_);
  panel_mistakes(mistakes_, tr("What was noticed before is still there."));
}

/// A file that was there before is not written over.
bool HuntPanel::may_write(const std::string& path) {
  std::error_code none;
  const bool is_own = std::find(own_files_.begin(), own_files_.end(), path) != own_files_.end();
  if (is_own || !std::filesystem::exists(path, none)) return true;
  said_ = say("{}: there is a file of that name already; choose another name", path);
  return false;
}

void HuntPanel::keep() {
  mistakes_.clear();
  const std::string path = with_home(path_);
  if (notes_.entries().empty()) {
    said_ = tr("There is nothing to keep yet: tell what was noticed.");
    return;
  }
  if (!may_write(path)) return;
  std::string error;
  if (!write_file_whole(path, notes_text(notes_, *told_.form), error)) {
    said_ = path + ": " + error;
    return;
  }
  own_files_.push_back(path);
  said_ = say("Kept as {}.", std::filesystem::absolute(path).string());
}

void HuntPanel::take() {
  Diagnostics mistakes;
  const std::string path = with_home(path_);
  const auto read = read_notes(path, *told_.form, mistakes);
  mistakes_ = mistakes.list();
  said_.clear();
  if (!read) return;
  notes_.replace(*read);
  own_files_.push_back(path);
  said_ = tr("Opened.");
}

void HuntPanel::print() {
  mistakes_.clear();
  const std::string path =
      std::filesystem::path(with_home(path_)).replace_extension(".html").string();
  if (!may_write(path)) return;
  const Hunter::Verdict& verdict = *told_.verdict;
  const std::string page = diagnose::page_html(
      {*verdict.library, verdict.observations, verdict.ranking, verdict.questions, verdict.checks});
  std::string error;
  if (!write_file_whole(path, page, error)) {
    said_ = path + ": " + error;
    return;
  }
  own_files_.push_back(path);
  said_ = say("Written to {}: open it in a browser, and print it.",
              std::filesystem::absolute(path).string());
}

}  // namespace sixty::gui
