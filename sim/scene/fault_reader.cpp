// The faults of a part type, from the file beside it.
#include <algorithm>
#include <array>
#include <limits>

#include "sim/scene/fault.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

const std::vector<std::string> kKeys = {"fault",     "number",   "also",     "title",   "how_often",
                                        "typical",   "seen",     "check",    "remedy",  "caution",
                                        "source",    "course",   "where",    "changes", "acts",
                                        "undone_by", "cured_by", "eased_by", "comes_of"};

constexpr double kAnySize = std::numeric_limits<double>::max();

/// What a change's two ends are declared as.
ParamDecl end_decl(const ParamDecl& decl, FaultChange::Form form) {
  if (form == FaultChange::Form::kFactor) return quantity_field(decl.name, "1", 0, 1e9, "");
  if (form == FaultChange::Form::kValue) return decl;
  const bool counted = decl.kind == ParamKind::kCount;
  return quantity_field(decl.name,
                        counted            ? "1"
                        : decl.unit == "K" ? "delta_K"
                                           : decl.unit,
                        -kAnySize, kAnySize, "");
}

class FaultReader {
 public:
  FaultReader(const YamlNode& node, const Registry::Entry& kind, TreeReader& reader)
      : node_(node), declaration_(kind.declaration), reader_(reader) {
    fault_.kind = &kind;
  }

  std::shared_ptr<const Fault> read() {
    if (!reader_.is_map(node_, "entries", "{fault: name, number: F99, ...}")) return nullptr;
    fault_.name = text("fault", true);
    label_ = fault_.name;
    reader_.check_keys(node_, label_, kKeys);
    fault_.number = text("number", true);
    fault_.also = reader_.texts(node_, "also", label_);
    fault_.title = text("title", true);
    fault_.seen = text("seen", true);
    fault_.check = text("check", true);
    fault_.remedy = text("remedy", true);
    fault_.caution = text("caution", false);
    fault_.source = text("source", true);
    read_how_often();
    read_comes_of();
    if (const YamlNode* typical = node_.find("typical")) {
      const auto value = check_value(quantity_field("typical", "1", 0.01, 1, ""), *typical,
                                     label_ + ".typical", reader_);
      if (value) fault_.typical = value->number;
    }
    read_course();
    read_where();
    read_changes();
    fault_.acts = acts("acts");
    fault_.undone_by = acts("undone_by");
    fault_.cured_by = commands("cured_by");
    fault_.eased_by = commands("eased_by");
    if (fault_.changes.empty() && fault_.acts.empty()) {
      reader_.add(node_, label_, "a fault that changes nothing", "changes or acts",
                  "say what becomes of the part's values");
    }
    return std::make_shared<const Fault>(std::move(fault_));
  }

 private:
  std::string text(const char* key, bool needed) {
    return reader_.text(node_, key, label_, needed);
  }

  void read_how_often() {
    constexpr std::array kAll{HowOften::kRare, HowOften::kOccasional, HowOften::kFrequent};
    std::vector<std::string> words;
    for (const HowOften one : kAll) words.emplace_back(how_often_text(one));
    if (text("how_often", true).empty()) return;
    if (const auto which = reader_.word_of(node_, "how_often", label_, words))
      fault_.how_often = kAll[*which];
  }

  void read_comes_of() {
    const YamlNode* list = node_.find("comes_of");
    const std::string label = label_ + ".comes_of";
    if (list == nullptr || !reader_.is_list(*list, label, "[wear, dirt]")) return;
    for (const YamlNode& node : list->items) {
      if (!reader_.is_scalar(node, label, "a cause")) continue;
      const auto& words = cause_words();
      const auto found = std::find(words.begin(), words.end(), node.scalar);
      if (found == words.end())
        reader_.mistakes().add_unknown(reader_.place(node), label, "cause", node.scalar, words);
      else
        fault_.comes_of.push_back(static_cast<Cause>(found - words.begin()));
    }
  }

  void read_course() {
    const YamlNode* node = node_.find("course");
    if (node == nullptr || !reader_.is_scalar(*node, label_ + ".course", "a course")) return;
    Diagnostic mistake;
    if (const auto course = parse_course(node->scalar, mistake)) {
      fault_.course = *course;
    } else {
      reader_.add(*node, label_ + ".course", mistake.what, mistake.expected, mistake.mend);
    }
  }

  void read_where() {
    const YamlNode* map = node_.find("where");
    const std::string label = label_ + ".where";
    if (map == nullptr || !reader_.is_map(*map, label, "{value: what it must be}")) return;
    reader_.check_keys(*map, label, names_of(declaration_.params));
    for (const auto& [key, value] : map->entries) {
      const std::size_t param = index_of(declaration_.params, key.scalar);
      if (param == declaration_.params.size()) continue;
      const auto needed = check_value(declaration_.params[param], value, label, reader_);
      if (needed) fault_.where.push_back({param, *needed});
    }
  }

  void read_changes() {
    const YamlNode* list = node_.find("changes");
    if (list == nullptr || !reader_.is_list(*list, label_ + ".changes", "[{value: ..., to: ...}]"))
      return;
    for (const YamlNode& item : list->items) read_change(item);
  }

  void read_change(const YamlNode& node) {
    const std::string label = label_ + ".changes";
    if (!reader_.is_map(node, label, "{value: ..., mild: ..., severe: ...}")) return;
    reader_.check_keys(node, label, {"value", "to", "mild", "severe", "as", "by"});
    const YamlNode* name = reader_.required(node, node, "value", label, "a value of the part");
    if (name == nullptr || !reader_.is_scalar(*name, label, "a value of the part")) return;
    FaultChange change;
    change.param = index_of(declaration_.params, name->scalar);
    if (change.param == declaration_.params.size()) {
      reader_.mistakes().add_unknown(reader_.place(*name), label_, "value", name->scalar,
                                     names_of(declaration_.params));
      return;
    }
    change.form = form_of(node, label);
    change.by_ratio = word(node, "by", label) == "ratio";
    const ParamDecl decl = end_decl(declaration_.params[change.param], change.form);
    const bool constant = node.find("to") != nullptr;
    const auto mild = end_of(node, constant ? "to" : "mild", decl, label);
    const auto severe = end_of(node, constant ? "to" : "severe", decl, label);
    if (!mild || !severe) return;
    change.mild = *mild;
    change.severe = *severe;
    fault_.changes.push_back(std::move(change));
  }

  std::string word(const YamlNode& node, const char* key, const std::string& label) {
    const YamlNode* found = node.find(key);
    return found != nullptr && reader_.is_scalar(*found, label, "a word") ? found->scalar : "";
  }

  FaultChange::Form form_of(const YamlNode& node, const std::string& label) {
    const std::string form = word(node, "as", label);
    if (form == "factor") return FaultChange::Form::kFactor;
    if (form == "added") return FaultChange::Form::kAdded;
    if (!form.empty() && form != "value")
      reader_.add(*node.find("as"), label, "no such form", "value, factor or added", "");
    return FaultChange::Form::kValue;
  }

  std::optional<Value> end_of(const YamlNode& node, const char* key, const ParamDecl& decl,
                              const std::string& label) {
    const YamlNode* end = reader_.required(node, node, key, label, expectation(decl));
    if (end == nullptr) return std::nullopt;
    return check_value(decl, *end, label + "." + decl.name, reader_);
  }

  std::vector<FaultAct> acts(const char* key) {
    std::vector<FaultAct> found;
    const YamlNode* list = node_.find(key);
    const std::string label = label_ + "." + key;
    if (list == nullptr || !reader_.is_list(*list, label, "[{command: ...}]")) return found;
    for (const YamlNode& item : list->items) {
      if (!reader_.is_map(item, label, "{command: ...}")) continue;
      reader_.check_keys(item, label,
                         {"command", "mild", "severe", "to", "least_times", "most_times"});
      FaultAct act;
      const YamlNode* name = reader_.required(item, item, "command", label, "a command");
      if (name == nullptr || !command(*name, act.command)) continue;
      read_quantity(item, label, act);
      act.least_times = times(item, "least_times", label);
      act.most_times = std::max(times(item, "most_times", label), act.least_times);
      found.push_back(act);
    }
    return found;
  }

  void read_quantity(const YamlNode& item, const std::string& label, FaultAct& act) {
    const auto& argument = declaration_.commands[act.command].argument;
    if (!argument) return;
    const bool constant = item.find("to") != nullptr;
    const auto mild = end_of(item, constant ? "to" : "mild", *argument, label);
    const auto severe = end_of(item, constant ? "to" : "severe", *argument, label);
    if (mild) act.mild = mild->number;
    if (severe) act.severe = severe->number;
  }

  int times(const YamlNode& item, const char* key, const std::string& label) {
    const YamlNode* node = item.find(key);
    if (node == nullptr) return 1;
    const auto value = check_value(count_field(key, 1, 10'000, ""), *node, label, reader_);
    return value ? static_cast<int>(value->number) : 1;
  }

  bool command(const YamlNode& name, std::size_t& found) {
    if (!reader_.is_scalar(name, label_, "a command")) return false;
    found = index_of(declaration_.commands, name.scalar);
    if (found < declaration_.commands.size()) return true;
    reader_.mistakes().add_unknown(reader_.place(name), label_, "command", name.scalar,
                                   names_of(declaration_.commands));
    return false;
  }

  std::vector<std::size_t> commands(const char* key) {
    std::vector<std::size_t> found;
    const YamlNode* list = node_.find(key);
    if (list == nullptr || !reader_.is_list(*list, label_ + "." + key, "[command]")) return found;
    for (const YamlNode& item : list->items) {
      std::size_t number = 0;
      if (command(item, number)) found.push_back(number);
    }
    return found;
  }

  const YamlNode& node_;
  const Declaration& declaration_;
  TreeReader& reader_;
  std::string label_ = "entries";
  Fault fault_;
};

}  // namespace

std::vector<std::shared_ptr<const Fault>> read_faults(const YamlNode& root, const std::string& file,
                                                      const Registry::Entry& kind,
                                                      Mistakes& mistakes) {
  std::vector<std::shared_ptr<const Fault>> faults;
  TreeReader reader(file, mistakes);
  if (!reader.is_map(root, "", "faults: part type, entries: [...]")) return faults;
  reader.check_keys(root, "a file of faults", {"faults", "entries"});
  const YamlNode* name = reader.required(root, root, "faults", "", "faults: the part type");
  if (name != nullptr && reader.is_scalar(*name, "faults", "a part type") &&
      name->scalar != kind.name)
    reader.add(*name, "faults", "these lie with another part", kind.name, "move them");
  const YamlNode* entries = reader.required(root, root, "entries", "", "entries: [...]");
  if (entries == nullptr || !reader.is_list(*entries, "entries", "[{fault: ...}]")) return faults;
  for (const YamlNode& entry : entries->items) {
    if (auto fault = FaultReader(entry, kind, reader).read()) faults.push_back(std::move(fault));
  }
  return faults;
}

}  // namespace sixty
