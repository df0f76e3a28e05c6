#include "sim/cli/faults_view.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "sim/base/units.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/layout.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kFaultColumn = 14;

std::string number_text(const ParamDecl& decl, const FaultChange& change, const Value& end) {
  if (change.form == FaultChange::Form::kFactor) return format_quantity(end.number, "1") + " times";
  if (decl.kind == ParamKind::kQuantity)
    return format_quantity(end.number, decl.unit == "K" && change.form == FaultChange::Form::kAdded
                                           ? "delta_K"
                                           : decl.unit);
  return format_exact(end.number);
}

// "film: 0.2 ohm to 300 ohm", "stuck: open".
std::string change_text(const Fault& fault, const FaultChange& change) {
  const ParamDecl& decl = fault.kind->declaration.params[change.param];
  const bool number = decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount;
  if (!number) {
    const std::string what = change.severe.text.empty() ? "others" : change.severe.text;
    return decl.name + ": " + what;
  }
  const std::string more = change.form == FaultChange::Form::kAdded ? " more" : "";
  const std::string mild = number_text(decl, change, change.mild) + more;
  const std::string severe = number_text(decl, change, change.severe) + more;
  if (mild == severe) return decl.name + ": " + mild;
  return fmt::format("{}: {} to {}", decl.name, mild, severe);
}

std::string act_text(const Fault& fault, const FaultAct& act) {
  const CommandDecl& command = fault.kind->declaration.commands[act.command];
  std::string text = command.name;
  if (command.argument) {
    const std::string& unit = command.argument->unit;
    text += " " + format_quantity(act.mild, unit);
    if (act.mild != act.severe) text += " to " + format_quantity(act.severe, unit);
  }
  if (act.most_times > 1) text += fmt::format(", {} to {} times", act.least_times, act.most_times);
  return text;
}

std::vector<std::string> effects(const Fault& fault) {
  std::vector<std::string> all;
  for (const FaultChange& c : fault.changes) all.push_back(change_text(fault, c));
  for (const FaultAct& a : fault.acts) all.push_back(act_text(fault, a));
  return all;
}

std::vector<std::string> command_names(const Fault& fault, const std::vector<std::size_t>& which) {
  std::vector<std::string> names;
  for (const std::size_t k : which) names.push_back(fault.kind->declaration.commands[k].name);
  return names;
}

std::string entry(const std::string& name, const std::string& text) {
  if (text.empty()) return "";
  return padded("  " + name, kFaultColumn) +
         wrapped(text, kFaultColumn, kFaultColumn).substr(kFaultColumn);
}

std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
  return all;
}

Json fault_json(const FaultLine& line, bool with_parts) {
  const Fault& f = *line.fault;
  Json json{{"number", f.number},
            {"name", f.name},
            {"also", f.also},
            {"part", f.kind->name},
            {"title", f.title},
            {"how_often", how_often_text(f.how_often)},
            {"prior_weight", prior_weight(f.how_often)},
            {"changes", effects(f)},
            {"typical_severity", f.typical},
            {"course", course_text(f.course)},
            {"seen", f.seen},
            {"check", f.check},
            {"remedy", f.remedy},
            {"cured_by", command_names(f, f.cured_by)},
            {"eased_by", command_names(f, f.eased_by)},
            {"caution", f.caution},
            {"source", f.source}};
  if (with_parts) json["parts"] = line.parts;
  return json;
}

}  // namespace

std::string faults_text(const std::vector<FaultLine>& lines, bool with_parts) {
  std::vector<TextTable::Column> columns = {{"no."}, {"fault"}, {"of"}, {"how often"}};
  if (with_parts) columns.push_back({"parts", true});
  columns.push_back({"what it is"});
  TextTable table(std::move(columns));
  for (const FaultLine& line : lines) {
    const Fault& f = *line.fault;
    std::vector<std::string> row = {f.number, f.name, f.kind->name, how_often_text(f.how_often)};
    if (with_parts) row.push_back(std::to_string(line.parts.size()));
    row.push_back(f.title);
    table.add(std::move(row));
  }
  return table.text(0) +
         "\nsixtybeats faults --about FAULT describes one of them in full;\n"
         "sixtybeats run SCENE --fault FAULT@PART:SEVERITY puts it in.\n";
}

std::string fault_text(const FaultLine& line, bool with_parts) {
  const Fault& f = *line.fault;
  std::string text = wrapped(full_name(f) + ": " + f.title, 0, 2);
  text += entry("part", f.kind->name);
  text += entry("also", joined(f.also));
  text += entry("changes", joined(effects(f)));
  text += entry("severity",
                fmt::format("{:.2g} unless another is given; from 0 (mild) to 1", f.typical));
  text += entry("course", course_text(f.course));
  text += entry("seen", f.seen) + entry("check", f.check) + entry("remedy", f.remedy);
  text += entry("cured by", joined(command_names(f, f.cured_by)));
  text += entry("eased by", joined(command_names(f, f.eased_by)));
  text += entry("caution", f.caution) + entry("how often", how_often_text(f.how_often));
  text += entry("source", f.source);
  if (with_parts) text += entry("can strike", line.parts.empty() ? "nothing" : joined(line.parts));
  return text;
}

std::string faults_json(const std::vector<FaultLine>& lines, bool with_parts) {
  Json whole;
  whole["format"] = "sixtybeats-faults/1";
  whole["faults"] = Json::array();
  for (const FaultLine& line : lines) whole["faults"].push_back(fault_json(line, with_parts));
  return whole.dump(2) + "\n";
}

}  // namespace sixty::cli
