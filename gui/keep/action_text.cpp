#include "gui/keep/action_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/blueprint.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/injection.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kMeterForm =
    "PART.TERMINAL to PART.TERMINAL, RESISTANCE; or PART.TERMINAL in series, RESISTANCE";

/// A number that is read back to the last bit.
std::string exact_text(double number, const ParamDecl& decl) {
  const bool bare = decl.kind != ParamKind::kQuantity || decl.unit == "1" || decl.unit.empty();
  const std::string unit = decl.unit == "delta_K" ? "K" : decl.unit;
  return bare ? format_exact(number) : format_exact(number) + " " + unit;
}

std::string hand_text(const Action& action, const PartInstance& part) {
  const CommandDecl& command = part.kind->declaration.commands[action.command];
  const std::string text = part.name + "." + command.name;
  return command.argument ? text + " " + exact_text(action.value, *command.argument) : text;
}

std::string fault_text(const Action& action, const PartInstance& part) {
  const Injection& put = *action.fault;
  if (action.clears) return fmt::format("clear {}@{}", put.fault->name, part.name);
  return fmt::format("put {}@{}:{}, course={}", put.fault->name, part.name,
                     format_exact(put.severity), course_text(put.course));
}

std::string meter_text(const Action& action, const Installation& installation) {
  const Hookup& meter = *action.hookup;
  const auto named = [&](const Terminal& t) {
    return installation.parts[t.part].name + "." + t.name;
  };
  return fmt::format("{} {} {}, {} ohm", action.clears ? "take off" : "lay on", named(meter.a),
                     meter.in_series ? "in series" : "to " + named(meter.b),
                     format_exact(meter.resistance_ohm));
}

/// What follows a word, if the text begins with it.
std::optional<std::string> behind(const std::string& word, const std::string& text) {
  if (text.compare(0, word.size() + 1, word + " ") != 0) return std::nullopt;
  return trimmed(text.substr(word.size() + 1));
}

}  // namespace

std::string action_text(const Action& action, const Installation& installation) {
  if (action.hookup != nullptr) return meter_text(action, installation);
  const PartInstance& part = installation.parts[action.part];
  return action.fault != nullptr ? fault_text(action, part) : hand_text(action, part);
}

ActionReader::ActionReader(const Installation& installation, const Registry& registry,
                           Mistakes& mistakes)
    : installation_(installation),
      mistakes_(mistakes),
      faults_(registry, mistakes),
      draft_(installation.blueprint->draft) {}

std::optional<Action> ActionReader::read(const Written& time, const Written& action) {
  const auto with = [&](const std::string& text) {
    Written rest = action;
    rest.text = text;
    return rest;
  };
  if (const auto rest = behind("put", action.text)) return read_fault(time, with(*rest), false);
  if (const auto rest = behind("clear", action.text)) return read_fault(time, with(*rest), true);
  if (const auto rest = behind("lay on", action.text)) return read_meter(time, with(*rest), false);
  if (const auto rest = behind("take off", action.text)) return read_meter(time, with(*rest), true);
  return read_hand(time, action);
}

std::nullopt_t ActionReader::refuse(const Written& written, const std::string& what,
                                    const std::string& expected, const std::string& mend) {
  mistakes_.add(written.place, {labelled(written, what), written.text, expected, mend});
  return std::nullopt;
}

std::optional<Action> ActionReader::read_hand(const Written& time, const Written& action) {
  draft_.script = {{time, action}};
  const std::vector<Action> read = read_actions(draft_, mistakes_);
  if (read.empty()) return std::nullopt;
  return read.front();
}

std::optional<Action> ActionReader::read_fault(const Written& time, const Written& action,
                                               bool clears) {
  const std::optional<SimTime> at = read_time(time.text, installation_.clock, 0, time, mistakes_);
  const std::vector<Action> read = sixty::read_fault(action, draft_, faults_, mistakes_);
  if (!at || read.empty()) return std::nullopt;
  Action fault = read.front();
  if (!fits(*fault.fault->fault, installation_.parts[fault.part]))
    return refuse(action, "this fault would change nothing there", "a part that has what fails",
                  "leave the action out");
  fault.at = *at;
  fault.clears = clears;
  return fault;
}

std::optional<Terminal> ActionReader::read_terminal(const std::string& text, const Written& whole) {
  Written written = whole;
  written.text = trimmed(text);
  Reference named;
  if (!split_reference(written, "part.terminal", named, mistakes_)) return std::nullopt;
  if (find_part(draft_, named.part, written, mistakes_) == nullptr) return std::nullopt;
  const Terminal terminal{draft_.by_name.at(named.part), named.item};
  const PartInstance& part = installation_.parts[terminal.part];
  if (part.nodes.count(terminal.name) != 0) return terminal;
  mistakes_.add_unknown(written.place, part.name, "terminal", named.item,
                        names_of(part.kind->declaration.terminals));
  return std::nullopt;
}

std::optional<Action> ActionReader::read_meter(const Written& time, const Written& action,
                                               bool clears) {
  const std::optional<SimTime> at = read_time(time.text, installation_.clock, 0, time, mistakes_);
  const std::size_t comma = action.text.rfind(',');
  const std::string tips = trimmed(action.text.substr(0, comma));
  const std::size_t to = tips.find(" to ");
  const std::size_t series = tips.rfind(" in series");
  if (comma == std::string::npos || (to == std::string::npos && series == std::string::npos))
    return refuse(action, "this says nothing of a meter", kMeterForm,
                  "write it like this, or leave the action out");
  Hookup meter;
  meter.in_series = to == std::string::npos;
  const auto a = read_terminal(tips.substr(0, meter.in_series ? series : to), action);
  const auto b = meter.in_series ? a : read_terminal(tips.substr(to + 4), action);
  const ParamDecl ohms = quantity_field("resistance", "ohm", 1e-6, 1e12, "");
  const auto resistance = check_text(
      ohms, {action.label, trimmed(action.text.substr(comma + 1)), action.place}, mistakes_);
  if (!at || !a || !b || !resistance) return std::nullopt;
  meter.a = *a;
  if (!meter.in_series) meter.b = *b;
  meter.resistance_ohm = resistance->number;
  const std::string key = key_of(meter);
  if (!clears) laid_on_[key] = std::make_shared<const Hookup>(meter);
  if (laid_on_.count(key) == 0)
    return refuse(action, "no such meter has been laid on before", "one that is there",
                  "leave the action out");
  Action laid;
  laid.at = *at;
  laid.part = meter.a.part;
  laid.hookup = laid_on_.at(key);
  laid.clears = clears;
  laid.text = action.text;
  return laid;
}

}  // namespace sixty::gui
