#pragma once

#include <string>
#include <vector>

#include "sim/lesson/judge.hpp"

namespace sixty::lesson {

/// How a learner fared with one step that wanted something of them.
struct Fared {
  std::size_t step = 0;
  bool right = false;  ///< the first reply was; of a task: it was brought about
  int hints = 0;       ///< that were asked for
};

/// What is said of a reply: the choice's own words, or those for right and wrong.
const Sayings& remark_on(const Question& question, const Reply& reply, bool right);

/// One learner's way through a lesson: which step is due, what has been done to the installation so
/// far, and what was answered. Of time and drawing it knows nothing.
class Sitting {
 public:
  explicit Sitting(std::shared_ptr<const Lesson> lesson, std::vector<Action> script);

  std::size_t step() const { return step_; }
  bool is_over() const { return step_ >= lesson_->steps.size(); }
  const Step& now() const { return lesson_->steps[step_]; }
  const Lesson& lesson() const { return *lesson_; }
  /// What is done to the installation by now: the scene's own, and the lesson's up to this step.
  const std::vector<Action>& log() const { return log_; }
  /// Hints that may be read by now.
  int hints() const { return hints_; }
  bool can_hint() const { return hints_ < static_cast<int>(now().hints.size()); }
  void hint() { hints_ += can_hint() ? 1 : 0; }

  /// A reply has been judged. Only the first one counts; the step stays till go_on().
  void replied(const Reply& reply, const Verdict& verdict);
  bool has_replied() const { return has_replied_; }
  bool was_right() const { return right_; }
  /// A task's goal has been reached by that log.
  void reached(std::vector<Action> log);
  /// To what follows, the reply counted in.
  void go_on();
  /// To a step, as if all before it in the file had been gone through. Range: not before this one.
  void skip_to(std::size_t step);
  /// Begins a step of the way again; what came behind it is forgotten. Range: step is on way().
  void begin(std::size_t step);

  /// Steps in the order in which they were come to; the present one is the last.
  const std::vector<std::size_t>& way() const { return way_; }
  /// In the order in which they were answered.
  const std::vector<Fared>& fared() const { return fared_; }

 private:
  void enter(std::size_t step);
  void add_fared(const Fared& fared);

  std::shared_ptr<const Lesson> lesson_;
  std::vector<Action> log_;
  std::vector<std::vector<Action>> logs_;  ///< by step of the way: before it was entered
  std::vector<std::size_t> way_;
  std::size_t step_ = 0;
  int hints_ = 0;
  bool has_replied_ = false, right_ = false;
  std::string go_;
  std::vector<Fared> fared_;
};

}  // namespace sixty::lesson
