#include "gui/views/cells.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace sixty::gui {
namespace {

constexpr double kByItself_m = 8;  // farther from all others of its floor: not in the house

double between(double a_low, double a_long, double b_low, double b_long) {
  return std::max({a_low - (b_low + b_long), b_low - (a_low + a_long), 0.0});
}

double distance_m(const Room& a, const Room& b) {
  return between(a.x_m, a.width_m, b.x_m, b.width_m) +
         between(a.y_m, a.height_m, b.y_m, b.height_m);
}

bool lies_by_itself(const Room& room, const std::vector<Room>& all) {
  bool alone = true, any = false;
  for (const Room& other : all) {
    if (&other == &room || other.floor != room.floor) continue;
    any = true;
    alone = alone && distance_m(room, other) > kByItself_m;
  }
  return any && alone;
}

/// Where most parts of the case have their room; empty where none has.
std::string room_of_case(const Installation& installation) {
  std::map<std::string, int> count;
  for (const PartInstance& part : installation.parts) {
    if (stands_in_case(part) && !part.room.empty()) ++count[part.room];
  }
  std::string most;
  for (const auto& [room, parts] : count) {
    if (most.empty() || parts > count[most]) most = room;
  }
  return most;
}

std::vector<Cell> cells_of_plan(const Installation& installation) {
  std::vector<const Room*> rooms;
  for (const Room& room : installation.rooms) rooms.push_back(&room);
  std::stable_sort(rooms.begin(), rooms.end(), [](const Room* a, const Room* b) {
    return std::tuple(a->floor, a->y_m, a->x_m) < std::tuple(b->floor, b->y_m, b->x_m);
  });
  const std::string home = room_of_case(installation);
  std::vector<Cell> cells;
  for (const Room* room : rooms) {
    Cell cell;
    cell.name = room->name;
    cell.floor = room->floor;
    cell.share = std::max(room->width_m, 1.0);
    cell.has_case = room->name == home;
    cell.outside = !cell.has_case && lies_by_itself(*room, installation.rooms);
    for (PartId p = 0; p < installation.parts.size(); ++p) {
      const PartInstance& part = installation.parts[p];
      if (part.room != room->name) continue;
      if (stands_in_room(part)) cell.parts.push_back(p);
      if (stands_in_case(part) && !cell.has_case) cell.feeders.push_back(p);
    }
    cells.push_back(std::move(cell));
  }
  return cells;
}

/// One for each loop whose parts have no room of the plan.
std::vector<Cell> cells_of_loops(const Installation& installation, const std::vector<Loop>& loops,
                                 const std::vector<Cell>& planned) {
  std::set<PartId> placed;
  for (const Cell& cell : planned) placed.insert(cell.parts.begin(), cell.parts.end());
  std::vector<Cell> cells;
  const auto add = [&](std::optional<std::size_t> loop, const std::vector<PartId>& parts) {
    Cell cell;
    if (loop) cell.name = loops[*loop].name;
    cell.loop = loop;
    cell.divisible = true;
    for (const PartId p : parts) {
      if (placed.insert(p).second) cell.parts.push_back(p);
    }
    cell.share = static_cast<double>(cell.parts.size());
    if (!cell.parts.empty()) cells.push_back(std::move(cell));
  };
  for (std::size_t k = 0; k < loops.size(); ++k) add(k, loops[k].parts);
  std::vector<PartId> rest;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    if (stands_in_room(installation.parts[p])) rest.push_back(p);
  }
  add(std::nullopt, rest);
  std::stable_sort(cells.begin(), cells.end(),
                   [](const Cell& a, const Cell& b) { return a.parts.size() < b.parts.size(); });
  return cells;
}

}  // namespace

std::vector<Cell> cells_of(const Installation& installation, const std::vector<Loop>& loops) {
  std::vector<Cell> cells = cells_of_plan(installation);
  const std::vector<Cell> more = cells_of_loops(installation, loops, cells);
  int lowest = cells.empty() ? 0 : cells.front().floor;
  for (const Cell& cell : cells) {
    if (cell.has_case) lowest = cell.floor;
  }
  const bool housed =
      std::any_of(cells.begin(), cells.end(), [](const Cell& c) { return c.has_case; });
  if (!housed) {
    Cell home;
    home.floor = lowest;
    home.has_case = true;
    home.share = 0.5;
    cells.insert(cells.begin(), std::move(home));
  }
  for (Cell cell : more) {
    cell.floor = lowest;
    cells.push_back(std::move(cell));
  }
  std::stable_sort(cells.begin(), cells.end(),
                   [](const Cell& a, const Cell& b) { return a.floor < b.floor; });
  return cells;
}

}  // namespace sixty::gui
