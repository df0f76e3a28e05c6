#include "sim/tour/step_reader.hpp"

#include <algorithm>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/scene/beside.hpp"
#include "sim/scene/blueprint.hpp"
#include "sim/scene/injection.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"
#include "sim/tour/saying.hpp"
#include "sim/words/words.hpp"

namespace sixty {
namespace {

const std::string kPartView = "part:";

}  // namespace

std::vector<std::string> keys_of_stop() {
  return {"head", "text", "view", "speed", "stretch", "light", "do", "fault"};
}

void StepReader::read_stop(const YamlNode& node, Stop& stop) {
  if (const YamlNode* head = node.find("head")) stop.head = read_sayings(*head, "head");
  if (const YamlNode* speed = node.find("speed"))
    read_number(*speed, quantity_field("speed", "1", 0.0001, 100000, ""), stop.speed);
  if (const YamlNode* stretch = node.find("stretch")) read_stretch(*stretch, stop);
  if (const YamlNode* view = node.find("view")) read_view(*view, stop);
  if (const YamlNode* light = node.find("light")) stop.light = read_parts(*light, "light");
}

Sayings StepReader::read_sayings(const YamlNode& node, const std::string& label,
                                 const std::vector<NamedNumber>& numbers) {
  Sayings sayings;
  if (!reader_.is_map(node, label, "{en: words}")) return sayings;
  for (const auto& [key, value] : node.entries) {
    if (!reader_.is_scalar(value, label + "." + key.scalar, "words")) continue;
    Written written = reader_.written(value, label + "." + key.scalar);
    written.text = trimmed_block(written.text);  // a block of text ends with a line end
    sayings[key.scalar] = read_saying(written, installation_, numbers, mistakes_);
  }
  if (const YamlNode* english = node.find("en"))
    add_catalogued(reader_.written(*english, label), numbers, sayings);
  else
    reader_.add(node, label, "the English words are missing", "{en: words}",
                "add them; other languages fall back on them");
  return sayings;
}

void StepReader::add_catalogued(Written written, const std::vector<NamedNumber>& numbers,
                                Sayings& sayings) {
  const std::string english = trimmed_block(written.text), label = written.label;
  for (const Language& language : languages()) {
    const char* words = words_in(language, english.c_str());
    if (words == nullptr || sayings.count(language.code) != 0) continue;
    written.text = words;
    written.label = label + " (" + language.code + ")";
    sayings[language.code] = read_saying(written, installation_, numbers, mistakes_);
  }
}

std::optional<SimTime> StepReader::read_time(const YamlNode& node, const std::string& label) {
  if (!reader_.is_scalar(node, label, "a time of the scene")) return std::nullopt;
  const auto at = sixty::read_time(node.scalar, installation_.clock, 0,
                                   reader_.written(node, label), mistakes_);
  if (!at || *at <= kLatest) return at;
  refuse_late(node, label);
  return std::nullopt;
}

void StepReader::refuse_late(const YamlNode& node, const std::string& label) {
  reader_.add(node, label, "nobody waits so long for a run", "a time within 60 days of the start",
              "choose an earlier one");
}

void StepReader::read_number(const YamlNode& node, const ParamDecl& field, double& number) {
  const auto value = check_value(field, node, field.name, reader_);
  if (value) number = value->number;
}

void StepReader::read_stretch(const YamlNode& node, Stop& stop) {
  stop.stretch = node.scalar == "yes";
  if (node.scalar == "yes" || node.scalar == "no") return;
  reader_.add(node, "stretch", "this is neither yes nor no", "yes or no",
              "write stretch: yes, or leave it out");
}

void StepReader::read_view(const YamlNode& node, Stop& stop) {
  if (node.scalar == "case") return;
  if (node.scalar == "building") {
    stop.scope = Scope::kBuilding;
    return;
  }
  if (node.scalar.rfind(kPartView, 0) == 0) {
    stop.scope = Scope::kPart;
    stop.part = part_of(node, "view", node.scalar.substr(kPartView.size()));
    return;
  }
  reader_.add(node, "view", "there is nothing of that name to look at",
              "building, case, or part:NAME", "choose one of them");
}

std::optional<PartId> StepReader::part_of(const YamlNode& node, const std::string& label,
                                          const std::string& name) {
  const auto part = installation_.find_id(name);
  if (!part)
    mistakes_.add_unknown(reader_.place(node), label, "part", name, names_of(installation_.parts));
  return part;
}

std::vector<PartId> StepReader::read_parts(const YamlNode& node, const std::string& label) {
  std::vector<PartId> parts;
  if (!reader_.is_list(node, label, label + ": [NAME, NAME]")) return parts;
  for (const YamlNode& item : node.items) {
    if (!reader_.is_scalar(item, label, "the name of a part")) continue;
    if (const auto part = part_of(item, label, item.scalar)) parts.push_back(*part);
  }
  return parts;
}

std::vector<Action> StepReader::read_deeds(const YamlNode& step) {
  std::vector<Action> deeds;
  if (const YamlNode* hands = step.find("do")) deeds = read_hands(*hands);
  if (const YamlNode* faults = step.find("fault")) {
    for (Action& action : read_faults(*faults)) deeds.push_back(std::move(action));
  }
  std::stable_sort(deeds.begin(), deeds.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  return deeds;
}

std::vector<Action> StepReader::read_hands(const YamlNode& node) {
  if (!reader_.is_list(node, "do", "do: [TIME PART.COMMAND]")) return {};
  Draft draft = installation_.blueprint->draft;
  draft.script.clear();
  for (const YamlNode& item : node.items) {
    if (!reader_.is_scalar(item, "do", "TIME PART.COMMAND [QUANTITY]")) continue;
    DraftAction action;
    if (!split_action(item.scalar, action, mistakes_)) continue;
    action.time.place = action.action.place = reader_.place(item);
    draft.script.push_back(std::move(action));
  }
  return read_actions(draft, mistakes_);
}

/// As behind --fault.
std::vector<Action> StepReader::read_faults(const YamlNode& node) {
  std::vector<Action> deeds;
  if (!reader_.is_list(node, "fault", "fault: [ID@PART]")) return deeds;
  for (const YamlNode& item : node.items) {
    if (!reader_.is_scalar(item, "fault", "ID@PART[:SEVERITY][,from=TIME][,until=TIME]")) continue;
    const Written written = reader_.written(item, "fault");
    for (Action& action : read_fault(written, installation_.blueprint->draft, faults_, mistakes_)) {
      if (!action.clears) check_fault(action, written, installation_, mistakes_);
      deeds.push_back(std::move(action));
    }
  }
  return deeds;
}

bool StepReader::is_of_scene(const YamlNode& root, const std::string& what) {
  const YamlNode* scene = reader_.required(root, root, "scene", what, "scene: NAME");
  if (scene == nullptr || !reader_.is_scalar(*scene, "scene", "the name of a scene")) return false;
  if (scene->scalar == installation_.name) return true;
  reader_.add(*scene, "scene", "this " + what + " is of another scene", installation_.name,
              "open that scene, or choose a " + what + " of this one");
  return false;
}

std::shared_ptr<const Installation> scene_named_in(const YamlNode& root, const std::string& path,
                                                   const std::string& what,
                                                   const Registry& registry,
                                                   Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  TreeReader reader(path, mistakes);
  const YamlNode* scene = reader.required(root, root, "scene", what, "scene: NAME, steps: [...]");
  if (scene == nullptr || !reader.is_scalar(*scene, "scene", "the name of a scene")) return nullptr;
  const std::string file = scene_beside(path, scene->scalar);
  if (!file.empty()) return load_scene(file, registry, {}, diagnostics);
  reader.add(*scene, "scene", "there is no such scene",
             "a scene beside the " + what + " or one folder up",
             "correct the name, or put the " + what + " into a folder beside its scene");
  return nullptr;
}

}  // namespace sixty
