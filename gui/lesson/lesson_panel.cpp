#include "gui/lesson/lesson_panel.hpp"

#include <algorithm>
#include <utility>

#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr SimTime kLookAgain = 200 * kMillisecond;  // of the run, between looks at a goal

}  // namespace

void LessonPanel::open(const std::string& folder, const std::string& language,
                       const std::string& learner) {
  open_ = true;
  language_ = language;
  name_ = learner;
  diary_.open(learner);
  listed_ = lesson::lessons_in(folder);
  look_up_mastered();
}

void LessonPanel::look_up_mastered() {
  const auto progress = diary_.progress();
  mastered_ = progress ? practice::mastery_of_lessons(*progress)
                       : std::map<std::string, practice::Mastery>();
}

bool LessonPanel::chooses() const {
  return open_ && (sitting_ == nullptr || sitting_->is_over() || phase_ == Phase::kAsks);
}

void LessonPanel::close() { open_ = false; }

void LessonPanel::speaks(const std::string& language) {
  language_ = language;
  if (tutor_ != nullptr) tutor_->speak(language);
}

void LessonPanel::begin(const lesson::Opened& opened, Bench& bench, std::size_t first) {
  leave();
  open_ = true;
  mistakes_.clear();
  bench.hide_wrong(false);  // of a hunt that was not gone to its end
  tutor_ = std::make_unique<Tutor>(opened, language_);
  sitting_ = std::make_unique<lesson::Sitting>(opened.lesson, opened.installation->script);
  kept_ = 0;
  sitting_->skip_to(std::min(first, opened.lesson->steps.size() - 1));
  enter(bench);
}

void LessonPanel::enter(Bench& bench) {
  if (sitting_->is_over()) {
    bench.runner().set_running(false);
    return;
  }
  using Kind = lesson::Step::Kind;
  const lesson::Step& step = sitting_->now();
  begun_ = step.at.value_or(bench.picture().at);
  looked_ = -kHour;
  entry_ = tutor_->enter(sitting_->step(), sitting_->log());
  form_.begin(step.question);
  bench.select(std::nullopt);
  put_run(bench);
  phase_ = step.kind == Kind::kAsk    ? Phase::kAsks
           : step.kind == Kind::kTask ? Phase::kWorks
           : step.to                  ? Phase::kRuns
                                      : Phase::kDone;
  bench.runner().set_running(phase_ == Phase::kRuns || phase_ == Phase::kWorks);
  asks_why_ = step.kind == Kind::kExplain && step.why;
  looks_ = true;
}

void LessonPanel::leave() {
  sitting_.reset();
  tutor_.reset();
  told_ = {};
  heads_.clear();
  look_up_mastered();
  looks_ = asks_why_ = false;
}

/// To the step's beginning, as fast as it is to go.
void LessonPanel::put_run(Bench& bench) {
  const lesson::Step& step = sitting_->now();
  Runner& runner = bench.runner();
  if (step.part) runner.watch(*step.part);
  run_ = runner.begin(sitting_->log(), begun_);
  runner.set_speed(step.speed);
  runner.set_stretch(step.stretch);
}

bool LessonPanel::has_come(const Bench& bench) const {
  const lesson::Step& step = sitting_->now();
  return bench.picture().begun == run_ && (!step.to || bench.picture().at >= *step.to);
}

void LessonPanel::run_to_the_end(Bench& bench) const {
  const lesson::Step& step = sitting_->now();
  if (!step.to) return;
  bench.runner().set_running(false);
  if (bench.picture().at != *step.to) bench.runner().jump(*step.to);
}

/// What is asked and shown is judged as the lesson has it, without what hands would do meanwhile.
std::string LessonPanel::holds_hands() const {
  if (!open_ || tutor_ == nullptr || sitting_->is_over()) return "";
  const bool holds = phase_ == Phase::kRuns || phase_ == Phase::kAsks || phase_ == Phase::kReveals;
  return holds ? tr("Hands off: the lesson shows something, or asks.") : "";
}

void LessonPanel::follow(Bench& bench) {
  if (tutor_ == nullptr || sitting_->is_over()) return;
  told_ = tutor_->told();
  if (told_.words) heads_[sitting_->step()] = told_.words->head;
  if (told_.judged && !sitting_->has_replied())
    sitting_->replied(told_.judged->reply, told_.judged->verdict);
  const bool runs = phase_ == Phase::kRuns || phase_ == Phase::kReveals;
  if (runs && has_come(bench)) {
    if (bench.seen().running) run_to_the_end(bench);
    if (phase_ == Phase::kRuns || told_.judged) phase_ = Phase::kDone;
  }
  if (phase_ == Phase::kWorks) follow_goal(bench);
  keep_fared();
}

void LessonPanel::follow_goal(Bench& bench) {
  if (lesson::all_hold(told_.goal) &&
      lesson::kept_to(sitting_->now().task, sitting_->log(), told_.goal_log)) {
    sitting_->reached(told_.goal_log);
    phase_ = Phase::kDone;
    return;
  }
  const auto& log = *bench.seen().log;
  const SimTime now = bench.picture().at;
  const bool was_looked_at = now >= looked_ && now - looked_ < kLookAgain;
  if (tutor_->is_busy() || bench.picture().begun != run_ || now < begun_ || was_looked_at) return;
  looked_ = now;
  tutor_->look_at_goal(log, {begun_, now});
}

void LessonPanel::keep_fared() {
  const std::vector<lesson::Fared>& fared = sitting_->fared();
  for (; kept_ < fared.size(); ++kept_) diary_.add(sitting_->lesson(), fared[kept_]);
}

void LessonPanel::go_on(Bench& bench) {
  sitting_->go_on();
  keep_fared();
  enter(bench);
}

void LessonPanel::go_back(Bench& bench) {
  const std::vector<std::size_t>& way = sitting_->way();
  if (way.size() < 2) return;
  sitting_->begin(way[way.size() - 2]);
  enter(bench);
}

}  // namespace sixty::gui
