#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/explain/answer.hpp"
#include "sim/lesson/judge.hpp"
#include "sim/lesson/sitting.hpp"

namespace sixty::lesson {

/// One step as it went when all was answered rightly.
struct PlayedStep {
  std::size_t step = 0;
  std::vector<Action> log;  ///< of the run
  std::optional<Reply> reply;
  std::vector<Held> goal;  ///< of a task, when it has been brought about
  std::optional<explain::Answer> why;
  bool aside = false;  ///< only a wrong reply leads to it
  std::string flaw;    ///< what the lesson claims and its run does not show; or empty
};

struct Played {
  std::vector<PlayedStep> steps;
  std::string flaw_of_stated;
  bool is_sound() const;
};

/// Takes a lesson through, with right replies and model answers, then each step to which only wrong
/// ones lead, and holds all that it claims against the runs. A task that is solved before anybody
/// has done anything is a flaw too.
Played play(Judge& judge);

/// What a reply says, in words.
std::string reply_text(const Question& question, const Reply& reply, const Judge& judge,
                       const std::string& language);

}  // namespace sixty::lesson
