#include "sim/part/declaration.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty {
namespace {

ParamDecl plain(std::string name, ParamKind kind, std::string help) {
  ParamDecl p;
  p.name = std::move(name);
  p.kind = kind;
  p.help = std::move(help);
  return p;
}

}  // namespace

ParamDecl& Declaration::quantity(std::string name, std::string unit, double least, double most,
                                 std::string help_text) {
  params.push_back(
      quantity_field(std::move(name), std::move(unit), least, most, std::move(help_text)));
  return params.back();
}

ParamDecl& Declaration::quantity(std::string name, std::string unit, double standard, double least,
                                 double most, std::string help_text, std::string source) {
  ParamDecl& p = quantity(std::move(name), std::move(unit), least, most, std::move(help_text));
  p.required = false;
  p.standard.number = standard;
  p.source = std::move(source);
  return p;
}

ParamDecl& Declaration::count(std::string name, double standard, double least, double most,
                              std::string help_text) {
  ParamDecl& p = quantity(std::move(name), "1", standard, least, most, std::move(help_text));
  p.kind = ParamKind::kCount;
  return p;
}

ParamDecl& Declaration::flag(std::string name, bool standard, std::string help_text) {
  params.push_back(plain(std::move(name), ParamKind::kFlag, std::move(help_text)));
  params.back().standard.number = standard ? 1 : 0;
  return params.back();
}

ParamDecl& Declaration::choice(std::string name, std::vector<std::string> choices,
                               std::string help_text) {
  params.push_back(plain(std::move(name), ParamKind::kChoice, std::move(help_text)));
  params.back().choices = std::move(choices);
  return params.back();
}

ParamDecl& Declaration::text(std::string name, std::string standard, std::string help_text) {
  params.push_back(plain(std::move(name), ParamKind::kText, std::move(help_text)));
  params.back().standard.text = std::move(standard);
  return params.back();
}

ParamDecl& Declaration::texts(std::string name, std::string help_text) {
  params.push_back(plain(std::move(name), ParamKind::kTexts, std::move(help_text)));
  return params.back();
}

ParamDecl& Declaration::records(std::string name, std::vector<ParamDecl> fields,
                                std::string help_text) {
  params.push_back(plain(std::move(name), ParamKind::kRecords, std::move(help_text)));
  params.back().fields = std::move(fields);
  return params.back();
}

void Declaration::terminal(std::string name, std::string help_text) {
  terminals.push_back({std::move(name), std::move(help_text), ""});
}
void Declaration::input(std::string name, std::string help_text) {
  inputs.push_back({std::move(name), std::move(help_text), ""});
}
void Declaration::output(std::string name, std::string help_text) {
  outputs.push_back({std::move(name), std::move(help_text), ""});
}
void Declaration::command(std::string name, std::string help_text) {
  commands.push_back({std::move(name), std::move(help_text), std::nullopt, "", ""});
}
CommandDecl& Declaration::command(std::string name, std::string help_text, ParamDecl argument) {
  commands.push_back({std::move(name), std::move(help_text), std::move(argument), "", ""});
  return commands.back();
}
NamedDecl& Declaration::reading(std::string name, std::string unit, std::string help_text,
                                Lane lane) {
  readings.push_back({std::move(name), std::move(help_text), std::move(unit), lane, false});
  return readings.back();
}
void Declaration::sum(std::string name, std::string unit, std::string help_text, Lane lane) {
  readings.push_back({std::move(name), std::move(help_text), std::move(unit), lane, true});
}
void Declaration::swing(std::string name, std::string unit, std::string help_text) {
  readings.push_back(
      {std::move(name), std::move(help_text), std::move(unit), Lane::kNone, false, true});
}
void Declaration::event(std::uint16_t kind, std::string name, std::string help_text) {
  events.push_back({kind, std::move(name), std::move(help_text)});
}
void Declaration::step(std::uint16_t kind, std::string name, std::string help_text) {
  events.push_back({kind, std::move(name), std::move(help_text), true, true});
}
void Declaration::motion(std::uint16_t kind, std::string name, std::string help_text) {
  events.push_back({kind, std::move(name), std::move(help_text), false, true});
}

std::vector<std::string> Declaration::event_kinds() const {
  std::vector<std::string> kinds;
  for (const EventDecl& e : events) kinds.push_back(e.name);
  for (const NamedDecl& input : inputs) kinds.push_back(input.name);
  for (const CommandDecl& command : commands) kinds.push_back(command.name);
  kinds.emplace_back("ride_makes");
  kinds.emplace_back("ride_breaks");
  return kinds;
}

void Declaration::called(std::string word, std::string kind) {
  called_kinds.emplace_back(std::move(word), std::move(kind));
}

bool Declaration::is_step(std::uint16_t kind) const {
  return std::any_of(events.begin(), events.end(),
                     [kind](const EventDecl& e) { return e.kind == kind && e.step; });
}

std::string Declaration::meaning_of(const std::string& kind) const {
  for (const EventDecl& e : events) {
    if (e.name == kind) return tr(e.help);
  }
  for (const NamedDecl& input : inputs) {
    if (input.name == kind) return say("it gets the signal {}", tr(words_of_key(input.name)));
  }
  for (const CommandDecl& command : commands) {
    if (command.name == kind) return say("a hand {}", tr(command.help));
  }
  if (kind == "ride_makes") return tr("what it rides on has come round to where it makes");
  if (kind == "ride_breaks") return tr("what it rides on has come round to where it breaks");
  return kind;
}

ParamDecl in_steps_of(double step, ParamDecl quantity) {
  quantity.step = step;
  return quantity;
}

ParamDecl quantity_field(std::string name, std::string unit, double least, double most,
                         std::string help, bool required) {
  ParamDecl p = plain(std::move(name), ParamKind::kQuantity, std::move(help));
  p.unit = std::move(unit);
  p.least = least;
  p.most = most;
  p.required = required;
  return p;
}

ParamDecl dial_time_field(std::string name) {
  constexpr double kMinute_s = 60, kHalfDay_s = 43200;
  ParamDecl p = in_steps_of(kMinute_s, quantity_field(std::move(name), "s", 0, kHalfDay_s,
                                                      "from twelve o'clock, whole minutes"));
  p.told = Told::kDial;
  return p;
}

ParamDecl count_field(std::string name, double least, double most, std::string help,
                      bool required) {
  ParamDecl p = quantity_field(std::move(name), "1", least, most, std::move(help), required);
  p.kind = ParamKind::kCount;
  return p;
}

ParamDecl text_field(std::string name, std::string help, bool required) {
  ParamDecl p = plain(std::move(name), ParamKind::kText, std::move(help));
  p.required = required;
  return p;
}

ParamDecl texts_field(std::string name, std::string help, bool required) {
  ParamDecl p = plain(std::move(name), ParamKind::kTexts, std::move(help));
  p.required = required;
  return p;
}

ParamDecl chosen_times_field(std::string name) {
  ParamDecl times = texts_field(std::move(name), "times of day, \"08:05\"");
  times.chosen_times = true;
  return times;
}

}  // namespace sixty
