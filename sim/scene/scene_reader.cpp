#include "sim/scene/scene_reader.hpp"

#include <charconv>
#include <utility>

#include "sim/base/civil.hpp"
#include "sim/scene/lines.hpp"
#include "sim/scene/part_reader.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

void read_title(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const YamlNode* title = reader.required(root, root, "scene", "", "scene: a title");
  if (title != nullptr && reader.is_scalar(*title, "scene", "a title")) draft.title = title->scalar;
  if (const YamlNode* notes = root.find("notes")) reader.is_scalar(*notes, "notes", "a text");
}

void read_start(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const char* expected = "a date and time, as in 2026-01-05T00:00:00";
  const YamlNode* node = reader.required(root, root, "start", "", expected);
  if (node == nullptr || !reader.is_scalar(*node, "start", expected)) return;
  std::string error;
  const std::optional<CalendarTime> start = parse_calendar_time(node->scalar, error);
  if (!start) {
    reader.add(*node, "start", error, expected,
               "write the date and the time of day at which the scene begins");
    return;
  }
  draft.clock.start = *start;
  draft.start_known = true;
}

void read_time_zone(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const char* expected =
      "standard and summer time as in TZ of IEEE 1003.1, \"CET-1CEST,M3.5.0,M10.5.0/3\"";
  const YamlNode* node = root.find("time_zone");
  if (node == nullptr || !reader.is_scalar(*node, "time_zone", expected) || !draft.start_known)
    return;
  std::string error;
  std::optional<std::vector<CivilChange>> changes =
      civil_changes(node->scalar, draft.clock.start, error);
  if (changes) {
    draft.clock.changes = std::move(*changes);
  } else {
    reader.add(*node, "time_zone", error, expected,
               "write names and hours west of Greenwich, then the days on which clocks change");
  }
}

void read_seed(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const char* expected = "a whole number, 0 or more";
  const YamlNode* node = root.find("seed");
  if (node == nullptr || !reader.is_scalar(*node, "seed", expected)) return;
  const std::string& text = node->scalar;
  const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), draft.seed);
  const bool padded = text.size() > 1 && text[0] == '0';
  if (code == std::errc() && end == text.data() + text.size() && !padded) return;
  reader.add(*node, "seed", "a whole number belongs here", expected, "write digits alone");
}

void read_spread(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const YamlNode* node = root.find("spread");
  if (node == nullptr) return;
  const std::optional<Value> value =
      check_value(quantity_field("spread", "1", 0, 1, ""), *node, "spread", reader);
  if (value) draft.spread = value->number;
}

void read_parts(const YamlNode& root, const Registry& registry, TreeReader& reader, Draft& draft) {
  const std::string example = "parts: {name: " + std::string(kPartExample) + "}";
  const YamlNode* parts = reader.required(root, root, "parts", "", example);
  if (parts == nullptr || !reader.is_map(*parts, "parts", example)) return;
  if (parts->entries.empty())
    reader.add(*parts, "parts", "a scene needs a part", example, "add one");
  if (parts->entries.size() > kMostParts) {
    report_too_many(reader.place(*parts), "parts", parts->entries.size(), reader.mistakes());
    return;
  }
  for (const auto& [key, map] : parts->entries) {
    draft.by_name[key.scalar] = static_cast<PartId>(draft.parts.size());
    draft.names.push_back(key.scalar);
    draft.parts.push_back(read_part(key, map, registry, draft.plan, reader));
  }
}

void read_wires(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const YamlNode* wires = root.find("wires");
  const char* example = "[part.terminal, part.terminal]";
  if (wires == nullptr || !reader.is_map(*wires, "wires", "{net: " + std::string(example) + "}"))
    return;
  for (const auto& [key, list] : wires->entries) {
    DraftNet net{key.scalar, reader.place(key), {}};
    reader.check_name(key, "net");
    if (!reader.is_list(list, "wires." + net.name, example)) continue;
    for (const YamlNode& item : list.items)
      if (reader.is_scalar(item, "wires." + net.name, "part.terminal"))
        net.terminals.push_back(reader.written(item, "wires." + net.name));
    draft.nets.push_back(std::move(net));
  }
}

constexpr const char* kActionExample = "at 0 s: part.command";

// "at TIME" becomes the time.
bool strip_at(Written& time, Mistakes& mistakes) {
  if (time.text.compare(0, 3, "at ") != 0) {
    mistakes.add(time.place, {"script: an action begins with \"at\" and a time", time.text,
                              kActionExample, "write \"at\" and the time before the colon"});
    return false;
  }
  const std::size_t begin = time.text.find_first_not_of(' ', 3);
  time.text.erase(0, begin == std::string::npos ? time.text.size() : begin);
  return true;
}

void read_action(const YamlNode& item, TreeReader& reader, Draft& draft) {
  DraftAction action;
  if (item.kind == YamlNode::kMap && item.entries.size() == 1) {
    const auto& [key, value] = item.entries[0];
    if (!reader.is_scalar(value, "script", "part.command")) return;
    action = {reader.written(key, "script"), reader.written(value, "script")};
  } else if (item.kind == YamlNode::kScalar && item.scalar.find(": ") != std::string::npos) {
    const std::size_t colon = item.scalar.rfind(": ");
    action = {reader.written(item, "script"), reader.written(item, "script")};
    action.time.text.resize(colon);
    action.action.text.erase(0, colon + 2);
  } else {
    reader.add(item, "script", "an action is a time and a command", kActionExample,
               "write each action as its own item of the list");
    return;
  }
  if (strip_at(action.time, reader.mistakes())) draft.script.push_back(std::move(action));
}

void read_script(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const YamlNode* script = root.find("script");
  if (script == nullptr ||
      !reader.is_list(*script, "script", "[" + std::string(kActionExample) + "]"))
    return;
  for (const YamlNode& item : script->items) read_action(item, reader, draft);
}

void read_faults(const YamlNode& root, TreeReader& reader, Draft& draft) {
  const YamlNode* faults = root.find("faults");
  if (faults == nullptr || !reader.is_list(*faults, "faults", "[\"ID@PART:0.5\"]")) return;
  for (const YamlNode& item : faults->items) {
    if (reader.is_scalar(item, "faults", "a fault, as in ID@PART:0.5"))
      draft.faults.push_back(reader.written(item, "faults"));
  }
}

}  // namespace

Draft read_scene(const YamlNode& root, const std::string& file, const Registry& registry,
                 std::optional<int> begins_on, Mistakes& mistakes) {
  Draft draft;
  TreeReader reader(file, mistakes);
  if (!reader.is_map(root, "", "scene: title, start: ..., parts: {...}")) return draft;
  reader.check_keys(root, "a scene",
                    {"scene", "start", "time_zone", "seed", "spread", "rooms", "plan", "parts",
                     "wires", "lines", "script", "faults", "notes"});
  read_title(root, reader, draft);
  read_start(root, reader, draft);
  if (begins_on) draft.clock.start.day -= (iso_weekday(draft.clock.start) - *begins_on + 7) % 7;
  read_time_zone(root, reader, draft);
  read_seed(root, reader, draft);
  read_spread(root, reader, draft);
  draft.plan = read_plan(root, reader);
  read_parts(root, registry, reader, draft);
  read_wires(root, reader, draft);
  lay_lines(root, registry, reader, draft);
  read_script(root, reader, draft);
  read_faults(root, reader, draft);
  return draft;
}

}  // namespace sixty
