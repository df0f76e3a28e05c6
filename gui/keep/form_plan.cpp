#include "gui/keep/form_plan.hpp"

#include <cmath>

#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

const std::vector<std::string> kFieldKeys = {"name", "label", "help", "kind",
                                             "unit", "least", "most", "standard",
                                             "at",   "group", "when", "choices"};
const std::vector<std::string> kGroupKeys = {"name", "label", "one",    "help",  "least",
                                             "most", "at",    "fields", "groups"};

/// Reads the maps of a form's file.
class PlanReader {
 public:
  explicit PlanReader(TreeReader& reader) : reader_(reader) {}

  FormGroup whole(const YamlNode& root) {
    FormGroup whole;
    if (!reader_.is_map(root, "", "form: name, title: ..., fields: [...]")) return whole;
    reader_.check_keys(root, "a form", {"form", "title", "help", "fields", "groups"});
    whole.name = text(root, "form", true);
    whole.label = text(root, "title", true);
    whole.help = text(root, "help");
    whole.least = whole.most = 1;
    read_lists(root, whole);
    return whole;
  }

 private:
  std::string text(const YamlNode& map, const char* key, bool required = false) {
    const YamlNode* node = required
                               ? reader_.required(map, map, key, "", std::string(key) + ": a text")
                               : map.find(key);
    return node != nullptr && reader_.is_scalar(*node, key, "a text") ? node->scalar : "";
  }

  void read_lists(const YamlNode& map, FormGroup& into) {
    if (const YamlNode* fields = map.find("fields");
        fields != nullptr && reader_.is_list(*fields, "fields", "[{name: ...}]")) {
      for (const YamlNode& one : fields->items) into.fields.push_back(field(one));
    }
    if (const YamlNode* groups = map.find("groups");
        groups != nullptr && reader_.is_list(*groups, "groups", "[{name: ...}]")) {
      for (const YamlNode& one : groups->items) into.groups.push_back(group(one));
    }
  }

  FormGroup group(const YamlNode& map) {
    FormGroup made;
    if (!reader_.is_map(map, "groups", "{name: ...}")) return made;
    reader_.check_keys(map, "a group", kGroupKeys);
    made.name = text(map, "name", true);
    made.label = text(map, "label", true);
    made.one = text(map, "one", true);
    made.help = text(map, "help");
    made.at = text(map, "at", true);
    made.least = count(map, "least", 0);
    made.most = count(map, "most", 100);
    read_lists(map, made);
    return made;
  }

  std::size_t count(const YamlNode& map, const char* key, std::size_t otherwise) {
    const YamlNode* node = map.find(key);
    if (node == nullptr) return otherwise;
    const auto value = check_value(count_field(key, 0, 1000, ""), *node, key, reader_);
    return value ? static_cast<std::size_t>(value->number) : otherwise;
  }

  FormField field(const YamlNode& map) {
    FormField made;
    if (!reader_.is_map(map, "fields", "{name: ...}")) return made;
    reader_.check_keys(map, "a field", kFieldKeys);
    made.decl.name = text(map, "name", true);
    made.label = text(map, "label", true);
    made.decl.help = text(map, "help");
    made.standard = text(map, "standard");
    made.group = text(map, "group");
    made.at = text(map, "at", true);
    const std::string when = text(map, "when");
    if (const std::size_t is = when.find(" is "); is != std::string::npos) {
      made.when_field = when.substr(0, is);
      made.when_value = when.substr(is + 4);
    }
    read_kind(map, made);
    return made;
  }

  void read_kind(const YamlNode& map, FormField& made) {
    const std::string kind = text(map, "kind", true);
    if (kind == "text") {
      made.decl.kind = ParamKind::kText;
    } else if (kind == "quantity" || kind == "count") {
      made.decl.kind = kind == "count" ? ParamKind::kCount : ParamKind::kQuantity;
      made.decl.unit = kind == "count" ? "1" : text(map, "unit", true);
      made.decl.least = bound(map, "least", made.decl);
      made.decl.most = bound(map, "most", made.decl);
    } else if (kind == "choice") {
      made.decl.kind = ParamKind::kChoice;
      read_choices(map, made);
    } else if (kind == "name" || kind == "one_of" || kind == "times") {
      made.kind = kind == "name"     ? FormField::Kind::kName
                  : kind == "one_of" ? FormField::Kind::kOneOf
                                     : FormField::Kind::kTimes;
      made.decl.kind = ParamKind::kText;
    } else {
      reader_.add(*map.find("kind"), "kind", "there is no such kind of field",
                  "text, quantity, count, choice, name, one_of or times", "choose one of these");
    }
  }

  double bound(const YamlNode& map, const char* key, const ParamDecl& decl) {
    const YamlNode* node = reader_.required(map, map, key, decl.name, std::string(key) + ": 5 m");
    if (node == nullptr) return 0;
    ParamDecl any = decl;
    any.least = -1e300;
    any.most = 1e300;
    const auto value = check_value(any, *node, decl.name + "." + key, reader_);
    return value ? value->number : 0;
  }

  /// choices: {WORD: label}, or {WORD: {label: ..., NAME: number}}
  void read_choices(const YamlNode& map, FormField& made) {
    const YamlNode* choices =
        reader_.required(map, map, "choices", made.decl.name, "choices: {word: label}");
    if (choices == nullptr || !reader_.is_map(*choices, "choices", "{word: label}")) return;
    for (const auto& [key, value] : choices->entries) {
      made.decl.choices.push_back(key.scalar);
      made.labels.push_back(value.kind == YamlNode::kMap ? text(value, "label", true)
                                                         : value.scalar);
      for (const auto& [name, number] : value.entries) {
        if (name.scalar == "label") continue;
        const auto read = check_value(quantity_field(name.scalar, "1", -1e300, 1e300, ""), number,
                                      name.scalar, reader_);
        if (read) made.numbers[key.scalar][name.scalar] = read->number;
      }
    }
    if (made.standard.empty() && !made.decl.choices.empty())
      made.standard = made.decl.choices.front();
  }

  TreeReader& reader_;
};

}  // namespace

FormGroup read_form_plan(const YamlNode& root, TreeReader& reader) {
  return PlanReader(reader).whole(root);
}

}  // namespace sixty::gui
