#include "sim/scene/line_reader.hpp"

#include <utility>

#include "sim/scene/part_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr const char* kNumberHere = "{n}";

}  // namespace

std::string numbered(std::string name, int number) {
  const std::size_t at = name.find(kNumberHere);
  if (at != std::string::npos)
    name.replace(at, std::string(kNumberHere).size(), std::to_string(number));
  return name;
}

const ParamDecl* length_of(const LineTemplate& run) {
  const std::vector<ParamDecl>& params = run.part.kind->declaration.params;
  const std::size_t i = index_of(params, kLength);
  return i < params.size() && params[i].unit == "m" ? &params[i] : nullptr;
}

ParamDecl place_count_field() {
  return count_field("count", 1, 1000, "How many places alike, in a row.", false);
}

ParamDecl place_first_field() {
  return count_field("first", 0, 9999, "Number of the first of them; 1 if left out.", false);
}

ParamDecl place_length_field() {
  return quantity_field(kLength, "m", 0, 10'000, "Length of the run to it.", false);
}

const std::vector<std::string>& line_keys() {
  static const std::vector<std::string> keys = {"kind", "from",    "to",     "room", "run",
                                                "each", "ballast", "places", "back"};
  return keys;
}

const std::vector<std::string>& line_place_keys() {
  static const std::vector<std::string> keys = {"name", "room", "length", "count", "first",
                                                "run",  "each", "set",    "branch"};
  return keys;
}

std::optional<Line> LineReader::line(const YamlNode& key, const YamlNode& map) {
  Line line;
  line.name = key.scalar;
  line.label = "lines." + line.name;
  line.place = reader_.place(key);
  reader_.check_name(key, "line");
  if (!reader_.is_map(map, line.label, "{kind: parallel, from: ..., to: ..., run: {...}, ...}"))
    return std::nullopt;
  reader_.check_keys(map, line.label, line_keys());
  bool sound = kind(map, key, line);
  sound = end(map, key, "from", line.label, line.from) && sound;
  sound = end(map, key, "to", line.label, line.to) && sound;
  sound = templates(map, key, "run", line.label, line.run) && sound;
  sound = templates(map, key, "each", line.label, line.each) && sound;
  if (!sound) return std::nullopt;
  line.room = read_room(map, line.label, draft_.plan, reader_);
  if (line.room.empty()) line.room = room_of_part(line.from.text);
  return line;
}

std::optional<LinePlace> LineReader::place(const Line& line, const YamlNode& map,
                                           const std::string& label) {
  if (!reader_.is_map(map, label, "{name: hall_clock, length: 30 m}")) return std::nullopt;
  reader_.check_keys(map, label, line_place_keys());
  LinePlace place{label, reader_.place(map), {}, {}, 1, 1, line.run, line.each, nullptr};
  bool sound = number(map, place_count_field(), label, place.count);
  sound = number(map, place_first_field(), label, place.first) && sound;
  sound = name(map, place) && sound;
  place.room = read_room(map, label, draft_.plan, reader_);
  const bool runs = over(map.find("run"), label + ".run", place.run);
  sound = runs && length(map.find(kLength), label, place.run) && sound;
  sound = hanging(map, place) && sound;
  place.branch = branch(line, map, place);
  return sound ? std::optional<LinePlace>(std::move(place)) : std::nullopt;
}

std::optional<LineTemplate> LineReader::ballast(const Line& line, const YamlNode& map) {
  const YamlNode* ballast = map.find("ballast");
  if (ballast == nullptr || !only_in_series(line, *ballast, "ballast")) return std::nullopt;
  return read_template(*ballast, line.label + ".ballast", registry_, reader_);
}

bool LineReader::length(const YamlNode* node, const std::string& label, LineTemplate& run) {
  if (node == nullptr) return true;
  const ParamDecl* decl = length_of(run);
  const std::string called = label + "." + kLength;
  if (decl == nullptr) {
    reader_.add(*node, called, "a " + run.part.kind->name + " has no length", "nothing",
                "leave it out");
    return false;
  }
  std::optional<Value> value = check_value(*decl, *node, called, reader_);
  if (!value) return false;
  run.part.given[kLength] = {std::move(*value), reader_.written(*node, called)};
  return true;
}

bool LineReader::only_in_series(const Line& line, const YamlNode& node, const std::string& key) {
  if (line.series) return true;
  reader_.add(node, line.label + "." + key, "only a series loop has it", "kind: series",
              key == "back" ? "leave it out, and count both conductors in each run"
                            : "make it one of the parts, and let the line begin behind it");
  return false;
}

bool LineReader::kind(const YamlNode& map, const YamlNode& key, Line& line) {
  const YamlNode* node =
      reader_.required(map, key, "kind", line.label, "kind: parallel, or kind: series");
  if (node == nullptr || !reader_.is_scalar(*node, line.label + ".kind", "parallel or series"))
    return false;
  line.series = node->scalar == "series";
  if (line.series || node->scalar == "parallel") return true;
  reader_.mistakes().add_unknown(reader_.place(*node), line.label, "kind", node->scalar,
                                 {"parallel", "series"});
  return false;
}

bool LineReader::end(const YamlNode& map, const YamlNode& key, const char* which,
                     const std::string& label, Written& into) {
  const YamlNode* node =
      reader_.required(map, key, which, label, std::string(which) + ": part.terminal");
  if (node == nullptr || !reader_.is_scalar(*node, label + "." + which, "part.terminal"))
    return false;
  into = reader_.written(*node, label + "." + which);
  return true;
}

bool LineReader::templates(const YamlNode& map, const YamlNode& key, const char* which,
                           const std::string& label, LineTemplate& into) {
  const YamlNode* node =
      reader_.required(map, key, which, label, std::string(which) + ": {type: ...}");
  if (node == nullptr) return false;
  std::optional<LineTemplate> made = read_template(*node, label + "." + which, registry_, reader_);
  if (made) into = std::move(*made);
  return made.has_value();
}

// A template as a place changes or replaces it.
bool LineReader::over(const YamlNode* map, const std::string& label, LineTemplate& into) {
  if (map == nullptr) return true;
  std::optional<LineTemplate> made = overlay_template(into, *map, label, registry_, reader_);
  if (made) into = std::move(*made);
  return made.has_value();
}

// What hangs at a place: the line's template, changed or replaced; or nothing.
bool LineReader::hanging(const YamlNode& map, LinePlace& place) {
  const YamlNode* each = map.find("each");
  const YamlNode* set = map.find("set");
  if (each != nullptr && each->kind == YamlNode::kScalar && each->scalar == "none") {
    place.each.reset();
    if (set == nullptr) return true;
    reader_.add(*set, place.label + ".set", "nothing hangs here", "no values", "leave it out");
    return false;
  }
  if (!over(each, place.label + ".each", *place.each)) return false;
  if (set == nullptr) return true;
  place.each->part.name = place.label;
  read_set(map, reader_, place.each->part);
  return true;
}

bool LineReader::number(const YamlNode& map, const ParamDecl& field, const std::string& label,
                        int& into) {
  const YamlNode* node = map.find(field.name);
  if (node == nullptr) return true;
  const std::optional<Value> value = check_value(field, *node, label + "." + field.name, reader_);
  if (value) into = static_cast<int>(value->number);
  return value.has_value();
}

bool LineReader::name(const YamlNode& map, LinePlace& place) {
  const YamlNode* node = reader_.required(map, map, "name", place.label, "name: hall_clock");
  if (node == nullptr || !reader_.is_scalar(*node, place.label + ".name", "a name")) return false;
  place.name = node->scalar;
  const bool many = map.find("count") != nullptr;
  const bool has_number = place.name.find(kNumberHere) != std::string::npos;
  const int last = place.first + place.count - 1;
  if (many == has_number && is_name(numbered(place.name, last))) return true;
  reader_.add(*node, place.label + ".name", "this cannot be the name of a part",
              many ? "a name with {n} once in it for the number, as in \"c{n}\""
                   : "a letter, then letters, digits and underscores, 40 at most",
              has_number && !many ? "add count: 20, or leave {n} out" : "rename it");
  return false;
}

const YamlNode* LineReader::branch(const Line& line, const YamlNode& map, const LinePlace& place) {
  const YamlNode* branch = map.find("branch");
  if (branch == nullptr) return nullptr;
  const bool many = map.find("count") != nullptr;
  if (!line.series && !many) return branch;
  reader_.add(*branch, place.label + ".branch",
              line.series ? "a series loop has no branches" : "a branch begins at one place alone",
              "no branch here",
              line.series ? "make it a line of its own" : "give the place an item of its own");
  return nullptr;
}

// Where a part stands at whose terminal a line begins; empty if there is no telling.
std::string LineReader::room_of_part(const std::string& terminal) const {
  const auto part = draft_.by_name.find(terminal.substr(0, terminal.find('.')));
  return part == draft_.by_name.end() ? "" : draft_.parts[part->second].room;
}

}  // namespace sixty
