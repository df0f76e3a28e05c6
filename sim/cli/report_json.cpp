#include "sim/cli/report_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "sim/cli/report_text.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

struct CellToJson {
  Json operator()(std::monostate) const { return nullptr; }
  Json operator()(double number) const {
    return std::isfinite(number) ? Json(number) : Json(nullptr);
  }
  template <class T>
  Json operator()(const T& value) const {
    return value;
  }
};

// A key that is there already stays as it is: the run's own facts are not for parts to change.
void put_cells(const Row& row, Json& object) {
  for (const Cell& cell : row.cells())
    object.emplace(cell.key, std::visit(CellToJson{}, cell.value));
}

Json row_to_json(const Row& row) {
  Json object = Json::object();
  put_cells(row, object);
  return object;
}

Json section_to_json(const Report::Section& section) {
  if (!section.list) return row_to_json(section.rows.front());
  Json list = Json::array();
  for (const Row& row : section.rows) list.push_back(row_to_json(row));
  return list;
}

Json rooms_json(const std::vector<Room>& rooms) {
  Json list = Json::array();
  for (const Room& room : rooms) {
    list.push_back(Json{{"name", room.name},
                        {"floor", room.floor},
                        {"x_m", room.x_m},
                        {"y_m", room.y_m},
                        {"width_m", room.width_m},
                        {"height_m", room.height_m}});
  }
  return list;
}

void put_facts(const RunFacts& facts, Json& whole) {
  whole["format"] = kRunFormat;
  whole["scene"] = facts.installation->name;
  whole["seed"] = facts.installation->seed;
  whole["simulated_s"] = static_cast<double>(facts.simulated) / 1e9;  // 5, not 5.000000000000001
  whole["wall_s"] = facts.wall_s;
  whole["events"] = facts.events;
}

}  // namespace

std::string report_json(const Report& report, const RunFacts& facts) {
  Json whole;
  put_facts(facts, whole);
  for (const Report::Section& section : report.sections()) {
    if (section.name == kTopLevelSection) put_cells(section.rows.front(), whole);
  }
  for (const Report::Section& section : report.sections()) {
    if (section.name != kTopLevelSection) whole.emplace(section.name, section_to_json(section));
  }
  const std::vector<Room>& rooms = facts.installation->rooms;
  if (!rooms.empty()) whole["rooms"] = rooms_json(rooms);
  whole["warnings"] = warnings_of(report, facts);
  return whole.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace sixty::cli
