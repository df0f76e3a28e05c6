#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/explain/answer.hpp"

namespace sixty::cli {
namespace {

using explain::Answer;
using explain::Question;

constexpr const char* kForm = "KIND PART @ TIME, as sixtybeats events lists them";

void check_kind(const Question& q, const PartInstance& part, Diagnostics& mistakes) {
  const std::vector<std::string> kinds = part.kind->declaration.event_kinds();
  if (std::find(kinds.begin(), kinds.end(), q.kind) == kinds.end())
    add_unknown(mistakes, "QUESTION: " + part.name + " has no such kind of event", q.kind, kinds);
}

/// Reads "starts hall_clock @ Mon 10:15:35". Errors: reported.
Question question_of(const std::string& text, const Installation& scene, Diagnostics& mistakes) {
  Question q;
  const std::size_t at = text.find(" @ ");
  const std::size_t space = text.find(' ');
  if (at == std::string::npos || space >= at) {
    add_mistake(mistakes, "QUESTION: this asks about no event", text, kForm,
                "write it like \"starts hall_clock @ Mon 10:15:35\"");
    return q;
  }
  q.kind = text.substr(0, space);
  const std::string part = text.substr(space + 1, at - space - 1);
  std::vector<std::string> names;
  bool found = false;
  for (PartId p = 0; p < scene.parts.size(); ++p) {
    names.push_back(scene.parts[p].name);
    if (scene.parts[p].name != part) continue;
    q.part = p;
    found = true;
  }
  if (found) {
    check_kind(q, scene.parts[q.part], mistakes);
  } else {
    add_unknown(mistakes, "QUESTION: the scene has no part of this name", part, names);
  }
  q.at = time_of("QUESTION", text.substr(at + 3), clock_of(scene), 0, mistakes).value_or(0);
  return q;
}

std::string answer_text(const Answer& answer, const Question& q, const Installation& scene) {
  const std::string what = fmt::format("{} {}", q.kind, part_name(scene, q.part));
  const std::string when = format_weekday_time(clock_of(scene), answer.at, 3);
  switch (answer.kind) {
    case Answer::Kind::kHappened:
      return fmt::format("{} happened at {}, because\n", what, when) + links_text(answer.links);
    case Answer::Kind::kDidNot:
      return fmt::format("{} did not happen; a sound installation has it at {}.\n", what, when) +
             links_text(answer.links);
    default:
      return fmt::format(
          "{} neither happened within half a minute of then, nor would it in a sound "
          "installation.\n",
          what);
  }
}

std::string answer_json(const Answer& answer, const Question& q, const Installation& scene) {
  const bool none = answer.kind == Answer::Kind::kNeverExpected;
  nlohmann::ordered_json whole;
  whole["format"] = "sixtybeats-why/1";
  whole["scene"] = scene.name;
  whole["kind"] = q.kind;
  whole["part"] = part_name(scene, q.part);
  whole["happened"] = answer.kind == Answer::Kind::kHappened;
  whole["expected"] = !none;
  whole["at_s"] = nullptr;
  if (!none) whole["at_s"] = to_seconds(answer.at);
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
  if (!mistakes.empty()) return refuse(mistakes);
  Session looked_at(scene), twin(sound);
  const Answer answer = explain::answer_to(question, looked_at, twin);
  print(arguments.json ? answer_json(answer, question, *scene)
                       : answer_text(answer, question, *scene));
  return kOk;
}

}  // namespace sixty::cli
