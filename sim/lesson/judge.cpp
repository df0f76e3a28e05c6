#include "sim/lesson/judge.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/tour/saying.hpp"

namespace sixty::lesson {
namespace {

constexpr double kNever_s = std::numeric_limits<double>::infinity();

Span span_of(const Step& step) {
  const SimTime at = step.at.value_or(0);
  return {at, step.to.value_or(at)};
}

bool is_near(const Question& question, double said, double really) {
  const double off = std::fabs(said - really);
  // A share of it, but for the last digit.
  const double within = question.by_share ? question.within * std::fabs(really) : question.within;
  return off <= within * (1 + 1e-9);
}

}  // namespace

Judge::Judge(std::shared_ptr<const Lesson> lesson, std::shared_ptr<const Installation> installation)
    : lesson_(std::move(lesson)), installation_(std::move(installation)), session_(installation_) {}

Session& Judge::with(const std::vector<Action>& log) {
  if (session_.replace_log(log) != kNever) numbers_.clear();
  return session_;
}

double Judge::number(std::size_t fact, std::size_t step, const std::vector<Action>& log) {
  Session& session = with(log);
  const auto known = numbers_.find({fact, step});
  if (known != numbers_.end()) return known->second;
  const NamedFact& of = lesson_->facts[fact];
  const Span own = span_of(lesson_->steps[step]);
  const Span span{of.from.value_or(own.from), of.to.value_or(own.to)};
  return numbers_[{fact, step}] = values_of({of.fact}, session, span).front();
}

std::string Judge::words(const Sayings& sayings, const std::string& language, std::size_t step,
                         const std::vector<Action>& log, SimTime at) {
  const Saying& saying = in_language(sayings, language);
  std::vector<std::pair<double, std::string>> numbers(lesson_->facts.size());
  for (const Saying::Piece& piece : saying.pieces) {
    if (!piece.number) continue;
    numbers[*piece.number] = {number(*piece.number, step, log),
                              lesson_->facts[*piece.number].fact.unit};
  }
  const auto reading = [&](const ReadingOf& of) {
    Session& session = with(log);
    session.seek(at);
    return session.read(of.part, of.reading);
  };
  return said(saying, *installation_, reading, numbers, language);
}

std::string Judge::flaw(std::size_t step, const std::vector<Action>& log) {
  const Step& of = lesson_->steps[step];
  return unmet(of.proves, with(log), span_of(of));
}

std::string Judge::flaw_of_stated(const std::vector<Action>& log) {
  for (const Stated& one : lesson_->stated) {
    if (!one.condition) continue;
    const std::string flaw = unmet({*one.condition}, with(log), one.span);
    if (!flaw.empty()) return "\"" + one.words + "\": " + flaw;
  }
  return "";
}

std::vector<double> Judge::times_of(const Question& question, const std::vector<Action>& log,
                                    Span span) {
  std::vector<Fact> firsts;
  for (const Item& item : question.items) {
    Fact fact;
    fact.what = Fact::What::kEvent;
    fact.take = Fact::Take::kFirst;
    fact.event = item.happening;
    firsts.push_back(std::move(fact));
  }
  std::vector<double> times = values_of(firsts, with(log), span);
  for (double& time : times)
    if (std::isnan(time)) time = kNever_s;
  return times;
}

/// Of what comes at one instant any may be put first.
void Judge::judge_order(const std::vector<std::size_t>& reply, const std::vector<double>& times,
                        Verdict& verdict) {
  verdict.order.resize(times.size());
  std::iota(verdict.order.begin(), verdict.order.end(), 0U);
  const auto sooner = [&](std::size_t a, std::size_t b) { return times[a] < times[b]; };
  std::stable_sort(verdict.order.begin(), verdict.order.end(), sooner);
  verdict.right =
      reply.size() == times.size() && std::is_sorted(reply.begin(), reply.end(), sooner);
  if (std::count(times.begin(), times.end(), kNever_s) > 0)
    verdict.flaw = "what is to be put in order does not all come";
}

Verdict Judge::verdict(std::size_t step, const Reply& reply, const std::vector<Action>& log) {
  const Step& of = lesson_->steps[step];
  const Question& question = of.question;
  Verdict verdict;
  verdict.flaw = flaw(step, log);
  switch (question.kind) {
    case Question::Kind::kChoice:
      verdict.right = question.choices[std::get<std::size_t>(reply)].right;
      break;
    case Question::Kind::kNumber:
      verdict.number = number(question.number, step, log);
      verdict.right = is_near(question, std::get<double>(reply), verdict.number);
      if (std::isnan(verdict.number)) verdict.flaw = "there is no such number in this run";
      break;
    case Question::Kind::kPart:
      verdict.right =
          std::count(question.parts.begin(), question.parts.end(), std::get<PartId>(reply)) > 0;
      break;
    case Question::Kind::kOrder:
      judge_order(std::get<std::vector<std::size_t>>(reply), times_of(question, log, span_of(of)),
                  verdict);
      break;
  }
  return verdict;
}

std::vector<Held> Judge::goal(std::size_t step, const std::vector<Action>& log, Span span) {
  return held(lesson_->steps[step].task.goal, with(log), span);
}

explain::Answer Judge::why(std::size_t step, const std::vector<Action>& log) {
  const auto in_common = explain::session_options();
  Session looked_at(installation_, in_common), sound(installation_, in_common);
  looked_at.replace_log(log);
  return explain::answer_to(*lesson_->steps[step].why, looked_at, sound);
}

bool kept_to(const Task& task, const std::vector<Action>& before, const std::vector<Action>& now) {
  if (task.only.empty()) return true;
  return std::all_of(now.begin(), now.end(), [&](const Action& action) {
    return std::count(before.begin(), before.end(), action) > 0 ||
           std::count(task.only.begin(), task.only.end(), action.part) > 0;
  });
}

Reply right_reply(const Question& question, const Verdict& verdict) {
  switch (question.kind) {
    case Question::Kind::kNumber:
      return verdict.number;
    case Question::Kind::kPart:
      return question.parts.front();
    case Question::Kind::kOrder:
      return verdict.order;
    case Question::Kind::kChoice:
      break;
  }
  const auto right = std::find_if(question.choices.begin(), question.choices.end(),
                                  [](const Choice& choice) { return choice.right; });
  return static_cast<std::size_t>(right - question.choices.begin());
}

}  // namespace sixty::lesson
