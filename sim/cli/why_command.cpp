#include <nlohmann/json.hpp>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/interrupt.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/progress.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/explain/answer.hpp"
#include "sim/explain/question.hpp"

namespace sixty::cli {
namespace {

using explain::Answer;
using explain::Question;

std::string answer_json(const Answer& answer, const Question& q, const Installation& scene) {
  using Kind = Answer::Kind;
  const bool none = answer.kind == Kind::kNeverExpected;
  nlohmann::ordered_json whole;
  whole["format"] = "sixtybeats-why/1";
  whole["scene"] = scene.name;
  whole["kind"] = answer.event_kind;
  whole["part"] = part_name(scene, answer.part);
  whole["happened"] = answer.kind == Kind::kHappened || answer.kind == Kind::kUnexpected;
  whole["expected"] = answer.kind == Kind::kHappened || answer.kind == Kind::kDidNot;
  whole["at_s"] = nullptr;
  if (!none) whole["at_s"] = to_seconds(answer.at);
  whole["asked"] = q.any.size();
  whole["did"] = answer.did;
  whole["did_when_sound"] = answer.expected;
  whole["links"] = links_json(answer.links, scene);
  return whole.dump(2) + "\n";
}

}  // namespace

int why_command(const WhyArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const auto scene = load(arguments.scene, registry, mistakes);
  const auto sound = scene ? load_sound(arguments.scene, registry, mistakes) : nullptr;
  Question question;
  Mistakes reading(mistakes);
  if (scene)
    question = explain::read_question({"QUESTION", arguments.question, {}}, *scene, reading);
  if (mistakes.empty()) check_actions(*scene, question.to, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  const auto in_common = explain::session_options();
  Session looked_at(scene, in_common), twin(sound, in_common);
  Answer answer;
  {
    Progress progress(can_show_progress(), *scene);
    answer = explain::answer_to(question, looked_at, twin, [&](SimTime now) {
      progress.show(now, question.to);
      end_if_interrupted();
    });
  }
  print(arguments.json ? answer_json(answer, question, *scene)
                       : wrapped(explain::headline(answer, question, *scene), 0, 0) +
                             links_text(answer.links));
  return kOk;
}

}  // namespace sixty::cli
