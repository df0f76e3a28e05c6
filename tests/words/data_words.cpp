#include "tests/words/data_words.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include "models/part_list.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/diagnose/check.hpp"
#include "sim/diagnose/circumstance.hpp"
#include "sim/diagnose/sign.hpp"
#include "sim/scene/fault.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {
namespace {

namespace fs = std::filesystem;

/// Collects words of one place.
class Collector {
 public:
  explicit Collector(std::vector<DataWords>& all) : all_(all) {}
  std::string place;

  void add(const std::string& words) {
    if (!words.empty()) all_.push_back({words, "", place});
  }
  void add_kind(const std::string& name) {
    all_.push_back({words_of_key(name), "kind of part", place});
  }
  /// A name that is shown as words.
  void add_key(const std::string& key) { add(words_of_key(key)); }
  void add_list(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    add(text);
  }
  template <class Named>
  void add_named(const std::vector<Named>& all) {
    for (const Named& one : all) {
      add_key(one.name);
      add(one.help);
    }
  }
  void add_params(const std::vector<ParamDecl>& params) {
    add_named(params);
    for (const ParamDecl& param : params) {
      for (const std::string& choice : param.choices) add_key(choice);
      add_params(param.fields);
    }
  }

 private:
  std::vector<DataWords>& all_;
};

void collect_part(const Registry::Entry& entry, Collector& into) {
  const Declaration& d = entry.declaration;
  into.place = entry.folder;
  into.add_kind(entry.name);
  into.add(d.title);
  into.add(d.help);
  into.add_params(d.params);
  into.add_named(d.terminals);
  into.add_named(d.inputs);
  into.add_named(d.outputs);
  into.add_named(d.readings);
  into.add_named(d.commands);
  for (const CommandDecl& command : d.commands)
    if (command.argument) into.add_params({*command.argument});
  into.add_named(d.events);
  into.add_named(d.offered);
  into.add_named(d.taken);
}

void collect_books(const Registry& registry, Collector& into) {
  Diagnostics problems;
  Mistakes mistakes(problems);
  const FaultBook faults(registry, mistakes);
  for (const auto& fault : faults.all()) {
    into.place = fault->kind->folder + "/faults.yaml";
    for (const std::string* words :
         {&fault->title, &fault->seen, &fault->check, &fault->remedy, &fault->caution})
      into.add(*words);
  }
  const diagnose::SignBook signs(registry, mistakes);
  for (const diagnose::Sign& sign : signs.all()) {
    into.place = sign.kind->folder + "/signs.yaml";
    into.add(sign.says);
    into.add_list(sign.words);
  }
  const diagnose::CheckBook checks(registry, mistakes);
  into.place = "models/checks.yaml";
  for (const diagnose::Check& check : checks.all())
    for (const std::string* words : {&check.what, &check.needs, &check.hazard, &check.care})
      into.add(*words);
  const diagnose::CircumstanceBook circumstances(registry.circumstances(), mistakes);
  into.place = "models/circumstances.yaml";
  for (const diagnose::Circumstance& one : circumstances.all()) {
    into.add(one.name);
    into.add_list(one.words);
  }
}

/// What stands behind `en` anywhere below a node.
void collect_english(const YamlNode& node, std::vector<std::string>& into) {
  for (const auto& [key, value] : node.entries) {
    if (key.scalar == "en" && !value.scalar.empty())
      into.push_back(trimmed_block(value.scalar));
    else
      collect_english(value, into);
  }
  for (const YamlNode& item : node.items) collect_english(item, into);
}

/// What a form asks, in any of its fields.
void collect_form(const YamlNode& node, Collector& into) {
  static const std::set<std::string> kShown{"title", "label", "one", "help"};
  for (const auto& [key, value] : node.entries) {
    if (value.kind == YamlNode::kScalar && kShown.count(key.scalar) != 0)
      into.add(trimmed_block(value.scalar));
    else if (key.scalar == "choices")
      for (const auto& [word, label] : value.entries) into.add(label.scalar);
    else
      collect_form(value, into);
  }
  for (const YamlNode& item : node.items) collect_form(item, into);
}

}  // namespace

std::vector<std::string> said_in(const std::string& path) {
  Diagnostics problems;
  std::vector<std::string> all;
  if (const auto root = read_yaml(path, problems)) collect_english(*root, all);
  return all;
}

std::vector<DataWords> data_words() {
  std::vector<DataWords> all;
  Collector into(all);
  const Registry registry = models::registry();
  for (const auto& [name, entry] : registry.entries()) collect_part(entry, into);
  collect_books(registry, into);
  for (const char* folder : {"scenes/exhibits", "scenes/lessons", "scenes/tours"}) {
    std::vector<std::string> files;
    for (const auto& file : fs::directory_iterator(fs::path(SIXTY_SOURCE_DIR) / folder))
      if (file.path().extension() == ".yaml") files.push_back(file.path().filename());
    std::sort(files.begin(), files.end());
    for (const std::string& file : files) {
      into.place = std::string(folder) + "/" + file;
      for (const std::string& words : said_in(SIXTY_SOURCE_DIR "/" + into.place)) into.add(words);
    }
  }
  into.place = "scenes/forms/installation.form";
  Diagnostics problems;
  if (const auto form = read_yaml(SIXTY_SOURCE_DIR "/" + into.place, problems))
    collect_form(*form, into);
  return all;
}

}  // namespace sixty
