#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/question.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/explain/answer.hpp"

namespace sixty::cli {
namespace {

using explain::Answer;
using explain::Question;

/// Of several, how many did it.
std::string counts_text(const Answer& answer, const Question& q) {
  if (q.any.size() == 1) return "";
  return fmt::format(" Of {} asked about, {} did so, and {} in a sound installation.", q.any.size(),
                     answer.did, answer.expected);
}

std::string answer_text(const Answer& answer, const Question& q, const Installation& scene) {
  const std::string what = fmt::format("{} {}", answer.event_kind, part_name(scene, answer.part));
  const std::string when = format_instant(clock_of(scene), answer.at);
  std::string first;
  switch (answer.kind) {
    case Answer::Kind::kHappened:
      first = fmt::format("{} happened at {}, because of this.", what, when);
      break;
    case Answer::Kind::kUnexpected:
      first =
          fmt::format("{} happened at {}, which a sound installation does not have.", what, when);
      break;
    case Answer::Kind::kDidNot:
      first = fmt::format("{} did not happen; a sound installation has it at {}.", what, when);
      break;
    case Answer::Kind::kNeverExpected:
      first = fmt::format("{} did not happen from {} to {}, nor would it in a sound installation.",
                          what, format_instant(clock_of(scene), q.from, 0),
                          format_instant(clock_of(scene), q.to, 0));
      break;
  }
  return wrapped(first + counts_text(answer, q), 0, 0) + links_text(answer.links);
}

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
  if (scene) question = question_of(arguments.question, *scene, mistakes);
  if (mistakes.empty()) check_actions(*scene, question.to, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  Session looked_at(scene), twin(sound);
  const Answer answer = explain::answer_to(question, looked_at, twin);
  print(arguments.json ? answer_json(answer, question, *scene)
                       : answer_text(answer, question, *scene));
  return kOk;
}

}  // namespace sixty::cli
