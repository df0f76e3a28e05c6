#include "sim/scene/other_times.hpp"

#include <optional>
#include <string>
#include <utility>

#include "sim/base/rng.hpp"
#include "sim/base/weekdays.hpp"

namespace sixty {
namespace {

constexpr int kDayMin = 1440, kHalfDayMin = 720;
enum Stream : std::uint32_t { kDropped, kAdded };

std::optional<int> minute_of(const std::string& text) {
  std::string error;
  return parse_minute_of_day(text, error);
}

/// Does something with each list of chosen times in a list of records.
template <class Do>
void each_list_in(Value& records, const ParamDecl& decl, const Do& does) {
  for (Value::Record& record : records.records) {
    for (auto& field : record) {
      const std::size_t k = index_of(decl.fields, field.name);
      if (k < decl.fields.size() && decl.fields[k].chosen_times) does(field.value);
    }
  }
}

/// The same with each that the draft gives.
template <class Do>
void each_list(Draft& draft, const Do& does) {
  for (DraftPart& part : draft.parts) {
    if (part.kind == nullptr) continue;
    for (const ParamDecl& decl : part.kind->declaration.params) {
      const auto given = part.given.find(decl.name);
      if (given != part.given.end()) each_list_in(given->second.value, decl, does);
    }
  }
}

std::vector<Value> others_for(const Value& list, const std::map<int, std::vector<int>>& instead) {
  std::vector<Value> items;
  for (const Value& item : list.items) {
    const auto found = instead.find(minute_of(item.text).value_or(-1));
    if (found == instead.end()) {
      items.push_back(item);
      continue;
    }
    for (const int minute : found->second) {
      items.push_back(item);
      items.back().text = format_minute_of_day(minute);
    }
  }
  return items;
}

}  // namespace

std::map<int, std::vector<int>> times_instead(const std::set<int>& times, const OtherTimes& other,
                                              std::uint64_t seed) {
  std::map<int, std::vector<int>> instead;
  std::set<int> taken;
  const auto take = [&](int wanted, int near, std::vector<int>& into) {
    const bool same_half_day =
        wanted >= 0 && wanted < kDayMin && wanted / kHalfDayMin == near / kHalfDayMin;
    if (same_half_day && taken.insert(wanted).second) into.push_back(wanted);
  };
  const auto who = [](int time) { return static_cast<std::uint64_t>(time); };
  for (const int time : times) {
    std::vector<int>& own = instead[time];
    if (uniform_draw(seed, who(time), kDropped, 0) < other.dropped) continue;
    take(time + other.later_min, time, own);
    if (own.empty()) take(time, time, own);
  }
  // Behind all that stay: one that is added gives way.
  for (auto& [time, own] : instead) {
    if (own.empty() || uniform_draw(seed, who(time), kAdded, 0) >= other.added) continue;
    take(time + other.later_min + other.added_after_min, time, own);
  }
  return instead;
}

void choose_times(Draft& draft) {
  const OtherTimes& other = draft.assumptions.times;
  if (other == OtherTimes{}) return;
  std::set<int> times;
  each_list(draft, [&](const Value& list) {
    for (const Value& item : list.items) {
      if (const auto minute = minute_of(item.text)) times.insert(*minute);
    }
  });
  const auto instead = times_instead(times, other, draft.seed);
  each_list(draft, [&](Value& list) { list.items = others_for(list, instead); });
}

}  // namespace sixty
