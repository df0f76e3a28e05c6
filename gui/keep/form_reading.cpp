#include "gui/keep/form_reading.hpp"

#include <utility>

#include "sim/base/text.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kNumberHere = "<<number>>";
constexpr const char* kNotOfForm =
    "open a scene that this form has made, or make a new one with it";

const YamlNode* item_with(const YamlNode& list, const std::string& piece) {
  const std::size_t equals = piece.find('=');
  if (equals == std::string::npos) return nullptr;
  for (const YamlNode& item : list.items) {
    const YamlNode* value = item.find(piece.substr(0, equals));
    if (value != nullptr && value->scalar == piece.substr(equals + 1)) return &item;
  }
  return nullptr;
}

std::string joined(const YamlNode& node) {
  if (node.kind != YamlNode::kList) return node.scalar;
  std::string text;
  for (const YamlNode& item : node.items) text += (text.empty() ? "" : ", ") + item.scalar;
  return text;
}

class FilledReader {
 public:
  FilledReader(const YamlNode& scene, const std::string& path, Mistakes& mistakes)
      : scene_(scene), reader_(path, mistakes) {}

  struct Stand {
    const YamlNode* node = nullptr;
    std::string key;
    std::size_t number = 1;
  };

  FormEntry read(const FormGroup& group, const Stand& stand) {
    FormEntry entry;
    for (const FormField& field : group.fields) {
      if (Form::asked(field, entry)) entry.fields[field.decl.name] = read_field(field, stand);
    }
    for (const FormGroup& inner : group.groups) {
      std::vector<FormEntry>& entries = entry.groups[inner.name];
      for (const Stand& one : stands(inner, stand)) {
        if (entries.size() < inner.most && is_of_form(inner, one))
          entries.push_back(read(inner, one));
      }
    }
    return entry;
  }

 private:
  /// Among items of a list there may be some that were written by hand in another way; those are
  /// no entries of the form.
  bool is_of_form(const FormGroup& group, const Stand& stand) const {
    if (!takes_all(group)) return true;
    for (const FormField& field : group.fields) {
      const bool needed = field.kind == FormField::Kind::kParam && field.when_field.empty();
      if (needed && field.at != "@key" && walk(field.at, stand) == nullptr) return false;
    }
    return true;
  }

  static bool takes_all(const FormGroup& group) {
    return group.at.size() >= 2 && group.at.substr(group.at.size() - 2) == ".*";
  }

  /// nullptr if there is nothing there.
  const YamlNode* walk(std::string way, const Stand& stand) const {
    if (const std::size_t at = way.find(kNumberHere); at != std::string::npos)
      way.replace(at, std::string(kNumberHere).size(), std::to_string(stand.number));
    const bool from_root = !way.empty() && way[0] == '/';
    const YamlNode* node = from_root ? &scene_ : stand.node;
    for (const std::string& piece : pieces_of(from_root ? way.substr(1) : way, '.')) {
      if (node == nullptr) return nullptr;
      node = node->kind == YamlNode::kList ? item_with(*node, piece) : node->find(piece);
    }
    return node;
  }

  std::string read_field(const FormField& field, const Stand& stand) {
    if (field.at == "@key") return stand.key;
    const YamlNode* node = walk(field.at, stand);
    if (node != nullptr && (node->kind == YamlNode::kScalar || node->kind == YamlNode::kList))
      return joined(*node);
    // What may be empty may be left out.
    if (field.kind == FormField::Kind::kOneOf || field.kind == FormField::Kind::kTimes) return "";
    // One says it; a scene that somebody else has made lacks most.
    if (stand.node != nullptr && !std::exchange(missed_, true))
      reader_.add(*stand.node, field.label, "the form does not find this in the scene", field.at,
                  kNotOfForm);
    return field.standard;
  }

  std::vector<Stand> stands(const FormGroup& group, const Stand& around) const {
    std::vector<Stand> found;
    if (takes_all(group)) {
      const YamlNode* all = walk(group.at.substr(0, group.at.size() - 2), around);
      if (all == nullptr) return found;
      for (const auto& [key, value] : all->entries)
        found.push_back({&value, key.scalar, found.size() + 1});
      for (const YamlNode& item : all->items) found.push_back({&item, "", found.size() + 1});
      return found;
    }
    Stand next = around;
    for (next.number = 1; const YamlNode* node = walk(group.at, next); ++next.number)
      found.push_back({node, "", next.number});
    return found;
  }

  const YamlNode& scene_;
  TreeReader reader_;
  bool missed_ = false;
};

}  // namespace

FormEntry read_filled(const YamlNode& scene, const std::string& path, const FormGroup& whole,
                      Mistakes& mistakes) {
  return FilledReader(scene, path, mistakes).read(whole, {&scene, "", 1});
}

}  // namespace sixty::gui
