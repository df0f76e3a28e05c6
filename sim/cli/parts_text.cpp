#include <fmt/format.h>

#include <algorithm>

#include "sim/cli/layout.hpp"
#include "sim/cli/param_text.hpp"
#include "sim/cli/parts_view.hpp"
#include "sim/cli/sheet_view.hpp"

namespace sixty::cli {
namespace {

// "name (unit)      what it is", the second column from `column` on.
std::string entry_text(const std::string& name, const std::string& help, std::size_t column) {
  std::string text = wrapped(help, column, column);
  const std::string head = "  " + name;
  if (shown_width(head) + 2 > column) return head + "\n" + text;
  return padded(head, column) + text.substr(column);
}

std::string with_unit(const std::string& name, const std::string& unit) {
  return unit.empty() || unit == "1" ? name : name + " (" + unit + ")";
}

constexpr std::size_t kHelpColumn = 26;

std::string named_text(const std::string& heading, const std::vector<NamedDecl>& declared) {
  if (declared.empty()) return "";
  std::string text = "\n" + heading + "\n";
  for (const NamedDecl& d : declared)
    text += entry_text(with_unit(d.name, d.unit), d.help, kHelpColumn);
  return text;
}

std::string commands_text(const std::vector<CommandDecl>& declared) {
  if (declared.empty()) return "";
  std::string text = "\nCommands\n";
  for (const CommandDecl& d : declared) {
    const std::string argument = d.argument ? "; takes " + bounds_text(*d.argument) : "";
    text += entry_text(d.name, d.help + argument, kHelpColumn);
  }
  return text;
}

std::string links_text(const std::string& heading, const std::vector<LinkDecl>& declared) {
  if (declared.empty()) return "";
  std::string text = "\n" + heading + "\n";
  for (const LinkDecl& d : declared) {
    text +=
        entry_text(d.name, fmt::format("{} [{}{}]", d.help, d.kind, d.optional ? ", optional" : ""),
                   kHelpColumn);
  }
  return text;
}

std::string events_text(const std::vector<EventDecl>& declared) {
  if (declared.empty()) return "";
  std::string text = "\nEvents\n";
  for (const EventDecl& d : declared) text += entry_text(d.name, d.help, kHelpColumn);
  return text;
}

// "quantity, 1 ohm to 100 kohm; 20 ohm if not given (common practice, no source)".
std::string facts_text(const ParamDecl& param) {
  std::string text = kind_text(param.kind);
  const std::string bounds = bounds_text(param);
  if (!bounds.empty()) text += ", " + bounds;
  const std::string standard = default_text(param);
  if (param.required) text += "; must be given";
  if (!param.required && standard.empty()) text += "; may be left out";
  if (!standard.empty()) text += "; " + standard + " if not given";
  if (!standard.empty() && !param.source.empty()) text += " (" + param.source + ")";
  return text;
}

std::string param_text(const ParamDecl& param, std::size_t indent) {
  std::string text = std::string(indent, ' ') + param.name + "\n";
  text += wrapped(param.help, indent + 4, indent + 4);
  text += wrapped(facts_text(param), indent + 4, indent + 6);
  for (const ParamDecl& field : param.fields) text += param_text(field, indent + 4);
  return text;
}

std::string params_text(const std::vector<ParamDecl>& params) {
  if (params.empty()) return "";
  std::string text = "\nValues\n";
  for (const ParamDecl& param : params) text += param_text(param, 2);
  return text;
}

// Sources are numbered in the order in which they are first named.
class SourceList {
 public:
  std::string mark(const std::string& source) {
    if (source.empty()) return "";
    const auto found = std::find(sources_.begin(), sources_.end(), source);
    const auto number = static_cast<std::size_t>(found - sources_.begin()) + 1;
    if (found == sources_.end()) sources_.push_back(source);
    return fmt::format("[{}]", number);
  }
  std::string text() const {
    std::string text;
    for (std::size_t i = 0; i < sources_.size(); ++i) {
      text += wrapped(fmt::format("[{}] {}", i + 1, sources_[i]), 4, 8);
    }
    return text;
  }

 private:
  std::vector<std::string> sources_;
};

std::string sheet_text(const SheetText& written) {
  const SheetView sheet = view_of(written);
  TextTable table({{"value"}, {"is"}, {"range"}, {"tolerance"}, {"source"}});
  SourceList sources;
  for (const SheetLine& line : sheet.values) {
    const std::string range = line.range.size() == 2 ? line.range[0] + " to " + line.range[1] : "";
    table.add({line.name, line.value, range, line.tolerance, sources.mark(line.source)});
  }
  return wrapped(sheet.name + ": " + sheet.title, 2, 4) + table.text(4) + sources.text();
}

std::string sheets_text(const std::vector<SheetText>& sheets) {
  if (sheets.empty()) return "";
  std::string text = "\nData sheets\n";
  for (const SheetText& sheet : sheets) text += sheet_text(sheet) + "\n";
  text.pop_back();
  return text;
}

}  // namespace

std::string parts_list(const Registry& registry) {
  TextTable table({{"part"}, {"sheets", true}, {"what it is"}});
  for (const auto& [name, part] : registry.entries()) {
    table.add({name, std::to_string(part.sheets.size()), part.declaration.title});
  }
  return table.text(0) + "\nsixtybeats parts PART describes one of them in full.\n";
}

std::string commands_list(const std::vector<const Registry::Entry*>& parts) {
  TextTable table({{"part"}, {"command"}, {"takes"}, {"what it does"}});
  for (const Registry::Entry* part : parts) {
    for (const CommandDecl& d : part->declaration.commands) {
      table.add({part->name, d.name, d.argument ? bounds_text(*d.argument) : "", d.help});
    }
  }
  return table.text(0);
}

std::string part_text(const Registry::Entry& part) {
  const Declaration& d = part.declaration;
  std::string text = wrapped(part.name + ": " + d.title, 0, 2) + wrapped(d.help, 2, 2);
  text += params_text(d.params);
  text += named_text("Terminals", d.terminals);
  text += named_text("Inputs", d.inputs) + named_text("Outputs", d.outputs);
  text += links_text("Offers", d.offered) + links_text("Takes", d.taken);
  text += commands_text(d.commands) + named_text("Readings", d.readings);
  return text + events_text(d.events) + sheets_text(part.sheets);
}

}  // namespace sixty::cli
