// What a lesson's panel shows.
#include <fmt/format.h>
#include <imgui/imgui.h>
#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "gui/bench/panel.hpp"
#include "gui/bench/panel_pieces.hpp"
#include "gui/lesson/lesson_panel.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using Kind = lesson::Step::Kind;

/// A mark that is told apart by its form, not by its colour alone.
void show_marked(const char* mark, const std::string& text) {
  ImGui::TextUnformatted(mark);
  ImGui::SameLine();
  show_text(text);
}

const char* kind_text(Kind kind) {
  switch (kind) {
    case Kind::kAsk:
      return tr("Think first");
    case Kind::kTask:
      return tr("Your turn");
    case Kind::kExplain:
      return tr("Why");
    case Kind::kShow:
      break;
  }
  return tr("Look");
}

}  // namespace

LessonPanel::Wish LessonPanel::show(Bench& bench, const sf::FloatRect& box, ImFont* heading) {
  Wish wish;
  if (!open_) return wish;
  const Panel panel("lesson", box);
  const bool pressed_on = std::exchange(pressed_on_, false) && sitting_ != nullptr;
  if (panel_title(sitting_ == nullptr ? tr("Lessons") : tr("Lesson"), heading)) wish.closes = true;
  if (sitting_ == nullptr)
    show_list(wish);
  else if (sitting_->is_over())
    show_result(heading);
  else
    show_step(bench, heading);
  if (pressed_on && !sitting_->is_over()) go_on_by_key(bench);
  wish.looks = std::exchange(looks_, false);
  if (std::exchange(asks_why_, false)) wish.why = sitting_->now().why;
  return wish;
}

void LessonPanel::show_list(Wish& wish) {
  if (listed_.empty()) show_second(tr("There are no lessons beside this scene."));
  show_second(tr("Your name, if what you do is to be kept, on this machine only:"));
  ImGui::SetNextItemWidth(-1);
  if (ImGui::InputText("##learner", &name_) && diary_.open(name_)) {
    wish.learner = name_;
    look_up_mastered();
  }
  if (name_ != diary_.learner()) show_text(tr("No file can bear this name: begin with a letter."));
  if (!diary_.told().empty()) show_text(diary_.told());
  ImGui::Spacing();
  constexpr float kHigh = 28;
  if (ImGui::Button(tr("Hunt a hidden fault"), {ImGui::GetContentRegionAvail().x, kHigh}))
    wish.hunts = true;
  show_tip(tr("on the scene that is on the bench: ask, look, measure, mend, and prove the cure"));
  ImGui::Separator();
  for (const lesson::Listed& one : listed_) {
    const std::string name = fmt::format("{}. {}", one.number, lesson::title_in(one, language_));
    if (ImGui::Button(name.c_str(), {ImGui::GetContentRegionAvail().x, kHigh}))
      wish.begin = one.path;
    show_tip(say("about {:g} minutes", one.minutes).c_str());
    const auto mastered = mastered_.find(std::filesystem::path(one.path).stem().string());
    if (mastered != mastered_.end())
      show_second(say("mastered: {} of what you were asked", percent(mastered->second.share)));
  }
  panel_mistakes(mistakes_, tr("Another lesson can be chosen."));
}

void LessonPanel::show_step(Bench& bench, ImFont* heading) {
  constexpr float kBar = 6, kFoot = 46;
  const std::size_t steps = sitting_->lesson().steps.size();
  ImGui::ProgressBar(static_cast<float>(sitting_->step() + 1) / static_cast<float>(steps),
                     {-1, kBar}, "");
  ImGui::TextDisabled(
      "%s",
      say("{} of {}: {}", sitting_->step() + 1, steps, kind_text(sitting_->now().kind)).c_str());
  ImGui::BeginChild("step", {0, -kFoot});
  if (!told_.failure.empty()) show_text(told_.failure);
  if (told_.entry != entry_ || !told_.words) {
    show_second(tr("One moment: the run is being looked at."));
  } else {
    if (!told_.words->head.empty()) show_heading(heading, told_.words->head.c_str());
    show_text(told_.words->text);
    ImGui::Spacing();
    if (sitting_->now().kind == Kind::kAsk) show_question(bench);
    if (sitting_->now().kind == Kind::kTask) show_goal();
    if (phase_ == Phase::kDone && !told_.after.empty()) show_text(told_.after);
    show_hints();
  }
  ImGui::EndChild();
  ImGui::Separator();
  ImGui::BeginChild("foot");
  show_buttons(bench);
  ImGui::EndChild();
}

void LessonPanel::show_question(Bench& bench) {
  const lesson::Step& step = sitting_->now();
  if (phase_ == Phase::kAsks) {
    const auto reply = form_.show(step.question, *told_.words, sitting_->lesson(),
                                  bench.installation(), bench.look().selected);
    if (!reply) return;
    tutor_->judge(*reply);
    phase_ = Phase::kReveals;
    bench.runner().set_running(step.to.has_value());
    return;
  }
  if (phase_ == Phase::kReveals) {
    show_second(tr("Now watch."));
    return;
  }
  show_verdict();
}

/// Prediction and outcome beside each other.
void LessonPanel::show_verdict() const {
  if (!told_.judged) return;
  const Tutor::Judged& judged = *told_.judged;
  panel_heading(judged.verdict.right ? tr("As you said") : tr("Otherwise than you said"));
  ImGui::TextDisabled("%s", tr("You said"));
  show_text(judged.yours);
  ImGui::TextDisabled("%s", tr("The run says"));
  show_text(judged.really);
  ImGui::Spacing();
  if (!judged.remark.empty()) show_text(judged.remark);
  if (!judged.after.empty()) show_text(judged.after);
}

void LessonPanel::show_goal() const {
  for (std::size_t k = 0; k < told_.goal.size(); ++k) {
    const lesson::Held& held = told_.goal[k];
    show_marked(held.holds ? "\u2713" : "\u25CB",
                held.early ? tr("not yet long enough to tell") : told_.goal_words[k]);
  }
  if (phase_ != Phase::kDone) {
    if (lesson::all_hold(told_.goal))
      show_text(tr("But something was worked on that this task leaves alone. Begin it again."));
    return;
  }
  panel_heading(tr("Done"));
  show_text(told_.remark);
}

void LessonPanel::show_hints() {
  const auto& hints = told_.words->hints;
  const bool open = phase_ == Phase::kAsks || phase_ == Phase::kWorks;
  for (int k = 0; k < sitting_->hints() && open; ++k)
    show_second(say("Hint: {}", hints[static_cast<std::size_t>(k)]));
  if (open && sitting_->can_hint() &&
      ImGui::Button(sitting_->hints() == 0 ? tr("A hint") : tr("Another hint")))
    sitting_->hint();
}

void LessonPanel::show_buttons(Bench& bench) {
  constexpr float kLeastWide = 104;
  const char* all = tr("All lessons");
  const float around = 2 * ImGui::GetStyle().FramePadding.x;
  const float wide = std::max(kLeastWide, ImGui::CalcTextSize(all).x + around);
  const lesson::Step& step = sitting_->now();
  if (ImGui::Button(tr("Back")) && sitting_->way().size() > 1) return go_back(bench);
  ImGui::SameLine();
  const bool runs = phase_ == Phase::kRuns || phase_ == Phase::kReveals;
  if (runs) {
    if (ImGui::Button(tr("To its end"))) run_to_the_end(bench);
  } else if (step.kind == Kind::kTask && phase_ == Phase::kWorks) {
    if (ImGui::Button(tr("Begin again"))) enter(bench);
  } else if (phase_ == Phase::kDone && step.to && ImGui::Button(tr("Show it again"))) {
    put_run(bench);
    bench.runner().set_running(true);
    looks_ = true;
    phase_ = step.kind == Kind::kAsk ? Phase::kReveals : Phase::kRuns;
  }
  ImGui::SameLine();
  const bool waits = phase_ == Phase::kAsks || phase_ == Phase::kReveals;
  const bool may = !waits || !told_.failure.empty();
  const bool gives_up = step.kind == Kind::kTask && phase_ == Phase::kWorks;
  if (may && ImGui::Button(gives_up ? tr("Leave it out") : tr("Go on"))) go_on(bench);
  ImGui::SameLine(ImGui::GetContentRegionMax().x - wide);
  if (ImGui::Button(all, {wide, 0})) {
    bench.runner().set_running(false);
    leave();
  }
}

/// What the button at the foot that leads on would do.
void LessonPanel::go_on_by_key(Bench& bench) {
  if (phase_ == Phase::kRuns || phase_ == Phase::kReveals)
    run_to_the_end(bench);
  else if (phase_ == Phase::kDone)
    go_on(bench);
}

void LessonPanel::show_result(ImFont* heading) {
  show_heading(heading, tr("That was the lesson"));
  for (const lesson::Fared& fared : sitting_->fared()) {
    const std::string& name = heads_[fared.step];
    show_marked(fared.right ? "\u2713" : "\u25CB",
                fared.hints == 0
                    ? name
                    : say_counted("{1}, with {0} hints", "{1}, with {0} hints", fared.hints, name));
  }
  if (ImGui::Button(tr("All lessons"))) leave();
}

}  // namespace sixty::gui
