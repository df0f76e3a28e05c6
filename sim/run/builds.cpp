#include "sim/run/builds.hpp"

#include <algorithm>
#include <utility>

#include "sim/base/units.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/hookup.hpp"

namespace sixty {
namespace {

std::string value_text(const Value& value) {
  std::string text = format_exact(value.number) + "|" + value.text;
  for (const Value& item : value.items) text += "|" + item.text;
  for (const Value::Record& record : value.records) {
    text += "|";
    for (const Value::Field& field : record) text += field.name + "=" + value_text(field.value);
  }
  return text;
}

std::string key_of(const std::vector<ChangedValue>& changed) {
  std::string key;
  for (const ChangedValue& c : changed)
    key += std::to_string(c.part) + "." + c.param + "=" + value_text(c.value) + ";";
  return key;
}

Value& value_of(std::vector<ChangedValue>& changed, const Installation& sound, PartId part,
                const std::string& param) {
  for (ChangedValue& c : changed) {
    if (c.part == part && c.param == param) return c.value;
  }
  changed.push_back({part, param, sound.parts[part].values.at(param)});
  return changed.back().value;
}

/// Changes of one value go the same way if both come from numbers that rise, or fall, with
/// severity.
double way_of(const FaultChange& change, const Value& sound) {
  const double way = change.severe.number - change.mild.number;
  return way != 0 ? way : change.severe.number - sound.number;
}

/// Of two faults that put one number, and go the same way, the worse one shows: a second, milder
/// bad joint mends no worse one. Else the later one does, as when a hand sets what another had set.
Value worse_of(const FaultChange& change, const Value& sound, const Value& there,
               const Value& put) {
  const double way = way_of(change, sound);
  const bool same_way = way * (there.number - sound.number) > 0;
  return same_way && way * (there.number - put.number) > 0 ? there : put;
}

/// Entries of a list are of different things if their first fields differ: two odd cells are two.
Value joined(const Value& there, const Value& put) {
  Value all = put;
  for (const Value::Record& entry : there.records) {
    const bool again =
        std::any_of(put.records.begin(), put.records.end(), [&](const Value::Record& other) {
          return !entry.empty() && !other.empty() &&
                 entry.front().value.number == other.front().value.number;
        });
    if (!again) all.records.push_back(entry);
  }
  std::stable_sort(
      all.records.begin(), all.records.end(), [](const Value::Record& a, const Value::Record& b) {
        return !a.empty() && !b.empty() && a.front().value.number < b.front().value.number;
      });
  return all;
}

/// What two faults make of one value that both put.
Value combined(const ParamDecl& decl, const FaultChange& change, const Value& sound,
               const Value& there, const Value& put) {
  if (decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount)
    return worse_of(change, sound, there, put);
  return decl.kind == ParamKind::kRecords ? joined(there, put) : put;
}

void put_changes(const Installation& sound, const Faults& faults, bool values,
                 std::vector<ChangedValue>& changed) {
  for (const Faults::Put& put : faults.all()) {
    if (put.level <= 0) continue;
    const std::vector<ParamDecl>& params = put.what->fault->kind->declaration.params;
    for (const FaultChange& c : put.what->fault->changes) {
      if ((c.form == FaultChange::Form::kValue) != values) continue;
      const std::string& name = params[c.param].name;
      Value& value = value_of(changed, sound, put.what->part, name);
      const Value after = changed_value(params[c.param], c, value, put.severity());
      const Value& before = sound.parts[put.what->part].values.at(name);
      value = values ? combined(params[c.param], c, before, value, after) : after;
    }
  }
}

}  // namespace

std::vector<ChangedValue> changed_values(const Installation& sound, const Faults& faults) {
  std::vector<ChangedValue> changed;
  // What is multiplied or added to counts from what others have put, in whatever order they came.
  put_changes(sound, faults, true, changed);
  put_changes(sound, faults, false, changed);
  std::sort(changed.begin(), changed.end(), [](const ChangedValue& a, const ChangedValue& b) {
    return std::tie(a.part, a.param) < std::tie(b.part, b.param);
  });
  return changed;
}

Builds::Builds(std::shared_ptr<const Installation> sound, Begin begin) : begin_(std::move(begin)) {
  auto build = std::make_shared<Build>();
  build->installation = std::move(sound);
  sound_ = std::move(build);
}

std::shared_ptr<const Build> Builds::with(const Faults& faults, const Hookups& hookups) {
  const Installation& sound = *sound_->installation;
  std::vector<ChangedValue> changed = changed_values(sound, faults);
  std::string key = key_of(changed);
  for (const auto& hookup : hookups) key += key_of(*hookup);
  const auto found = known_.find(key);
  if (found != known_.end()) return found->second;
  auto build = std::make_shared<Build>();
  if (changed.empty() && hookups.empty()) {
    build->installation = sound_->installation;
  } else {
    Diagnostics mistakes;
    build->installation = rebuild(sound, changed, hookups, mistakes);
    if (build->installation == nullptr)
      throw RunFailure("the faults put in cannot stand together: " + mistakes.to_text());
    if (!can_replace(sound, *build->installation))
      throw RunFailure("a fault put in would make another installation of it: " + key);
  }
  build->beginning = begin_(build->installation);
  build->changed = std::move(changed);
  known_.emplace(key, build);
  return build;
}

}  // namespace sixty
