#pragma once

#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "sim/explain/answer.hpp"
#include "sim/lesson/lesson.hpp"

namespace sixty::lesson {

/// What a learner answers: which choice, a number in SI units, a part, or the items in the order
/// that they are thought to come in.
using Reply = std::variant<std::size_t, double, PartId, std::vector<std::size_t>>;

/// What a run says of a reply.
struct Verdict {
  bool right = false;
  double number = 0;               ///< what it really is, where one was asked for
  std::vector<std::size_t> order;  ///< in which the items really come; those that do not, last
  std::string flaw;                ///< what the lesson claims and the run does not show; or empty
};

/// Tells what is so in the runs of a lesson's installation. It keeps a session of its own: nobody
/// else's run is touched.
class Judge {
 public:
  Judge(std::shared_ptr<const Lesson> lesson, std::shared_ptr<const Installation> installation);

  /// Words with their readings as they are at `at`, and with the lesson's numbers as step `step`
  /// has them, in a run of that log. Range: step is one of the lesson's.
  std::string words(const Sayings& sayings, const std::string& language, std::size_t step,
                    const std::vector<Action>& log, SimTime at);
  /// One of the lesson's facts, as a step has it.
  double number(std::size_t fact, std::size_t step, const std::vector<Action>& log);
  /// Range: step asks; the reply is of its kind and within its range.
  Verdict verdict(std::size_t step, const Reply& reply, const std::vector<Action>& log);
  /// What has become of each condition of a task's goal.
  std::vector<Held> goal(std::size_t step, const std::vector<Action>& log, Span span);
  /// Why, or why not: held against the scene as it is without what the lesson or hands did to it.
  explain::Answer why(std::size_t step, const std::vector<Action>& log);
  /// Claims of a step that the run does not bear out; empty if it does.
  std::string flaw(std::size_t step, const std::vector<Action>& log);
  /// The same of everything that words state with figures.
  std::string flaw_of_stated(const std::vector<Action>& log);

  const Lesson& lesson() const { return *lesson_; }
  const Installation& installation() const { return *installation_; }

 private:
  Session& with(const std::vector<Action>& log);
  /// When each item of an order first comes.
  std::vector<double> times_of(const Question& question, const std::vector<Action>& log, Span span);
  static void judge_order(const std::vector<std::size_t>& reply, const std::vector<double>& times,
                          Verdict& verdict);

  std::shared_ptr<const Lesson> lesson_;
  std::shared_ptr<const Installation> installation_;
  Session session_;
  std::map<std::pair<std::size_t, std::size_t>, double> numbers_;  ///< by fact and step; of its log
};

/// Whether hands have worked on nothing that a task forbids, from one log to the other.
bool kept_to(const Task& task, const std::vector<Action>& before, const std::vector<Action>& now);

/// A question's right reply, as the run has it.
Reply right_reply(const Question& question, const Verdict& verdict);

}  // namespace sixty::lesson
