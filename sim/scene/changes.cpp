#include "sim/scene/changes.hpp"

#include <map>
#include <utility>

#include "sim/scene/other_times.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr const char* kSetForm = "part.parameter=QUANTITY";
const Place kSet{"", 0, 0, "--set"};
const Place kFault{"", 0, 0, "--fault"};

// What each value has been set to so far, by "part.parameter".
using Settings = std::map<std::string, std::string>;

// Which of two would hold can only be guessed.
bool is_first(const std::string& text, const std::string& name, Settings& settings,
              Mistakes& mistakes) {
  const auto [earlier, first] = settings.emplace(name, text);
  if (!first) {
    mistakes.add(kSet, {name + " is set twice", text, "one value; set before: " + earlier->second,
                        "leave one of the two out"});
  }
  return first;
}

void set_value(const std::string& text, Settings& settings, Draft& draft, Mistakes& mistakes) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos) {
    mistakes.add(kSet, {"a value belongs here", text, kSetForm, "write an equals sign"});
    return;
  }
  const Written target{"", text.substr(0, equals), kSet};
  Reference reference;
  if (!split_reference(target, kSetForm, reference, mistakes)) return;
  const DraftPart* found = find_part(draft, reference.part, target, mistakes);
  if (found == nullptr) return;
  const std::vector<ParamDecl>& params = found->kind->declaration.params;
  const std::size_t i = index_of(params, reference.item);
  if (i == params.size()) {
    mistakes.add_unknown(kSet, titled(*found), "parameter", reference.item, names_of(params));
    return;
  }
  if (!is_first(text, target.text, settings, mistakes)) return;
  const Written written{target.text, text.substr(equals + 1), kSet};
  std::optional<Value> value = check_text(params[i], written, mistakes);
  DraftPart& part = draft.parts[draft.by_name.at(reference.part)];
  if (value) part.given[reference.item] = {std::move(*value), written};
  part.values_sound = part.values_sound && value;
}

}  // namespace

void apply_changes(const SceneChanges& changes, Draft& draft, Mistakes& mistakes) {
  if (changes.seed) draft.seed = *changes.seed;
  draft.specimen = changes.specimen;
  draft.assumptions = changes.assumptions;
  choose_times(draft);
  Settings settings;
  for (const std::string& text : changes.set) set_value(text, settings, draft, mistakes);
  for (const std::string& text : changes.action) {
    DraftAction action;
    if (split_action(text, action, mistakes)) draft.script.push_back(std::move(action));
  }
  for (const std::string& text : changes.fault) draft.faults.push_back({"", text, kFault});
}

}  // namespace sixty
