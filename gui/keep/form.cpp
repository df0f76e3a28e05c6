#include "gui/keep/form.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "gui/keep/form_files.hpp"
#include "gui/keep/form_plan.hpp"
#include "gui/keep/form_reading.hpp"
#include "gui/keep/form_scene.hpp"
#include "gui/keep/form_scope.hpp"
#include "gui/keep/line_merge.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

bool is_time_of_day(const std::string& text) {
  const auto digit = [&](std::size_t k) { return text[k] >= '0' && text[k] <= '9'; };
  if (text.size() != 5 || text[2] != ':') return false;
  for (const std::size_t k : {0u, 1u, 3u, 4u}) {
    if (!digit(k)) return false;
  }
  return text.substr(0, 2) < "24" && text[3] < '6';
}

/// Looks through all that was filled in.
class FormChecker {
 public:
  FormChecker(const FormGroup& whole, const FormEntry& filled, Diagnostics& diagnostics)
      : scope_(whole, filled), mistakes_(diagnostics) {
    check(whole, filled, "");
  }

 private:
  void check(const FormGroup& group, const FormEntry& entry, const std::string& called) {
    for (const FormField& field : group.fields) {
      if (Form::asked(field, entry)) check_field(field, called);
    }
    for (const FormGroup& inner : group.groups) check_group(inner, entry, called);
  }

  void check_group(const FormGroup& group, const FormEntry& holder, const std::string& called) {
    const auto found = holder.groups.find(group.name);
    const std::size_t count = found == holder.groups.end() ? 0 : found->second.size();
    if (count < group.least || count > group.most)
      refuse(called + group.label, "there are too many or too few", std::to_string(count),
             fmt::format("{} to {}", group.least, group.most), "add some, or take some away");
    std::size_t number = 0;
    for (std::size_t k = 0; k < std::min(count, group.most); ++k) {
      const FormEntry& entry = found->second[k];
      scope_.enter({&group, &entry, ++number});
      check(group, entry, fmt::format("{}{} {}, ", called, group.one, number));
      scope_.leave();
    }
    check_names(group, found == holder.groups.end() ? std::vector<FormEntry>{} : found->second);
  }

  void check_names(const FormGroup& group, const std::vector<FormEntry>& entries) {
    for (const FormField& field : group.fields) {
      if (field.kind != FormField::Kind::kName) continue;
      std::set<std::string> seen;
      for (const FormEntry& entry : entries) {
        const auto name = entry.fields.find(field.decl.name);
        if (name != entry.fields.end() && !seen.insert(name->second).second)
          refuse(group.label, "two have the same name", name->second, "each its own",
                 "rename one of them");
      }
    }
  }

  void check_field(const FormField& field, const std::string& called) {
    const std::string words = scope_.words(field.decl.name).value_or("");
    const std::string label = called + field.label;
    switch (field.kind) {
      case FormField::Kind::kParam:
        check_text(field.decl, {label, words, {"form", 0, 0}}, mistakes_);
        if (field.decl.kind == ParamKind::kText) check_plain(label, words);
        break;
      case FormField::Kind::kName:
        if (!is_name(words))
          refuse(label, "this cannot be a name", words,
                 "a letter, then letters, digits and underscores, 40 at most", "rename it");
        break;
      case FormField::Kind::kOneOf:
        check_one_of(field, label, words);
        break;
      case FormField::Kind::kTimes:
        check_times(label, words);
        break;
    }
  }

  void check_plain(const std::string& label, const std::string& words) {
    const bool plain = find_invalid_utf8(words) == std::string_view::npos && words.size() <= 200 &&
                       std::none_of(words.begin(), words.end(),
                                    [](char c) { return (c >= 0 && c < 32) || c == 127; });
    if (!plain || trimmed(words).empty())
      refuse(label, "this is no text for a label", words, "one line of 1 to 200 letters",
             "write a few words");
  }

  void check_one_of(const FormField& field, const std::string& label, const std::string& words) {
    if (words.empty()) return;
    const FormGroup* group = scope_.group(field.group);
    std::vector<std::string> names;
    if (group != nullptr) {
      for (const FormEntry& entry : scope_.entries(*group)) {
        for (const FormField& own : group->fields) {
          const auto name = entry.fields.find(own.decl.name);
          if (own.kind == FormField::Kind::kName && name != entry.fields.end())
            names.push_back(name->second);
        }
      }
    }
    if (std::find(names.begin(), names.end(), words) == names.end())
      mistakes_.add_unknown({"form", 0, 0}, label, field.decl.name, words, names);
  }

  void check_times(const std::string& label, const std::string& words) {
    const std::vector<std::string> times = pieces_in(words);
    if (times.empty())
      refuse(label, "no time is given", words, "times as in 08:00, 08:45", "write at least one");
    std::set<std::string> seen;
    for (const std::string& time : times) {
      if (!is_time_of_day(time))
        refuse(label, "this is no time of day", time, "times as in 08:00, 08:45", "correct it");
      else if (!seen.insert(time).second)
        refuse(label, "this time is there twice", time, "each once", "take one away");
    }
  }

  void refuse(const std::string& label, const std::string& what, const std::string& found,
              const std::string& expected, const std::string& mend) {
    mistakes_.add({"form", 0, 0}, {label + ": " + what, found, expected, mend});
  }

  FormScope scope_;
  Mistakes mistakes_;
};

}  // namespace

std::optional<Form> Form::read(const std::string& fields, const std::string& scene,
                               const std::string& path, Diagnostics& mistakes) {
  const std::size_t before = mistakes.list().size();
  const auto root = parse_yaml(fields, path, mistakes);
  if (!root) return std::nullopt;
  Form form;
  Mistakes noted(mistakes);
  TreeReader reader(path, noted);
  form.whole_ = read_form_plan(*root, reader);
  form.scene_ = scene;
  return mistakes.list().size() == before ? std::optional(form) : std::nullopt;
}

bool Form::asked(const FormField& field, const FormEntry& entry) {
  if (field.when_field.empty()) return true;
  const auto value = entry.fields.find(field.when_field);
  return value != entry.fields.end() && value->second == field.when_value;
}

FormEntry Form::fresh(const FormGroup& group) {
  FormEntry entry;
  for (const FormField& field : group.fields) {
    if (asked(field, entry)) entry.fields[field.decl.name] = field.standard;
  }
  for (const FormGroup& inner : group.groups)
    entry.groups[inner.name].assign(inner.least, fresh(inner));
  return entry;
}

void Form::check(const FormEntry& filled, Diagnostics& mistakes) const {
  FormChecker(whole_, filled, mistakes);
}

std::optional<std::string> Form::scene_of(const FormEntry& filled, Diagnostics& mistakes) const {
  const std::size_t before = mistakes.list().size();
  check(filled, mistakes);
  if (mistakes.list().size() != before) return std::nullopt;
  return fill_gaps(scene_, whole_, filled, mistakes);
}

std::optional<FormEntry> Form::read_back(const YamlNode& scene, const std::string& path,
                                         Diagnostics& mistakes) const {
  Mistakes noted(mistakes);
  const std::size_t before = noted.count();
  FormEntry filled = read_filled(scene, path, whole_, noted);
  if (noted.count() != before) return std::nullopt;
  check(filled, mistakes);
  return noted.count() == before ? std::optional(filled) : std::nullopt;
}

std::optional<std::string> Form::changed(const std::string& scene_text, const std::string& path,
                                         const FormEntry& filled, Diagnostics& mistakes) const {
  const auto root = parse_yaml(scene_text, path, mistakes);
  const auto before = root ? read_back(*root, path, mistakes) : std::nullopt;
  const auto base = before ? scene_of(*before, mistakes) : std::nullopt;
  const auto theirs = base ? scene_of(filled, mistakes) : std::nullopt;
  if (!theirs) return std::nullopt;
  const auto merged = merge_lines(*base, scene_text, *theirs);
  if (merged && merged->conflict_line == 0) return merged->text;
  mistakes.add({path, merged ? merged->conflict_line : 0, merged ? 1 : 0,
                "the form would change what was changed by hand here", "",
                "lines as the form makes them",
                "change it in the file, or make a new scene with the form"});
  return std::nullopt;
}

std::vector<Form> all_forms() {
  std::vector<Form> forms;
  for (const FormFiles& files : form_files()) {
    Diagnostics none;  // they come with the program, and its tests read them
    if (auto form = Form::read(files.fields, files.scene, files.path, none))
      forms.push_back(std::move(*form));
  }
  return forms;
}

}  // namespace sixty::gui
