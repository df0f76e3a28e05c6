#include "sim/scene/changes.hpp"

#include <utility>

#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr const char* kSetForm = "part.parameter=QUANTITY";

void set_value(const std::string& text, Draft& draft, Mistakes& mistakes) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos) {
    mistakes.add({}, {"set: a value belongs here", text, kSetForm, "write an equals sign"});
    return;
  }
  const Written target{"set", text.substr(0, equals), {}};
  Reference reference;
  if (!split_reference(target, kSetForm, reference, mistakes)) return;
  const DraftPart* found = find_part(draft, reference.part, target, mistakes);
  if (found == nullptr) return;
  const std::vector<ParamDecl>& params = found->kind->declaration.params;
  const std::size_t i = index_of(params, reference.item);
  if (i == params.size()) {
    mistakes.add_unknown({}, titled(*found), "parameter", reference.item, names_of(params));
    return;
  }
  const Written written{target.text, text.substr(equals + 1), {}};
  std::optional<Value> value = check_text(params[i], written, mistakes);
  DraftPart& part = draft.parts[draft.by_name.at(reference.part)];
  if (value) part.given[reference.item] = {std::move(*value), written};
  part.values_sound = part.values_sound && value;
}

}  // namespace

void apply_changes(const SceneChanges& changes, Draft& draft, Mistakes& mistakes) {
  if (changes.seed) draft.seed = *changes.seed;
  for (const std::string& text : changes.set) set_value(text, draft, mistakes);
  for (const std::string& text : changes.action) {
    DraftAction action;
    if (split_action(text, action, mistakes)) draft.script.push_back(std::move(action));
  }
}

}  // namespace sixty
