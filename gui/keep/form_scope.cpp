#include "gui/keep/form_scope.hpp"

#include <algorithm>

#include "gui/keep/form_sum.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

const FormField* field_of(const FormGroup& group, const std::string& name) {
  for (const FormField& field : group.fields) {
    if (field.decl.name == name) return &field;
  }
  return nullptr;
}

std::string words_of(const FormEntry& entry, const FormField& field) {
  const auto found = entry.fields.find(field.decl.name);
  return found == entry.fields.end() ? field.standard : found->second;
}

}  // namespace

std::vector<std::string> pieces_in(const std::string& words) {
  std::vector<std::string> pieces = pieces_of(words, ',');
  std::erase(pieces, "");
  return pieces;
}

const FormGroup* FormScope::group(const std::string& name) const {
  for (auto place = places_.rbegin(); place != places_.rend(); ++place) {
    for (const FormGroup& group : place->group->groups) {
      if (group.name == name) return &group;
    }
  }
  return nullptr;
}

const std::vector<FormEntry>& FormScope::entries(const FormGroup& group) const {
  static const std::vector<FormEntry> none;
  for (auto place = places_.rbegin(); place != places_.rend(); ++place) {
    const auto found = place->entry->groups.find(group.name);
    if (found != place->entry->groups.end()) return found->second;
  }
  return none;
}

std::optional<FormScope::Found> FormScope::find(const std::string& name) const {
  const std::size_t dot = name.find('.');
  const std::string of = dot == std::string::npos ? "" : name.substr(0, dot);
  const std::string own = dot == std::string::npos ? name : name.substr(dot + 1);
  for (auto place = places_.rbegin(); place != places_.rend(); ++place) {
    if (!of.empty() && place->group->name != of) continue;
    if (own == "number") return Found{nullptr, std::to_string(place->number)};
    const FormField* field = field_of(*place->group, own);
    if (field != nullptr) return Found{field, words_of(*place->entry, *field)};
  }
  return std::nullopt;
}

std::optional<std::string> FormScope::words(const std::string& name) const {
  const auto found = find(name);
  return found ? std::optional(found->words) : std::nullopt;
}

std::optional<std::string> FormScope::written(const std::string& name) const {
  const auto found = find(name);
  if (!found) return std::nullopt;
  if (found->field == nullptr) return found->words;
  if (found->field->kind == FormField::Kind::kTimes) {
    std::string list;
    for (const std::string& time : pieces_in(found->words))
      list += (list.empty() ? "" : ", ") + in_quotes(time);
    return "[" + list + "]";
  }
  const bool text =
      found->field->kind == FormField::Kind::kParam && found->field->decl.kind == ParamKind::kText;
  return text ? in_quotes(found->words) : found->words;
}

/// A name that was let, a number that a choice has ("run.ohm"), or a field's own in SI.
std::optional<double> FormScope::number(const std::string& name) const {
  if (const auto let = let_.find(name); let != let_.end()) return let->second;
  const std::size_t dot = name.rfind('.');
  if (dot != std::string::npos) {
    const auto choice = find(name.substr(0, dot));
    if (choice && choice->field != nullptr) {
      const auto numbers = choice->field->numbers.find(choice->words);
      if (numbers == choice->field->numbers.end()) return std::nullopt;
      const auto value = numbers->second.find(name.substr(dot + 1));
      return value == numbers->second.end() ? std::nullopt : std::optional(value->second);
    }
  }
  const auto found = find(name);
  if (!found) return std::nullopt;
  if (found->field == nullptr) return std::stod(found->words);
  Diagnostics unread;
  Mistakes none(unread);
  const auto value = check_text(found->field->decl, {"", found->words, {}}, none);
  return value ? std::optional(value->number) : std::nullopt;
}

std::optional<double> FormScope::sum_over(const std::string& name, std::string_view sum) const {
  const FormGroup* summed = group(name);
  if (summed == nullptr) return std::nullopt;
  double total = 0;
  FormScope inner = *this;
  std::size_t k = 0;
  for (const FormEntry& entry : entries(*summed)) {
    inner.enter({summed, &entry, ++k});
    const auto one = inner.work_out(sum);
    inner.leave();
    if (!one) return std::nullopt;
    total += *one;
  }
  return total;
}

std::optional<double> FormScope::work_out(std::string_view sum) const {
  SumNames names;
  names.number = [this](const std::string& name) { return number(name); };
  names.over = [this](const std::string& name, std::string_view what) {
    return sum_over(name, what);
  };
  return gui::work_out(sum, names);
}

std::optional<bool> FormScope::holds(const std::string& condition) const {
  const std::size_t is = condition.find(" is ");
  if (is != std::string::npos) {
    const auto value = words(trimmed(condition.substr(0, is)));
    return value ? std::optional(*value == trimmed(condition.substr(is + 4))) : std::nullopt;
  }
  if (const FormGroup* named = group(condition)) return !entries(*named).empty();
  const auto value = words(condition);
  return value ? std::optional(!value->empty()) : std::nullopt;
}

}  // namespace sixty::gui
