#include "gui/views/stage.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

namespace sixty::gui {
namespace {

using Where = Stand::Where;

// On the case's board.
constexpr double kColumn_x = 1304, kColumn_y = 120, kColumnPitch = 126, kColumnRoom = 655;
constexpr double kRail_x = 326, kRailEnd_x = 1190, kRail_y = 912;
constexpr Point kCorner{1420, 874};
constexpr double kCornerWidth = 240;

bool is_in_box(Point p, Point low, Point high) {
  return p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y;
}

/// Whether a closed outline goes round it.
bool is_within(Point p, std::span<const Point> outline) {
  bool within = false;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Point a = outline[k], b = outline[(k + 1) % outline.size()];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) within = !within;
  }
  return within;
}

double distance_to(Point p, Point a, Point b) {
  const Point along = b - a;
  const double square = along.x * along.x + along.y * along.y;
  const double share = square > 0 ? ((p.x - a.x) * along.x + (p.y - a.y) * along.y) / square : 0.0;
  const Point nearest = a + along * std::clamp(share, 0.0, 1.0);
  return std::hypot(p.x - nearest.x, p.y - nearest.y);
}

/// Nothing lies there of what only tells something, or should be there.
bool is_matter(const Shape& shape) {
  return !shape.close && !shape.ghost && shape.form != Shape::Form::kText &&
         shape.material < Material::kFlux;
}

bool covers(const Shape& shape, std::span<const Point> points, Point p, double within) {
  switch (shape.form) {
    case Shape::Form::kArea:
      return is_within(p, points);
    case Shape::Form::kBand:
      return is_within(p, points.first(points.size() / 2)) !=
             is_within(p, points.subspan(points.size() / 2));
    case Shape::Form::kDisc:
      return std::hypot(p.x - points[0].x, p.y - points[0].y) <= shape.width;
    case Shape::Form::kLine:
      for (std::size_t k = 0; k + 1 < points.size(); ++k) {
        if (distance_to(p, points[k], points[k + 1]) <= shape.width / 2 + within) return true;
      }
      return false;
    case Shape::Form::kText:
      break;
  }
  return false;
}

bool covers(const Figure& figure, Point p, double within) {
  const auto& shapes = figure.shapes();
  return std::any_of(shapes.begin(), shapes.end(), [&](const Shape& shape) {
    return is_matter(shape) && covers(shape, figure.points(shape), p, within);
  });
}

}  // namespace

Stage::Stage(const Installation& installation) {
  std::vector<Loop> loops = find_loops(installation);
  house_ = std::make_shared<const House>(build_house(installation, loops));
  lines_ = LoopLines(std::move(loops), *house_);
  place_rooms();
  place_case(installation);
  place_twins(installation);
  hang(installation);
}

std::pair<Point, Point> Stage::case_box() const {
  return {case_pose().of(Point{0, 0}), case_pose().of(kCaseBoard)};
}

void Stage::place_case(const Installation& installation) {
  std::map<Where, int> count;
  for (const PartInstance& part : installation.parts) ++count[part.kind->declaration.stand.where];
  std::map<Where, int> next;
  const double pitch = std::min(120.0, (kRailEnd_x - kRail_x) / std::max(count[Where::kRail], 1));
  const double fit =
      std::min(1.0, kColumnRoom / (kColumnPitch * std::max(count[Where::kColumn], 1)));
  const int corner = std::max(count[Where::kCorner], 1);
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    const Stand& stand = installation.parts[p].kind->declaration.stand;
    if (!stands_in_case(installation.parts[p]) || stand.where == Where::kOnLink) continue;
    const int k = next[stand.where]++;
    Pose pose;
    if (stand.where == Where::kFixed) {
      pose.at = {stand.x, stand.y};
    } else if (stand.where == Where::kColumn) {
      pose = {{kColumn_x, kColumn_y + kColumnPitch * fit * k}, 0, fit};
    } else if (stand.where == Where::kRail) {
      pose = {{kRail_x + pitch * (k + 0.5), kRail_y}, 0, std::min(1.0, pitch / 62)};
    } else {
      const double aside = (k - (corner - 1) / 2.0) * kCornerWidth / corner;
      pose = {kCorner + Point{aside, 0}, 0, 1.0 / corner};
    }
    parts_.push_back({p, case_pose().of(pose), {}});
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

void Stage::place_rooms() {
  for (const Hanging& hanging : house_->hangings)
    parts_.push_back({hanging.part, hanging.pose, {}});
}

/// What feeds the others stands large in its own room too.
void Stage::place_twins(const Installation& installation) {
  for (const Hanging& feeder : house_->feeders) {
    if (installation.parts[feeder.part].kind->declaration.stand.where != Where::kCorner) continue;
    const Point corner = feeder.pose.at;
    const double wide = feeder.pose.scale;
    second_places_.push_back({feeder.part, corner, corner + Point{wide, wide}});
  }
}

const Placed* Stage::find(PartId part) const {
  const auto it =
      std::find_if(parts_.begin(), parts_.end(), [&](const Placed& p) { return p.part == part; });
  return it == parts_.end() ? nullptr : &*it;
}

void Stage::look(Session& session, std::optional<PartId> close) {
  const std::size_t standing = parts_.size() - hung_.size();
  for (std::size_t k = 0; k < parts_.size(); ++k) {
    parts_[k].figure.clear(parts_[k].part == close);
    if (k < standing || find_pose(hung_[k - standing], parts_[k].pose))
      session.draw(parts_[k].part, parts_[k].pose, parts_[k].figure);
  }
  if (!wired_) lay_wires(session.installation());
  wiring_.look(session);
  lines_.look(session);
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
      const Point on_board = (at - case_pose().at) * (1 / case_pose().scale);
      ends.push_back({placed.part, name, on_board, node->second});
    }
  }
  wiring_ = Wiring(std::move(ends), case_pose());
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

double ring_of(const Figure& figure) {
  constexpr double kOfWidth = 0.12, kOfGap = 0.42;
  const auto [low, high] = figure.bounds();
  double ring = kOfWidth * std::max(high.x - low.x, high.y - low.y);
  const auto& terminals = figure.terminals();
  for (auto a = terminals.begin(); a != terminals.end(); ++a) {
    for (auto b = std::next(a); b != terminals.end(); ++b) {
      const Point way = a->second - b->second;
      ring = std::min(ring, kOfGap * std::hypot(way.x, way.y));
    }
  }
  return ring;
}

std::optional<std::pair<PartId, std::string>> Stage::terminal_at(Point place, double within,
                                                                 double least_ring) const {
  std::optional<std::pair<PartId, std::string>> found;
  double nearest = within;
  for (const Placed& placed : parts_) {
    if (placed.figure.terminals().empty() || ring_of(placed.figure) < least_ring) continue;
    for (const auto& [name, at] : placed.figure.terminals()) {
      const double off = std::hypot(at.x - place.x, at.y - place.y);
      if (off > nearest) continue;
      nearest = off;
      found = {placed.part, name};
    }
  }
  return found;
}

const Placed* Stage::at(Point place, double within) const {
  const Placed* found = nullptr;
  double smallest = 1e30;
  for (auto placed = parts_.rbegin(); placed != parts_.rend(); ++placed) {
    if (placed->figure.shapes().empty()) continue;
    const auto [low, high] = placed->figure.bounds();
    if (!is_in_box(place, low - Point{within, within}, high + Point{within, within})) continue;
    if (covers(placed->figure, place, within)) return &*placed;
    const double size = (high.x - low.x) * (high.y - low.y);
    if (size >= smallest || !is_in_box(place, low, high)) continue;
    found = &*placed;
    smallest = size;
  }
  return found;
}

}  // namespace sixty::gui
