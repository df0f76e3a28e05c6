#include "sim/lesson/condition.hpp"

#include <algorithm>
#include <cmath>

#include "sim/diagnose/place.hpp"
#include "sim/scene/values.hpp"
#include "sim/tour/saying.hpp"
#include "sim/words/words.hpp"

namespace sixty::lesson {
namespace {

constexpr double kBound = 1e12;

bool lies_in(const Condition& condition, double value) {
  if (condition.never) return std::isnan(value) || value == 0;
  return value >= condition.least && value <= condition.most;
}

std::string wanted(const Condition& c, const std::string& unit) {
  const auto text = [&](double value) { return quantity_text(value, unit, -1, spoken().code); };
  if (c.never) return tr_as("no event", "none");
  if (c.least == c.most) return text(c.least);
  if (std::isinf(c.least)) return say("at most {}", text(c.most));
  if (std::isinf(c.most)) return say("at least {}", text(c.least));
  return say("{} to {}", text(c.least), text(c.most));
}

std::string name_of(const Fact& fact, const Installation& installation) {
  const auto at = [&](const Happening& h) {
    return installation.parts[h.part].name + "." + h.kind;
  };
  switch (fact.what) {
    case Fact::What::kReading:
      return installation.parts[fact.reading.part].name + "." +
             installation.declaration(fact.reading).name;
    case Fact::What::kEvent:
      return at(fact.event);
    case Fact::What::kLasting:
      return say("{} to {}", at(fact.event), at(fact.end));
    case Fact::What::kMeter:
      break;
  }
  return fact.order->text;
}

/// A copy of the map in which `key` names one part's.
YamlNode at_one(YamlNode node, const std::string& key, const std::string& part) {
  for (auto& [name, value] : node.entries) {
    if (name.scalar == key) value.scalar = part + "." + value.scalar;
  }
  return node;
}

bool has(const PartInstance& part, const std::string& key, const std::string& name) {
  const Declaration& d = part.kind->declaration;
  if (key == "reading") return index_of(d.readings, name) < d.readings.size();
  const auto kinds = d.event_kinds();
  return std::find(kinds.begin(), kinds.end(), name) != kinds.end();
}

/// The same fact at every part of a place that has one.
std::vector<Fact> read_each(const YamlNode& node, const YamlNode& at,
                            const Installation& installation, TreeReader& reader) {
  std::vector<Fact> each;
  const auto places = diagnose::places_of(installation);
  const diagnose::Place* place = diagnose::read_place(places, at, reader);
  const std::string key = node.find("reading") != nullptr ? "reading" : "event";
  const YamlNode* what = node.find(key);
  if (place == nullptr || what == nullptr || !reader.is_scalar(*what, key, "its bare name"))
    return each;
  for (const PartId part : place->parts) {
    const PartInstance& instance = installation.parts[part];
    if (!has(instance, key, what->scalar)) continue;
    if (const auto fact = read_fact(at_one(node, key, instance.name), installation, reader))
      each.push_back(*fact);
  }
  if (each.empty())
    reader.add(*what, key, "no part there has one of that name", "a " + key + " of a part there",
               "correct the name, or the place");
  return each;
}

void read_bound(const YamlNode& node, const char* key, const std::string& unit, TreeReader& reader,
                double& bound) {
  const YamlNode* written = node.find(key);
  if (written == nullptr) return;
  const auto field = quantity_field(key, unit.empty() ? "1" : unit, -kBound, kBound, "");
  if (const auto value = check_value(field, *written, key, reader)) bound = value->number;
}

/// `above`, `below`, `is` with `within`, or `never`.
void read_bounds(const YamlNode& node, const std::string& unit, TreeReader& reader, Condition& c) {
  c.never = reader.says_yes(node, "never", "condition");
  read_bound(node, "above", unit, reader, c.least);
  read_bound(node, "below", unit, reader, c.most);
  if (node.find("is") != nullptr) {
    double is = 0, within = 0;
    read_bound(node, "is", unit, reader, is);
    read_bound(node, "within", unit, reader, within);
    c.least = is - within;
    c.most = is + within;
  }
  if (c.least > c.most) {
    reader.add(node, "condition", "nothing lies there", "above: the smaller, below: the larger",
               "exchange them");
    return;
  }
  if (c.never || std::isfinite(c.least) || std::isfinite(c.most)) return;
  reader.add(node, "condition", "it does not say what is to be so",
             "above: QUANTITY, below: QUANTITY, is: QUANTITY, or never: yes", "write one of these");
}

}  // namespace

std::vector<Held> held(const std::vector<Condition>& conditions, Session& session, Span span) {
  std::vector<Held> all;
  for (const Condition& condition : conditions) {
    Held one;
    one.early = condition.last > span.to - span.from;
    const SimTime from = condition.last == 0 || one.early ? span.from : span.to - condition.last;
    one.values = values_of(condition.each, session, {from, span.to});
    one.holds = !one.early && std::all_of(one.values.begin(), one.values.end(),
                                          [&](double v) { return lies_in(condition, v); });
    all.push_back(std::move(one));
  }
  return all;
}

bool all_hold(const std::vector<Held>& all) {
  return !all.empty() &&
         std::all_of(all.begin(), all.end(), [](const Held& one) { return one.holds; });
}

std::string told(const Condition& condition, const Held& held, const Installation& installation) {
  std::size_t which = 0;
  for (std::size_t k = held.values.size(); k-- > 0;)
    if (!lies_in(condition, held.values[k])) which = k;
  const Fact& fact = condition.each[which];
  const double value = held.values[which];
  const std::string is =
      std::isnan(value) ? tr("does not come") : quantity_text(value, fact.unit, -1, spoken().code);
  return say("{}: {} (wanted: {})", name_of(fact, installation), is, wanted(condition, fact.unit));
}

std::string unmet(const std::vector<Condition>& conditions, Session& session, Span span) {
  const std::vector<Held> all = held(conditions, session, span);
  for (std::size_t k = 0; k < all.size(); ++k)
    if (!all[k].holds) return told(conditions[k], all[k], session.installation());
  return "";
}

std::optional<Condition> read_condition(const YamlNode& node, const Installation& installation,
                                        TreeReader& reader) {
  if (!reader.is_map(node, "condition", "reading: PART.READING, above: QUANTITY"))
    return std::nullopt;
  std::vector<std::string> known = keys_of_fact();
  known.insert(known.end(), {"at", "above", "below", "is", "within", "never", "in"});
  reader.check_keys(node, "a condition", known);
  Condition condition;
  if (const YamlNode* at = node.find("at"))
    condition.each = read_each(node, *at, installation, reader);
  else if (const auto fact = read_fact(node, installation, reader))
    condition.each = {*fact};
  if (condition.each.empty()) return std::nullopt;
  read_bounds(node, condition.each.front().unit, reader, condition);
  if (const YamlNode* last = node.find("in")) {
    const auto value = check_value(quantity_field("in", "s", 0.001, 1e7, ""), *last, "in", reader);
    if (value) condition.last = from_seconds(value->number);
  }
  return condition;
}

std::vector<Condition> read_conditions(const YamlNode& node, const std::string& label,
                                       const Installation& installation, TreeReader& reader) {
  std::vector<Condition> all;
  if (!reader.is_list(node, label, label + ": [{reading: PART.READING, above: QUANTITY}]"))
    return all;
  for (const YamlNode& item : node.items) {
    if (auto one = read_condition(item, installation, reader)) all.push_back(std::move(*one));
  }
  return all;
}

}  // namespace sixty::lesson
