#include <algorithm>

#include "sim/instruments/measure.hpp"
#include "sim/lesson/fact.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::lesson {
namespace {

using What = Fact::What;
using Take = Fact::Take;

struct TakeWord {
  const char* word;
  Take take;
  bool of_readings, of_events, of_meters;
};
constexpr TakeWord kTakes[] = {
    {"last", Take::kLast, true, true, true},    {"first", Take::kFirst, true, true, false},
    {"least", Take::kLeast, true, false, true}, {"most", Take::kMost, true, false, true},
    {"mean", Take::kMean, true, false, false},  {"change", Take::kChange, true, false, false},
    {"count", Take::kCount, false, true, false}};

bool can_take(const TakeWord& word, What what) {
  if (what == What::kReading) return word.of_readings;
  return what == What::kEvent ? word.of_events : what == What::kMeter && word.of_meters;
}

/// "PART.SOMETHING" in its halves, the part looked up. Errors: nothing, reported.
std::optional<std::pair<PartId, std::string>> at_part(const YamlNode& node,
                                                      const std::string& label,
                                                      const Installation& installation,
                                                      TreeReader& reader) {
  if (!reader.is_scalar(node, label, "PART.NAME")) return std::nullopt;
  const std::size_t dot = node.scalar.find('.');
  if (dot == std::string::npos) {
    reader.add(node, label, "this names no part", "PART.NAME",
               "write the part, a dot, and what is meant of it");
    return std::nullopt;
  }
  const auto part = installation.find_id(node.scalar.substr(0, dot));
  if (part) return std::pair{*part, node.scalar.substr(dot + 1)};
  reader.mistakes().add_unknown(reader.place(node), label, "part", node.scalar.substr(0, dot),
                                names_of(installation.parts));
  return std::nullopt;
}

bool read_what(const YamlNode& node, const Installation& installation, TreeReader& reader,
               Fact& fact) {
  if (const YamlNode* reading = node.find("reading")) {
    const auto at = at_part(*reading, "reading", installation, reader);
    if (!at) return false;
    const auto& readings = installation.parts[at->first].kind->declaration.readings;
    fact.reading = {at->first, index_of(readings, at->second)};
    if (fact.reading.reading == readings.size()) {
      reader.mistakes().add_unknown(reader.place(*reading), installation.parts[at->first].name,
                                    "reading", at->second, names_of(readings));
      return false;
    }
    fact.unit = readings[fact.reading.reading].unit;
    return true;
  }
  if (const YamlNode* event = node.find("event")) {
    const auto of = read_happening(*event, "event", installation, reader);
    fact.what = What::kEvent;
    if (of) fact.event = *of;
    return of.has_value();
  }
  const YamlNode *from = node.find("from"), *to = node.find("to");
  if (from != nullptr && to != nullptr) {
    const auto begin = read_happening(*from, "from", installation, reader);
    const auto end = read_happening(*to, "to", installation, reader);
    fact.what = What::kLasting;
    fact.unit = "s";
    if (begin && end) fact.event = *begin, fact.end = *end;
    return begin && end;
  }
  const YamlNode* meter = node.find("meter");
  if (meter == nullptr) {
    reader.add(node, "fact", "this tells no number of a run",
               "reading: PART.READING, event: PART.KIND, from: and to: PART.KIND, or meter: ORDER",
               "write one of these");
    return false;
  }
  if (!reader.is_scalar(*meter, "meter", "an order as of measure --meter")) return false;
  fact.what = What::kMeter;
  fact.order = instruments::read_order(meter->scalar, installation, reader.mistakes());
  if (!fact.order) return false;
  if (!fact.order->is_meter() && fact.order->kind != instruments::Order::Kind::kTemperature) {
    reader.add(*meter, "meter", "this shows no single number",
               "V:, A: or temperature:", "ask for one of these");
    return false;
  }
  fact.unit = fact.order->is_meter() ? instruments::sheet_of(*fact.order).unit : "K";
  return true;
}

}  // namespace

std::vector<std::string> keys_of_fact() {
  return {"reading", "event", "from", "to", "meter", "take"};
}

std::optional<Happening> read_happening(const YamlNode& node, const std::string& label,
                                        const Installation& installation, TreeReader& reader) {
  const auto at = at_part(node, label, installation, reader);
  if (!at) return std::nullopt;
  const auto kinds = installation.parts[at->first].kind->declaration.event_kinds();
  if (std::find(kinds.begin(), kinds.end(), at->second) != kinds.end())
    return Happening{at->first, at->second};
  reader.mistakes().add_unknown(reader.place(node), installation.parts[at->first].name,
                                "kind of event", at->second, kinds);
  return std::nullopt;
}

std::optional<Fact> read_fact(const YamlNode& node, const Installation& installation,
                              TreeReader& reader) {
  Fact fact;
  if (!read_what(node, installation, reader, fact)) return std::nullopt;
  if (fact.what == What::kEvent) fact.take = Take::kCount;
  const YamlNode* take = node.find("take");
  if (take != nullptr) {
    std::vector<std::string> words;
    const TakeWord* found = nullptr;
    for (const TakeWord& word : kTakes) {
      if (!can_take(word, fact.what)) continue;
      words.emplace_back(word.word);
      if (take->scalar == word.word) found = &word;
    }
    if (found == nullptr) {
      reader.add(*take, "take", "that cannot be taken of it",
                 words.empty() ? "nothing: it is one number" : listed(words),
                 words.empty() ? "leave take out" : "choose one of these");
      return std::nullopt;
    }
    fact.take = found->take;
  }
  if (fact.what == What::kEvent && fact.take != Take::kCount) fact.unit = "s";
  return fact;
}

}  // namespace sixty::lesson
