#include "sim/lesson/sitting.hpp"

#include <algorithm>
#include <utility>

namespace sixty::lesson {

const Sayings& remark_on(const Question& question, const Reply& reply, bool right) {
  if (question.kind == Question::Kind::kChoice) {
    const Choice& choice = question.choices[std::get<std::size_t>(reply)];
    if (!choice.says.empty()) return choice.says;
  }
  return right ? question.right : question.wrong;
}

Sitting::Sitting(std::shared_ptr<const Lesson> lesson, std::vector<Action> script)
    : lesson_(std::move(lesson)), log_(std::move(script)) {
  enter(0);
}

void Sitting::enter(std::size_t step) {
  logs_.push_back(log_);
  way_.push_back(step);
  step_ = step;
  hints_ = 0;
  has_replied_ = right_ = false;
  go_.clear();
  if (is_over()) return;
  // Of a step that is come to again they are there already.
  for (const Action& deed : now().deeds)
    if (std::find(log_.begin(), log_.end(), deed) == log_.end()) log_.push_back(deed);
  std::stable_sort(log_.begin(), log_.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
}

void Sitting::replied(const Reply& reply, const Verdict& verdict) {
  if (std::exchange(has_replied_, true)) return;
  const Question& question = now().question;
  right_ = verdict.right;
  go_ = right_ ? question.if_right : question.if_wrong;
  if (question.kind == Question::Kind::kChoice) {
    const Choice& choice = question.choices[std::get<std::size_t>(reply)];
    if (!choice.go.empty()) go_ = choice.go;
  }
  add_fared({step_, right_, hints_});
}

/// Who comes back has seen what is right: the first time counts.
void Sitting::add_fared(const Fared& fared) {
  const auto is_it = [&](const Fared& other) { return other.step == fared.step; };
  if (std::none_of(fared_.begin(), fared_.end(), is_it)) fared_.push_back(fared);
}

void Sitting::reached(std::vector<Action> log) {
  if (std::exchange(has_replied_, true)) return;
  right_ = true;
  add_fared({step_, true, hints_});
  if (now().task.keeps) log_ = std::move(log);
}

void Sitting::go_on() {
  if (is_over()) return;
  if (now().kind == Step::Kind::kTask && !has_replied_) add_fared({step_, false, hints_});
  enter(lesson_->next_of(step_, go_));
}

void Sitting::skip_to(std::size_t step) {
  while (step_ < step) enter(step_ + 1);
}

void Sitting::begin(std::size_t step) {
  const auto found = std::find(way_.rbegin(), way_.rend(), step);
  if (found == way_.rend()) return;
  const auto at = static_cast<std::size_t>(way_.rend() - found) - 1;
  log_ = logs_[at];
  way_.resize(at);
  logs_.resize(at);
  enter(step);
}

}  // namespace sixty::lesson
