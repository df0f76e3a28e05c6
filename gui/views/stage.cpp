#include "gui/views/stage.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace sixty::gui {
namespace {

using Where = Stand::Where;

// The building, in units of the stage.
constexpr double kWidth = 1480, kStorey = 118, kSlab = 22;
constexpr double kRoomPart = 0.38;  // dials of 38 units radius
constexpr double kApart = 92, kLeastApart = 46;
constexpr double kCaseScale = 0.4;
constexpr double kBeside =
    80;  // between building and case: so that neither is seen beside the other

// On the case's board.
constexpr double kColumn_x = 1304, kColumn_y = 120, kColumnPitch = 126;
constexpr double kRail_x = 326, kRailEnd_x = 1190, kRail_y = 926;
constexpr Point kCorner{1420, 874};

bool in_case(Where where) {
  return where == Where::kColumn || where == Where::kRail || where == Where::kCorner ||
         where == Where::kFixed;
}

}  // namespace

Stage::Stage(const Installation& installation) {
  place_rooms(installation);
  case_pose_ = {
      {building_.first.x - 1600 * kCaseScale - kBeside, building_.second.y - 1000 * kCaseScale},
      0,
      kCaseScale};
  place_case(installation);
  hang(installation);
}

std::pair<Point, Point> Stage::case_box() const {
  return {case_pose_.of(Point{0, 0}), case_pose_.of(kCaseBoard)};
}

void Stage::place_case(const Installation& installation) {
  std::map<Where, int> count;
  for (const PartInstance& part : installation.parts) ++count[part.kind->declaration.stand.where];
  std::map<Where, int> next;
  const double pitch = std::min(120.0, (kRailEnd_x - kRail_x) / std::max(count[Where::kRail], 1));
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    const Stand& stand = installation.parts[p].kind->declaration.stand;
    if (!in_case(stand.where)) continue;
    const int k = next[stand.where]++;
    Pose pose;
    if (stand.where == Where::kFixed) {
      pose.at = {stand.x, stand.y};
    } else if (stand.where == Where::kColumn) {
      const double fit = std::min(1.0, 5.2 / std::max(count[Where::kColumn], 1));
      pose = {{kColumn_x, kColumn_y + kColumnPitch * fit * k}, 0, fit};
    } else if (stand.where == Where::kRail) {
      pose = {{kRail_x + pitch * (k + 0.5), kRail_y}, 0, std::min(1.0, pitch / 62)};
    } else {
      pose = {kCorner + Point{0, -150.0 * k}, 0, 1};
    }
    parts_.push_back({p, case_pose_.of(pose), {}});
  }
}

/// What hangs on another part's link stands where that part's figure says, moment by moment. They
/// are the last of the parts.
void Stage::hang(const Installation& installation) {
  for (PartId other = 0; other < installation.parts.size(); ++other) {
    const PartInstance& offers = installation.parts[other];
    for (std::size_t link = 0; link < offers.takers.size(); ++link) {
      for (const auto& [taker, taken] : offers.takers[link]) {
        const Declaration& own = installation.parts[taker].kind->declaration;
        if (own.stand.where != Where::kOnLink || own.taken[taken].name != own.stand.link) continue;
        hung_.push_back({other, offers.kind->declaration.offered[link].name});
        parts_.push_back({taker, {}, {}});
      }
    }
  }
}

/// One strip to each row of rooms, the rows of a storey one behind the other, that is above it.
void Stage::place_rooms(const Installation& installation) {
  std::map<std::pair<int, double>, std::vector<const Room*>> rows;
  double most_x = 1;
  for (const Room& room : installation.rooms) {
    rows[{room.floor, room.y_m}].push_back(&room);
    most_x = std::max(most_x, room.x_m + room.width_m);
  }
  std::map<std::string, std::vector<PartId>> in_room;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    const PartInstance& part = installation.parts[p];
    if (part.kind->declaration.stand.where == Where::kRoom) in_room[part.room].push_back(p);
  }
  const double per_m = kWidth / most_x;
  double y = 0;
  const auto put = [&](const std::vector<PartId>& parts, Point corner, double width) {
    const auto n = static_cast<double>(parts.size());
    // In a narrow room they hang one below the other.
    const bool narrow = width < kLeastApart * n;
    const double room = narrow ? kStorey : width;
    const double pitch = std::clamp(room / std::max(n, 1.0), kLeastApart, kApart);
    const double scale = kRoomPart * std::clamp(pitch / 86, 0.5, 1.0);
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const double along = pitch * (static_cast<double>(k) - (n - 1) / 2);
      const Point middle = corner + Point{width / 2, kStorey * 0.5};
      const Point at = middle + (narrow ? Point{0, along} : Point{along, 0});
      parts_.push_back({parts[k], {at, 0, scale}, {}});
    }
  };
  for (auto row = rows.rbegin(); row != rows.rend(); ++row) {
    for (const Room* room : row->second) {
      const Point corner{room->x_m * per_m, y};
      const double width = room->width_m * per_m;
      chambers_.push_back({room->name, corner, {corner.x + width, y + kStorey}});
      put(in_room[room->name], corner, width);
    }
    y += kStorey + kSlab;
  }
  // Those without a room stand in rows of twelve.
  std::vector<PartId> rest;
  for (const auto& each : in_room) {
    const std::vector<PartId>& parts = each.second;
    const bool known = std::any_of(chambers_.begin(), chambers_.end(),
                                   [&](const Chamber& c) { return c.name == each.first; });
    if (!known) rest.insert(rest.end(), parts.begin(), parts.end());
  }
  for (std::size_t k = 0; k < rest.size(); k += 12) {
    const std::vector<PartId> row(
        rest.begin() + static_cast<std::ptrdiff_t>(k),
        rest.begin() + static_cast<std::ptrdiff_t>(std::min(k + 12, rest.size())));
    chambers_.push_back({"", {0, y}, {kWidth, y + kStorey}});
    put(row, {0, y}, kWidth);
    y += kStorey + kSlab;
  }
  building_ = {{0, 0}, {kWidth, std::max(y, 300.0)}};
}

const Placed* Stage::find(PartId part) const {
  const auto it =
      std::find_if(parts_.begin(), parts_.end(), [&](const Placed& p) { return p.part == part; });
  return it == parts_.end() ? nullptr : &*it;
}

void Stage::look(Session& session) {
  const std::size_t standing = parts_.size() - hung_.size();
  for (std::size_t k = 0; k < parts_.size(); ++k) {
    parts_[k].figure.clear();
    if (k < standing || find_pose(hung_[k - standing], parts_[k].pose))
      session.draw(parts_[k].part, parts_[k].pose, parts_[k].figure);
  }
  if (!wired_) lay_wires(session.installation());
  wiring_.look(session);
  largest_a_ = 0;
  for (const Run& run : wiring_.runs()) largest_a_ = std::max(largest_a_, std::fabs(run.current_a));
}

/// Errors: false where that part has no figure, or gives the link no place.
bool Stage::find_pose(const Hung& hung, Pose& pose) const {
  const Placed* on = find(hung.on);
  if (on == nullptr) return false;
  const auto anchor = on->figure.anchors().find(hung.link);
  if (anchor == on->figure.anchors().end()) return false;
  pose = anchor->second;
  return true;
}

/// Once it is known where the figures have their terminals.
void Stage::lay_wires(const Installation& installation) {
  std::vector<Wiring::End> ends;
  for (const Placed& placed : parts_) {
    const PartInstance& part = installation.parts[placed.part];
    if (part.kind->declaration.stand.where == Where::kRoom) continue;
    for (const auto& [name, at] : placed.figure.terminals()) {
      const auto node = part.nodes.find(name);
      if (node == part.nodes.end()) continue;
      const Point on_board = (at - case_pose_.at) * (1 / case_pose_.scale);
      ends.push_back({placed.part, name, on_board, node->second});
    }
  }
  wiring_ = Wiring(std::move(ends), case_pose_);
  wired_ = true;
}

std::pair<PartId, const Handle*> Stage::handle_at(Point place) const {
  std::pair<PartId, const Handle*> found{0, nullptr};
  double smallest = 1e30;
  for (const Placed& placed : parts_) {
    for (const Handle& h : placed.figure.handles()) {
      const double size = (h.opposite.x - h.corner.x) * (h.opposite.y - h.corner.y);
      const bool within = place.x >= h.corner.x && place.x <= h.opposite.x &&
                          place.y >= h.corner.y && place.y <= h.opposite.y;
      if (!within || size >= smallest) continue;
      found = {placed.part, &h};
      smallest = size;
    }
  }
  return found;
}

const Placed* Stage::at(Point place) const {
  const Placed* found = nullptr;
  double smallest = 1e30;
  for (const Placed& placed : parts_) {
    if (placed.figure.shapes().empty()) continue;
    const auto [low, high] = placed.figure.bounds();
    if (place.x < low.x || place.x > high.x || place.y < low.y || place.y > high.y) continue;
    const double size = (high.x - low.x) * (high.y - low.y);
    if (size < smallest) found = &placed;
    smallest = std::min(smallest, size);
  }
  return found;
}

}  // namespace sixty::gui
