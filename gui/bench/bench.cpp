#include "gui/bench/bench.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace sixty::gui {
namespace {

constexpr std::array kSpeeds{0.0005, 0.001, 0.002,  0.005,  0.01,    0.02,    0.05,
                             0.1,    0.2,   0.5,    1.0,    2.0,     5.0,     10.0,
                             60.0,   300.0, 1000.0, 3600.0, 10000.0, 100000.0};
constexpr std::size_t kTrueSpeed = 10;

}  // namespace

Bench::Bench(const Opening& opening)
    : installation_(opening.installation),
      runner_(opening.installation, opening.at, opening.sound, opening.actions, opening.patience_s),
      speed_(kTrueSpeed) {
  select(opening.part);
  if (std::isfinite(opening.patience_s))
    take();
  else
    take_all();
}

void Bench::select(std::optional<PartId> part) {
  look_.selected = part;
  if (part) runner_.watch(*part);
}

void Bench::hide_wrong(bool hides) {
  look_.hides_wrong = hides;
  if (hides) runner_.set_twin(false);
}

void Bench::change_speed(int steps) {
  runner_.set_stretch(false);
  const auto last = static_cast<int>(kSpeeds.size()) - 1;
  speed_ = static_cast<std::size_t>(std::clamp(static_cast<int>(speed_) + steps, 0, last));
  runner_.set_speed(kSpeeds[speed_]);
}

std::optional<double> Bench::severity_of(PartId part, const Fault& fault) const {
  std::optional<double> severity;
  for (const Action& action : *seen_.log) {
    if (action.at > seen_.picture->at) break;
    if (action.fault == nullptr || action.part != part || action.fault->fault->name != fault.name)
      continue;
    severity = action.clears ? std::nullopt : std::optional(action.fault->severity);
  }
  return severity;
}

bool Bench::hands_are_held() {
  refusal_ = hands_held_;
  return !hands_held_.empty();
}

void Bench::act(Action action) {
  if (!hands_are_held()) runner_.act(std::move(action));
}

void Bench::undo() {
  if (!hands_are_held()) runner_.undo();
}

void Bench::put_fault(PartId part, std::shared_ptr<const Fault> fault, double severity) {
  Injection injection;
  injection.course = fault->course;
  injection.severity = severity;
  act_on_fault(part, std::move(fault), std::move(injection), false);
}

void Bench::clear_fault(PartId part, std::shared_ptr<const Fault> fault) {
  act_on_fault(part, std::move(fault), {}, true);
}

void Bench::act_on_fault(PartId part, std::shared_ptr<const Fault> fault, Injection injection,
                         bool clears) {
  Action action;
  action.part = part;
  action.text = fault->name;
  action.clears = clears;
  injection.part = part;
  injection.fault = std::move(fault);
  action.fault = std::make_shared<const Injection>(std::move(injection));
  act(std::move(action));
}

void Bench::command(PartId part, std::size_t command, double value) {
  const PartInstance& instance = installation_->parts[part];
  Action action;
  action.part = part;
  action.command = command;
  action.value = value;
  action.text = instance.name + "." + instance.kind->declaration.commands[command].name;
  act(std::move(action));
}

void Bench::command(PartId part, const std::string& name, double value) {
  const auto& commands = installation_->parts[part].kind->declaration.commands;
  const auto it = std::find_if(commands.begin(), commands.end(),
                               [&](const CommandDecl& c) { return c.name == name; });
  if (it == commands.end()) return;
  command(part, static_cast<std::size_t>(it - commands.begin()), value);
}

}  // namespace sixty::gui
