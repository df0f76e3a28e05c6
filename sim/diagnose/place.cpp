#include "sim/diagnose/place.hpp"

#include <algorithm>
#include <cctype>
#include <map>

#include "sim/base/text.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

/// What the part says it belongs to, as a text; empty if nothing.
std::string group_of(const PartInstance& part) {
  const Declaration& d = part.kind->declaration;
  if (d.stand.group.empty()) return "";
  const auto value = part.values.find(d.stand.group);
  const std::size_t param = index_of(d.params, d.stand.group);
  if (value == part.values.end() || param == d.params.size()) return "";
  if (d.params[param].kind == ParamKind::kText) return value->second.text;
  if (d.params[param].kind != ParamKind::kCount) return "";
  return d.stand.group + " " + std::to_string(static_cast<std::int64_t>(value->second.number));
}

std::string plain(const std::string& name) {
  std::string text;
  for (const char c : name) {
    if (c != '_' && c != ' ' && c != '-')
      text += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return text;
}

}  // namespace

std::vector<Place> places_of(const Installation& installation) {
  std::vector<Place> places;
  std::map<std::pair<Place::Kind, std::string>, std::vector<PartId>> several;
  for (PartId id = 0; id < installation.parts.size(); ++id) {
    const PartInstance& part = installation.parts[id];
    places.push_back({Place::Kind::kPart, part.name, {id}});
    const std::string group = group_of(part);
    if (!group.empty()) several[{Place::Kind::kGroup, group}].push_back(id);
    several[{Place::Kind::kAll, "all " + part.kind->name}].push_back(id);
    if (part.room.empty()) continue;
    several[{Place::Kind::kRoom, part.room}].push_back(id);
    for (const Room& room : installation.rooms) {
      if (room.name != part.room) continue;
      several[{Place::Kind::kFloor, "floor " + std::to_string(room.floor)}].push_back(id);
      if (room.floor > 0) several[{Place::Kind::kFloor, "upstairs"}].push_back(id);
    }
  }
  for (auto& [key, parts] : several) places.push_back({key.first, key.second, std::move(parts)});
  return places;
}

std::string spoken_place(const std::string& name) {
  constexpr std::string_view kAll = "all ";
  if (name == "upstairs") return tr("upstairs");
  if (name.starts_with(kAll)) return say("all {}", spoken_kind(name.substr(kAll.size())));
  const std::size_t blank = name.rfind(' ');
  if (blank == std::string::npos || !is_digit(name.back())) return name;
  const std::string of = name.substr(0, blank), number = name.substr(blank + 1);
  return of == "floor" ? say("floor {}", number) : spoken_key(of) + " " + number;
}

const Place* find_place(const std::vector<Place>& places, const std::string& name) {
  for (const Place& place : places) {
    if (place.name == name) return &place;
  }
  const std::string wanted = plain(name);
  for (const Place& place : places) {
    if (plain(place.name) == wanted) return &place;
  }
  return nullptr;
}

const Place* read_place(const std::vector<Place>& places, const YamlNode& at, TreeReader& reader) {
  if (const Place* place = find_place(places, at.scalar)) return place;
  std::vector<std::string> names;
  for (const Place& known : places) names.push_back(known.name);
  reader.mistakes().add_unknown(reader.place(at), "at", "place", at.scalar, names);
  return nullptr;
}

}  // namespace sixty::diagnose
