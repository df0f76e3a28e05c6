#include "sim/part/report.hpp"

#include <algorithm>
#include <stdexcept>

namespace sixty {
namespace {

// Where the part stands that a row is about; empty if there is no telling.
std::string room_of_row(const Row& row, const std::map<std::string, std::string>& room_of) {
  if (row.cells().empty() || row.cells().front().key != "id") return "";
  const auto* id = std::get_if<std::string>(&row.cells().front().value);
  const auto room = id == nullptr ? room_of.end() : room_of.find(*id);
  return room == room_of.end() ? "" : room->second;
}

}  // namespace

Row& Row::add(Cell cell) {
  for (const Cell& there : cells_) {
    if (there.key != cell.key) continue;
    throw std::logic_error("report: \"" + cell.key + "\" is given twice in one row");
  }
  cells_.push_back(std::move(cell));
  return *this;
}

Row& Row::put(std::string key, double value, std::string unit) {
  return add({std::move(key), value, std::move(unit)});
}
Row& Row::count(std::string key, std::int64_t value) { return add({std::move(key), value, ""}); }
Row& Row::text(std::string key, std::string value) {
  return add({std::move(key), std::move(value), ""});
}
Row& Row::flag(std::string key, bool value) { return add({std::move(key), value, ""}); }
Row& Row::nothing(std::string key) { return add({std::move(key), std::monostate{}, ""}); }

Row& Row::all_of(const Row& other) {
  for (const Cell& cell : other.cells_) add(cell);
  return *this;
}

Report::Section& Report::find(const std::string& section, bool list) {
  for (Section& s : sections_) {
    if (s.name != section) continue;
    if (s.list != list) {
      throw std::logic_error("report: \"" + section + "\" is both an object and a list");
    }
    return s;
  }
  sections_.push_back({section, list, {}});
  return sections_.back();
}

Row& Report::object(const std::string& section) {
  Section& s = find(section, false);
  if (s.rows.empty()) s.rows.push_back(Row{});
  return s.rows.front();
}

Row& Report::append(const std::string& section) {
  Section& s = find(section, true);
  s.rows.push_back(Row{});
  return s.rows.back();
}

bool Report::one_of(const std::string& section, const std::string& list, const std::string& id,
                    const Row& values) {
  Row row;
  row.text("id", id).all_of(values);
  const auto first = std::find_if(first_of_.begin(), first_of_.end(),
                                  [&](const auto& entry) { return entry.first == list; });
  if (first == first_of_.end()) {
    object(section).all_of(values);
    first_of_.emplace_back(list, std::move(row));
    return true;
  }
  const bool second = std::none_of(sections_.begin(), sections_.end(),
                                   [&](const Section& s) { return s.name == list; });
  if (second) append(list) = first->second;
  append(list) = std::move(row);
  return false;
}

void Report::tell_rooms(const std::map<std::string, std::string>& room_of) {
  for (Section& section : sections_) {
    const bool told =
        section.list && std::any_of(section.rows.begin(), section.rows.end(), [&](const Row& row) {
          return !room_of_row(row, room_of).empty();
        });
    if (!told) continue;
    for (Row& row : section.rows) {
      std::string room = room_of_row(row, room_of);
      if (room.empty()) {
        row.nothing("room");
      } else {
        row.text("room", std::move(room));
      }
    }
  }
}

void Report::margin(const Margin& m) {
  std::vector<Row>& rows = find(kMarginsSection, true).rows;
  auto there = std::find_if(weakest_.begin(), weakest_.end(),
                            [&](const Margin& w) { return w.group == m.group; });
  if (there == weakest_.end()) {
    weakest_.push_back(m);
    rows.emplace_back();
    there = weakest_.end() - 1;
  } else if (m.arrived_v * there->needed_v >= there->arrived_v * m.needed_v) {
    return;
  }
  *there = m;
  Row row;
  row.text("group", m.group).text("part", m.part);
  row.put("arrived_v", m.arrived_v, "V").put("needed_v", m.needed_v, "V");
  row.put("margin", 100 * (m.arrived_v / m.needed_v - 1), "%").text("at", m.at);
  rows[static_cast<std::size_t>(there - weakest_.begin())] = std::move(row);
}

std::vector<std::string>& Report::sentences_under(const std::string& heading) {
  for (auto& [name, sentences] : said_) {
    if (name == heading) return sentences;
  }
  said_.push_back({heading, {}});
  return said_.back().second;
}

void Report::missed(const std::string& what, const std::string& when) {
  std::vector<std::string>& all = sentences_under(kMissedHeading);
  if (!when.empty()) all.push_back(what + " " + when + ".");
}

void Report::say(const std::string& heading, std::string sentence) {
  sentences_under(heading).push_back(std::move(sentence));
}

}  // namespace sixty
