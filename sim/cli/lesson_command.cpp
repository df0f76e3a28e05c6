#include <fmt/format.h>

#include "sim/base/clock_time.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/explain/answer.hpp"
#include "sim/lesson/play.hpp"

namespace sixty::cli {
namespace {

using lesson::Judge;
using lesson::Played;
using lesson::PlayedStep;
using lesson::Step;

const char* name_of(Step::Kind kind) {
  switch (kind) {
    case Step::Kind::kAsk:
      return "ask";
    case Step::Kind::kTask:
      return "task";
    case Step::Kind::kExplain:
      return "explain";
    case Step::Kind::kShow:
      break;
  }
  return "show";
}

/// What stands in one lesson that has been taken through, told for people.
class Teller {
 public:
  Teller(Judge& judge, const std::string& language)
      : judge_(judge), lesson_(judge.lesson()), language_(language) {}

  std::string text(const Played& played) {
    std::string all = fmt::format("{}. {} ({}, {:g} min)\n", lesson_.number,
                                  words(lesson_.title, {}, 0), lesson_.scene, lesson_.minutes);
    for (std::size_t k = 0; k < played.steps.size(); ++k)
      all += "\n" + step_text(k + 1, played.steps[k]);
    if (!played.flaw_of_stated.empty())
      all += "\n" + wrapped("NOT SO: " + played.flaw_of_stated, 0, 2);
    return all;
  }

 private:
  std::string words(const Sayings& sayings, const PlayedStep& of, SimTime at) {
    return judge_.words(sayings, language_, of.step, of.log, at);
  }

  std::string step_text(std::size_t number, const PlayedStep& played) {
    const Step& step = lesson_.steps[played.step];
    const SimTime at = step.at.value_or(0), to = step.to.value_or(at);
    const auto paragraph = [](const std::string& mark, const std::string& text) {
      return text.empty() ? "" : wrapped(mark + text, 2, 4);
    };
    const std::string head = words(step.head, played, at);
    std::string text =
        fmt::format("{:>2} {}{}{}{}\n", number, name_of(step.kind),
                    played.aside ? ", behind a wrong answer" : "", head.empty() ? "" : ": ", head);
    text += paragraph("", words(step.text, played, at));
    for (const lesson::Choice& choice : step.question.choices)
      text += paragraph(choice.right ? "(x) " : "( ) ", words(choice.text, played, at));
    if (played.reply)
      text += paragraph("> ", lesson::reply_text(step.question, *played.reply, judge_, language_));
    for (const Action& action : step.task.model) text += paragraph("> ", action_text(action));
    for (std::size_t k = 0; k < played.goal.size(); ++k)
      text +=
          paragraph("= ", lesson::told(step.task.goal[k], played.goal[k], judge_.installation()));
    for (const lesson::Choice& choice : step.question.choices)
      if (choice.right) text += paragraph("", words(choice.says, played, to));
    text += paragraph("", words(step.question.right, played, to));
    text += paragraph("", words(step.task.right, played, step.task.model_at));
    text += paragraph("", words(step.after, played, to));
    if (played.why)
      text += paragraph("", explain::headline(*played.why, *step.why, judge_.installation())) +
              links_text(played.why->links);
    return text + paragraph("NOT SO: ", played.flaw);
  }

  std::string action_text(const Action& action) const {
    return format_weekday_time(judge_.installation().clock, action.at) + " " + action.text;
  }

  Judge& judge_;
  const lesson::Lesson& lesson_;
  std::string language_;
};

}  // namespace

int lesson_command(const LessonArguments& arguments, const Registry& registry) {
  int code = kOk;
  const std::string language = arguments.language.empty() ? "en" : arguments.language;
  for (const std::string& file : arguments.files) {
    Diagnostics mistakes;
    const lesson::Opened opened = lesson::open_lesson(file, registry, mistakes);
    if (opened.lesson == nullptr) {
      code = refuse(mistakes);
      continue;
    }
    Judge judge(opened.lesson, opened.installation);
    const Played played = lesson::play(judge);
    print(Teller(judge, language).text(played));
    if (!played.is_sound()) code = kBadInput;
  }
  return code;
}

}  // namespace sixty::cli
