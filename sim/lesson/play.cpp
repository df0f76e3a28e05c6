#include "sim/lesson/play.hpp"

#include <algorithm>
#include <cmath>

#include "sim/tour/saying.hpp"

namespace sixty::lesson {
namespace {

constexpr std::size_t kMostPlayed = 500;  // of a lesson that goes round

std::vector<Action> with_deeds(std::vector<Action> log, const std::vector<Action>& deeds) {
  log.insert(log.end(), deeds.begin(), deeds.end());
  std::stable_sort(log.begin(), log.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  return log;
}

std::string first_unmet(const Task& task, const std::vector<Held>& held,
                        const Installation& installation) {
  for (std::size_t k = 0; k < held.size(); ++k) {
    if (held[k].early) return "the model answer is done before its goal can be told";
    if (!held[k].holds) return told(task.goal[k], held[k], installation);
  }
  return "";
}

class Player {
 public:
  explicit Player(Judge& judge)
      : judge_(judge),
        lesson_(std::make_shared<Lesson>(judge.lesson())),
        sitting_(lesson_, judge.installation().script) {}

  Played play() {
    Played played;
    played.flaw_of_stated = judge_.flaw_of_stated(judge_.installation().script);
    std::vector<bool> seen(lesson_->steps.size(), false);
    while (!sitting_.is_over() && played.steps.size() < kMostPlayed) {
      seen[sitting_.step()] = true;
      played.steps.push_back(play_step());
      sitting_.go_on();
    }
    if (!sitting_.is_over()) played.steps.back().flaw = "it goes round and never comes to its end";
    // What only a wrong reply leads to is claimed all the same.
    for (std::size_t k = 0; k < seen.size(); ++k) {
      if (seen[k]) continue;
      sitting_ = Sitting(lesson_, judge_.installation().script);
      sitting_.skip_to(k);
      played.steps.push_back(play_step());
      played.steps.back().aside = true;
    }
    return played;
  }

 private:
  PlayedStep play_step() {
    begun_ = sitting_.now().at.value_or(begun_);
    PlayedStep one;
    one.step = sitting_.step();
    one.log = sitting_.log();
    const bool asks = sitting_.now().kind == Step::Kind::kAsk;
    if (!asks) one.flaw = judge_.flaw(one.step, one.log);  // a verdict tells it too
    if (one.flaw.empty()) one.flaw = without_number(one);
    if (asks) ask(one);
    if (sitting_.now().kind == Step::Kind::kTask) do_task(one);
    if (sitting_.now().kind == Step::Kind::kExplain) explain(one);
    return one;
  }

  /// A number that its words hold and the run has not.
  std::string without_number(const PlayedStep& one) {
    for (const Sayings* sayings : words_of(lesson_->steps[one.step])) {
      for (const auto& [language, saying] : *sayings) {
        for (const Saying::Piece& piece : saying.pieces) {
          if (piece.number && std::isnan(judge_.number(*piece.number, one.step, one.log)))
            return "its words hold " + lesson_->facts[*piece.number].name +
                   ", which this run has not";
        }
      }
    }
    return "";
  }

  void ask(PlayedStep& one) {
    const Question& question = sitting_.now().question;
    Verdict verdict = judge_.verdict(one.step, any_reply(question), one.log);
    const Reply reply = right_reply(question, verdict);
    verdict = judge_.verdict(one.step, reply, one.log);
    if (!verdict.right) verdict.flaw = "what the run itself has is not taken for right";
    if (one.flaw.empty()) one.flaw = verdict.flaw;
    one.reply = reply;
    sitting_.replied(reply, verdict);
  }

  static Reply any_reply(const Question& question) {
    if (question.kind == Question::Kind::kNumber) return 0.0;
    if (question.kind == Question::Kind::kPart) return question.parts.front();
    if (question.kind == Question::Kind::kOrder) return std::vector<std::size_t>{};
    return std::size_t{0};
  }

  void do_task(PlayedStep& one) {
    const Task& task = sitting_.now().task;
    const Span span{begun_, std::max(task.model_at, begun_)};
    const std::vector<Held> before = judge_.goal(one.step, one.log, span);
    if (first_unmet(task, before, judge_.installation()).empty())
      one.flaw = "the goal is reached without anything being done";
    const std::vector<Action> log = with_deeds(one.log, task.model);
    one.goal = judge_.goal(one.step, log, span);
    const std::string unmet = first_unmet(task, one.goal, judge_.installation());
    if (one.flaw.empty()) one.flaw = unmet;
    if (!kept_to(task, one.log, log)) one.flaw = "the model answer works on what is not allowed";
    one.log = log;
    sitting_.reached(log);
  }

  void explain(PlayedStep& one) {
    if (!sitting_.now().why) return;
    one.why = judge_.why(one.step, one.log);
    if (one.why->links.empty()) one.flaw = "nothing can be said of what is asked about";
  }

  Judge& judge_;
  std::shared_ptr<const Lesson> lesson_;
  Sitting sitting_;
  SimTime begun_ = 0;
};

}  // namespace

bool Played::is_sound() const {
  return flaw_of_stated.empty() && std::all_of(steps.begin(), steps.end(),
                                               [](const PlayedStep& s) { return s.flaw.empty(); });
}

Played play(Judge& judge) { return Player(judge).play(); }

std::string reply_text(const Question& question, const Reply& reply, const Judge& judge,
                       const std::string& language) {
  const auto plain = [&](const Sayings& sayings) {
    return said(
        in_language(sayings, language), judge.installation(), [](const ReadingOf&) { return 0.0; },
        std::vector<std::pair<double, std::string>>(judge.lesson().facts.size()), language);
  };
  switch (question.kind) {
    case Question::Kind::kChoice:
      return plain(question.choices[std::get<std::size_t>(reply)].text);
    case Question::Kind::kNumber:
      return quantity_text(std::get<double>(reply), judge.lesson().facts[question.number].fact.unit,
                           -1, language);
    case Question::Kind::kPart:
      return judge.installation().parts[std::get<PartId>(reply)].name;
    case Question::Kind::kOrder:
      break;
  }
  std::string text;
  for (const std::size_t item : std::get<std::vector<std::size_t>>(reply))
    text += (text.empty() ? "" : ", ") + plain(question.items[item].text);
  return text;
}

}  // namespace sixty::lesson
