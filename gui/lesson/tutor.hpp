#pragma once

#include <atomic>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/clerk.hpp"
#include "sim/lesson/sitting.hpp"

namespace sixty::gui {

/// What of a lesson takes a run of its own, on a thread of its own: numbers in its words, what is
/// right, whether a task's goal has been reached.
class Tutor {
 public:
  Tutor(const lesson::Opened& opened, std::string language);

  /// A step's words, before anything has been answered.
  struct Words {
    std::string head, text;
    std::vector<std::string> choices, items, hints;
  };
  /// What is said behind a reply.
  struct Judged {
    lesson::Reply reply;
    lesson::Verdict verdict;
    std::string yours, really;  ///< the reply, and the right one, in words
    std::string remark, after;
  };
  struct Told {
    std::uint64_t entry = 0;  ///< of the step that is told about
    std::optional<Words> words;
    std::optional<Judged> judged;
    std::string after;  ///< of a step that asks nothing, as soon as it is known
    std::vector<lesson::Held> goal;
    std::vector<Action> goal_log;         ///< of the run that was looked at
    std::vector<std::string> goal_words;  ///< of each of its conditions
    std::string remark;                   ///< as soon as the goal is reached
    std::string failure;
  };
  Told told() const;
  bool is_busy() const { return clerk_.is_busy(); }
  /// Until all that was asked is done (for pictures and tests).
  void wait() const { clerk_.wait(); }

  /// A step has been come to. Returns the number of this entry.
  std::uint64_t enter(std::size_t step, std::vector<Action> log);
  void judge(lesson::Reply reply);
  /// All that is told of the step is told anew, in another language.
  void speak(std::string language);
  /// Whether the goal has been reached by a run of that log, since `span.from`.
  void look_at_goal(std::vector<Action> log, lesson::Span span);

 private:
  struct Entry {
    std::uint64_t number = 0;
    std::size_t step = 0;
    std::vector<Action> log;
    std::string language;
  };
  void tell();
  std::string words(const Sayings& sayings, const Entry& entry, SimTime at);
  void tell_words(const Entry& entry);
  void tell_after(const Entry& entry);
  void tell_judged(const Entry& entry, const lesson::Reply& reply);
  void tell_goal(const Entry& entry, const std::vector<Action>& log, lesson::Span span);
  void give(int number, Clerk::Task task);
  /// Only while nothing else has been come to.
  template <class Change>
  void change(const Entry& entry, const Change& change) {
    const std::lock_guard lock(mutex_);
    if (told_.entry == entry.number) change(told_);
  }

  lesson::Judge judge_;  ///< the clerk's
  Entry entry_;
  mutable std::mutex mutex_;
  Told told_;
  Clerk clerk_;  // last: it uses all of the others
};

}  // namespace sixty::gui
