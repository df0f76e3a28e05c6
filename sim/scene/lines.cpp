#include "sim/scene/lines.hpp"

#include <utility>

#include "sim/base/units.hpp"
#include "sim/scene/line_reader.hpp"
#include "sim/scene/net_book.hpp"
#include "sim/scene/part_reader.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {
namespace {

/// As far as a line has come: the terminal to go on from, and its room.
struct Stand {
  Written end;
  std::string room;
};

/// Makes parts and nets of lines.
class LineLayer {
 public:
  LineLayer(const Registry& registry, TreeReader& reader, Draft& draft)
      : reader_(reader), draft_(draft), read_(registry, draft, reader), nets_(draft.nets) {}

  void lay(const YamlNode& key, const YamlNode& map) {
    const std::optional<Line> line = read_.line(key, map);
    if (!line) return;
    Stand stand{line->from, line->room};
    draft_.lines.push_back({line->name, {}, false});
    if (const auto ballast = read_.ballast(*line, map))
      pass(*ballast, line->name + "_ballast", line->place, stand.room, stand);
    const YamlNode* places =
        reader_.required(map, key, "places", line->label, "places: " + std::string(kPlacesExample));
    if (places != nullptr) lay_places(*line, *places, line->label + ".places", stand);
    lay_back(*line, map, stand);
  }

 private:
  // A loop comes home by a wire of its own; of a parallel line, the way back is part of each run.
  void lay_back(const Line& line, const YamlNode& map, Stand& stand) {
    const YamlNode* back = map.find("back");
    if (!line.series) {
      if (back != nullptr) read_.only_in_series(line, *back, "back");
      return;
    }
    LinePlace home{line.label, line.place, {}, line.room, 1, 1, line.run, std::nullopt, nullptr};
    const bool sound = read_.length(back, line.label + ".back", home.run);
    if (back == nullptr) home.run.part.given.erase(kLength);
    if (!sound || !has_length(home, stand, "back")) return;
    pass(home.run, line.name + "_back", line.place, line.room, stand);
    nets_.join(stand.end, line.to);
  }

  void lay_places(const Line& line, const YamlNode& list, const std::string& label, Stand& stand) {
    if (!reader_.is_list(list, label, kPlacesExample)) return;
    if (list.items.empty())
      reader_.add(list, label, "a line needs a place", kPlacesExample, "add one");
    for (std::size_t i = 0; i < list.items.size() && !full_; ++i) {
      const std::string called = label + "[" + std::to_string(i + 1) + "]";
      std::optional<LinePlace> place = read_.place(line, list.items[i], called);
      if (place) lay_place(line, *place, stand);
    }
  }

  void lay_place(const Line& line, LinePlace& place, Stand& stand) {
    const LineTemplate run = place.run;
    for (int k = 0; k < place.count && !full_; ++k) {
      place.run = run;
      if (!has_length(place, stand, kLength)) {
        stand.room = place.room;
        return;
      }
      const std::string name = numbered(place.name, place.first + k);
      const std::size_t first = draft_.parts.size();
      pass(place.run, name + "_run", place.place, place.room, stand);
      hang(line, place, name, stand);
      note_place(first);
    }
    if (place.branch == nullptr) return;
    draft_.lines.back().branches = true;
    Stand branch = stand;
    lay_places(line, *place.branch, place.label + ".branch", branch);
  }

  void note_place(std::size_t first) {
    std::vector<PartId>& parts = draft_.lines.back().places.emplace_back();
    for (std::size_t part = first; part < draft_.parts.size(); ++part)
      parts.push_back(static_cast<PartId>(part));
  }

  void hang(const Line& line, const LinePlace& place, const std::string& name, Stand& stand) {
    if (!place.each) return;
    if (line.series) {
      pass(*place.each, name, place.place, place.room, stand);
    } else if (add(*place.each, name, place.place, place.room)) {
      nets_.join(stand.end, terminal(*place.each, name, place.place, 0));
      nets_.join(line.to, terminal(*place.each, name, place.place, 1));
    }
  }

  // Leads the line on through a part.
  void pass(const LineTemplate& through, const std::string& name, const Place& place,
            const std::string& room, Stand& stand) {
    stand.room = room;
    if (!add(through, name, place, room)) return;
    nets_.join(stand.end, terminal(through, name, place, 0));
    stand.end = terminal(through, name, place, 1);
  }

  bool add(const LineTemplate& from, const std::string& name, const Place& place,
           const std::string& room) {
    if (full_) return false;
    if (draft_.parts.size() >= kMostParts) {
      report_too_many(place, "lines", draft_.parts.size() + 1, reader_.mistakes());
      full_ = true;
      return false;
    }
    const auto id = static_cast<PartId>(draft_.parts.size());
    if (!draft_.by_name.emplace(name, id).second) {
      reader_.mistakes().add(place, {"\"" + name + "\": there is a part of this name already", name,
                                     "a name of its own", "rename one of the two"});
      return false;
    }
    draft_.names.push_back(name);
    draft_.parts.push_back(stamped(from, name, room));
    for (const DraftJoin& join : from.joins)
      nets_.join(join.with, {join.with.label, name + "." + join.own, join.with.place});
    return true;
  }

  static Written terminal(const LineTemplate& of, const std::string& name, const Place& place,
                          std::size_t number) {
    const std::string text = name + "." + of.part.kind->declaration.terminals[number].name;
    return {"lines", text, place};
  }

  // Whether the run to a place has a length: one given, or one that follows from the plan.
  bool has_length(LinePlace& place, const Stand& stand, const std::string& key) {
    if (length_of(place.run) == nullptr || place.run.part.given.count(kLength) != 0) return true;
    const Room* from = draft_.plan.find(stand.room);
    const Room* to = draft_.plan.find(place.room);
    const double way_m = from != nullptr && to != nullptr ? draft_.plan.way_m(*from, *to) : 0;
    if (way_m <= 0) {
      report_no_way(place, stand, key);
      return false;
    }
    GivenValue given;
    given.value.number = way_m;
    given.written = {place.label + "." + key, format_quantity(way_m, "m"), place.place};
    place.run.part.given[kLength] = std::move(given);
    return true;
  }

  void report_no_way(const LinePlace& place, const Stand& stand, const std::string& key) {
    const std::string found = stand.room.empty() ? "no room where the run begins"
                              : place.room.empty()
                                  ? "no room where it ends"
                                  : "no way from " + stand.room + " to " + place.room;
    reader_.mistakes().add(
        place.place,
        {place.label + ": \"" + key + "\" is missing, and no length follows", found,
         key + ": 30 m, or two rooms apart on the plan", "add the length, or the rooms"});
  }

  TreeReader& reader_;
  Draft& draft_;
  LineReader read_;
  NetBook nets_;
  bool full_ = false;  // more parts than a scene may hold: said once
};

}  // namespace

void lay_lines(const YamlNode& root, const Registry& registry, TreeReader& reader, Draft& draft) {
  const YamlNode* lines = root.find("lines");
  if (lines == nullptr || !reader.is_map(*lines, "lines", "{upper_floor: {kind: parallel, ...}}"))
    return;
  LineLayer layer(registry, reader, draft);
  for (const auto& [key, map] : lines->entries) layer.lay(key, map);
}

}  // namespace sixty
