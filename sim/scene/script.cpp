#include "sim/scene/script.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/units.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {
namespace {

constexpr const char* kActionForm = "part.command, or part.command and a quantity";

bool is_command(std::string_view word) {
  const std::size_t dot = word.find('.');
  return dot != std::string_view::npos && is_name(word.substr(0, dot)) &&
         is_name(word.substr(dot + 1));
}

std::string trimmed(const std::string& text) {
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string::npos) return "";
  return text.substr(begin, text.find_last_not_of(' ') + 1 - begin);
}

bool read_time(const Draft& draft, const Written& written, Action& action, Mistakes& mistakes) {
  // Without a start only durations can be told; the missing start has been reported.
  if (!draft.start_known) return false;
  std::string error;
  const std::optional<SimTime> at = parse_time(written.text, draft.start, 0, error);
  if (!at) {
    mistakes.add(written.place, {written.label + ": " + error, written.text,
                                 "a time, as in \"0 s\" or \"Mon 08:15\"", "correct the time"});
    return false;
  }
  action.at = *at;
  return true;
}

bool read_value(const NamedDecl& command, const Written& written, const std::string& text,
                Action& action, Mistakes& mistakes) {
  if (command.unit.empty()) {
    if (text.empty()) return true;
    mistakes.add(written.place, {written.label + ": \"" + command.name + "\" takes no quantity",
                                 text, "the command alone", "leave the quantity out"});
    return false;
  }
  Diagnostic mistake;
  const std::optional<double> value = parse_quantity(text, command.unit, mistake);
  if (value) {
    action.value = *value;
    return true;
  }
  const std::string what =
      text.empty() ? "\"" + command.name + "\" needs a quantity" : mistake.what;
  mistakes.add(written.place, {written.label + ": " + what, text, mistake.expected,
                               text.empty() ? "write it behind the command" : mistake.mend});
  return false;
}

bool read_command(const Draft& draft, const Written& written, Action& action, Mistakes& mistakes) {
  action.text = trimmed(written.text);
  const std::size_t space = std::min(action.text.find(' '), action.text.size());
  const Written target{written.label, action.text.substr(0, space), written.place};
  Reference reference;
  if (!split_reference(target, kActionForm, reference, mistakes)) return false;
  const DraftPart* part = find_part(draft, reference.part, target, mistakes);
  if (part == nullptr) return false;
  const std::vector<NamedDecl>& commands = part->kind->declaration.commands;
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

bool split_action(const std::string& text, DraftAction& action, Mistakes& mistakes) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    if (begin > 0 && is_command(std::string_view(text).substr(begin, end - begin))) {
      action.time = {"action", trimmed(text.substr(0, begin)), {}};
      action.action = {"action", text.substr(begin), {}};
      return true;
    }
    begin = end + 1;
  }
  mistakes.add({}, {"action: a time and a command belong here", text,
                    "TIME part.command [QUANTITY]", "write it as in \"Mon 08:15 part.command\""});
  return false;
}

std::vector<Action> read_actions(const Draft& draft, Mistakes& mistakes) {
  std::vector<Action> actions;
  for (const DraftAction& written : draft.script) {
    Action action;
    const bool time = read_time(draft, written.time, action, mistakes);
    const bool command = read_command(draft, written.action, action, mistakes);
    if (time && command) actions.push_back(std::move(action));
  }
  std::stable_sort(actions.begin(), actions.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  return actions;
}

}  // namespace sixty
