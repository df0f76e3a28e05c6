#include "gui/lesson/tutor.hpp"

#include <utility>

#include "sim/lesson/play.hpp"

namespace sixty::gui {
namespace {

using lesson::Choice;
using lesson::Held;
using lesson::Item;
using lesson::Opened;
using lesson::Reply;
using lesson::Span;
using lesson::Task;

enum Number { kWords, kAfter, kJudge, kGoal };

SimTime begin_of(const lesson::Step& step) { return step.at.value_or(0); }
SimTime end_of(const lesson::Step& step) { return step.to.value_or(begin_of(step)); }

}  // namespace

Tutor::Tutor(const Opened& opened, std::string language)
    : judge_(opened.lesson, opened.installation) {
  entry_.language = std::move(language);
}

Tutor::Told Tutor::told() const {
  const std::lock_guard lock(mutex_);
  return told_;
}

void Tutor::give(int number, Clerk::Task task) {
  clerk_.give(number, [this, entry = entry_, task = std::move(task)] {
    try {
      task();
    } catch (const RunFailure& failure) {
      change(entry, [&](Told& told) { told.failure = failure.what(); });
    }
  });
}

std::uint64_t Tutor::enter(std::size_t step, std::vector<Action> log) {
  for (const int number : {kWords, kAfter, kJudge, kGoal}) clerk_.drop(number);
  entry_ = {entry_.number + 1, step, std::move(log), entry_.language};
  {
    const std::lock_guard lock(mutex_);
    told_ = {};
    told_.entry = entry_.number;
  }
  tell();
  return entry_.number;
}

void Tutor::tell() {
  give(kWords, [this, entry = entry_] { tell_words(entry); });
  if (judge_.lesson().steps[entry_.step].kind != lesson::Step::Kind::kAsk)
    give(kAfter, [this, entry = entry_] { tell_after(entry); });
}

void Tutor::speak(std::string language) {
  entry_.language = std::move(language);
  if (entry_.number == 0) return;
  tell();
  if (const auto judged = told().judged) judge(judged->reply);
}

void Tutor::judge(Reply reply) {
  give(kJudge, [this, entry = entry_, reply = std::move(reply)] { tell_judged(entry, reply); });
}

void Tutor::look_at_goal(std::vector<Action> log, Span span) {
  give(kGoal, [this, entry = entry_, log = std::move(log), span] { tell_goal(entry, log, span); });
}

std::string Tutor::words(const Sayings& sayings, const Entry& entry, SimTime at) {
  return judge_.words(sayings, entry.language, entry.step, entry.log, at);
}

void Tutor::tell_words(const Entry& entry) {
  const lesson::Step& step = judge_.lesson().steps[entry.step];
  const SimTime at = begin_of(step);
  Words said;
  said.head = words(step.head, entry, at);
  said.text = words(step.text, entry, at);
  for (const Choice& choice : step.question.choices)
    said.choices.push_back(words(choice.text, entry, at));
  for (const Item& item : step.question.items) said.items.push_back(words(item.text, entry, at));
  for (const Sayings& hint : step.hints) said.hints.push_back(words(hint, entry, at));
  change(entry, [&](Told& told) { told.words = std::move(said); });
}

void Tutor::tell_after(const Entry& entry) {
  const lesson::Step& step = judge_.lesson().steps[entry.step];
  const std::string after = words(step.after, entry, end_of(step));
  change(entry, [&](Told& told) { told.after = after; });
}

void Tutor::tell_judged(const Entry& entry, const Reply& reply) {
  const lesson::Step& step = judge_.lesson().steps[entry.step];
  Judged judged;
  judged.reply = reply;
  judged.verdict = judge_.verdict(entry.step, reply, entry.log);
  judged.yours = lesson::reply_text(step.question, reply, judge_, entry.language);
  judged.really = lesson::reply_text(
      step.question, lesson::right_reply(step.question, judged.verdict), judge_, entry.language);
  judged.remark =
      words(lesson::remark_on(step.question, reply, judged.verdict.right), entry, end_of(step));
  judged.after = words(step.after, entry, end_of(step));
  change(entry, [&](Told& told) { told.judged = std::move(judged); });
}

void Tutor::tell_goal(const Entry& entry, const std::vector<Action>& log, Span span) {
  const Task& task = judge_.lesson().steps[entry.step].task;
  std::vector<Held> goal = judge_.goal(entry.step, log, span);
  std::vector<std::string> each;
  for (std::size_t k = 0; k < goal.size(); ++k)
    each.push_back(lesson::told(task.goal[k], goal[k], judge_.installation()));
  const bool reached = lesson::all_hold(goal) && lesson::kept_to(task, entry.log, log);
  const std::string remark =
      reached ? judge_.words(task.right, entry.language, entry.step, log, span.to) : "";
  change(entry, [&](Told& told) {
    told.goal = std::move(goal);
    told.goal_log = log;
    told.goal_words = std::move(each);
    told.remark = remark;
  });
}

}  // namespace sixty::gui
