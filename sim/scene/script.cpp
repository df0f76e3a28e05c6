#include "sim/scene/script.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr const char* kActionForm = "part.command, or part.command and a quantity";
const Place kDo{"", 0, 0, "--do"};

bool is_command(std::string_view word) {
  const std::size_t dot = word.find('.');
  return dot != std::string_view::npos && is_name(word.substr(0, dot)) &&
         is_name(word.substr(dot + 1));
}

bool take_time(const Draft& draft, const Written& written, Action& action, Mistakes& mistakes) {
  // Without a start only durations can be told; the missing start has been reported.
  if (!draft.start_known) return false;
  const std::optional<SimTime> at = read_time(written.text, draft.clock, 0, written, mistakes);
  if (at) action.at = *at;
  return at.has_value();
}

bool read_value(const CommandDecl& command, const Written& written, const std::string& text,
                Action& action, Mistakes& mistakes) {
  const std::string quoted = "\"" + command.name + "\"";
  if (!command.argument) {
    if (text.empty()) return true;
    mistakes.add(written.place, {labelled(written, quoted + " takes no quantity"), text,
                                 "the command alone", "leave the quantity out"});
    return false;
  }
  if (text.empty()) {
    mistakes.add(written.place, {labelled(written, quoted + " needs a quantity"), "",
                                 expectation(*command.argument), "write it behind the command"});
    return false;
  }
  const Written argument{labelled(written, command.name), text, written.place};
  const std::optional<Value> value = check_text(*command.argument, argument, mistakes);
  if (value) action.value = value->number;
  return value.has_value();
}

bool read_command(const Draft& draft, const Written& written, Action& action, Mistakes& mistakes) {
  action.text = trimmed(written.text);
  const std::size_t space = std::min(action.text.find(' '), action.text.size());
  const Written target{written.label, action.text.substr(0, space), written.place};
  Reference reference;
  if (!split_reference(target, kActionForm, reference, mistakes)) return false;
  const DraftPart* part = find_part(draft, reference.part, target, mistakes);
  if (part == nullptr) return false;
  const std::vector<CommandDecl>& commands = part->kind->declaration.commands;
  action.part = draft.by_name.at(reference.part);
  action.command = index_of(commands, reference.item);
  if (action.command == commands.size()) {
    mistakes.add_unknown(written.place, titled(*part), "command", reference.item,
                         names_of(commands));
    return false;
  }
  return read_value(commands[action.command], written, trimmed(action.text.substr(space)), action,
                    mistakes);
}

}  // namespace

std::optional<SimTime> read_time(const std::string& text, const CivilClock& clock, SimTime from,
                                 const Written& written, Mistakes& mistakes) {
  Diagnostic mistake;
  const std::optional<SimTime> at = parse_time(text, clock, from, mistake);
  if (!at) {
    mistakes.add(written.place,
                 {labelled(written, mistake.what), mistake.found, mistake.expected, mistake.mend});
  }
  return at;
}

bool split_action(const std::string& text, DraftAction& action, Mistakes& mistakes) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    if (begin > 0 && is_command(std::string_view(text).substr(begin, end - begin))) {
      action.time = {"", trimmed(text.substr(0, begin)), kDo};
      action.action = {"", text.substr(begin), kDo};
      return true;
    }
    begin = end + 1;
  }
  mistakes.add(kDo, {"a time and a command belong here", text, "TIME part.command [QUANTITY]",
                     "write it as in \"Mon 08:15 part.command\""});
  return false;
}

std::vector<Action> read_actions(const Draft& draft, Mistakes& mistakes) {
  std::vector<Action> actions;
  for (const DraftAction& written : draft.script) {
    Action action;
    action.added = written.action.place.file.empty();
    const bool time = take_time(draft, written.time, action, mistakes);
    const bool command = read_command(draft, written.action, action, mistakes);
    if (time && command) actions.push_back(std::move(action));
  }
  std::stable_sort(actions.begin(), actions.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  return actions;
}

}  // namespace sixty
