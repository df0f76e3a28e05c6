#include "gui/views/house.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "gui/paint/text_width.hpp"
#include "gui/views/cells.hpp"
#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

// All in pixels of the smallest window that shows the house in full.
constexpr double kWide = 1240, kHigh = 716;
constexpr double kWall = 8, kSlabHigh = kSlab / kUnit, kGap = 26;  // beside the house
constexpr double kLane = 7, kLaneFrom = 8, kShaftLane = 7;
constexpr double kAround = 10, kName = 13, kNameAround = 14;
constexpr double kCaseAround = 14;
constexpr double kLeastRoof = 34, kMostRoof = 92, kLeastSky = 8;
constexpr double kMostPitch = 110, kLeastPitch = 22, kLeastFeeder = 84;
constexpr double kMostCase = 420, kLeastCase = 140;
constexpr double kFits = 1.05;    // of the pitch: what a part needs in height
constexpr double kRadius = 0.44;  // of the pitch
constexpr double kBadge = 16;     // below a part

double legend_high(std::size_t loops) {
  const auto lines = (loops + kLegendColumns - 1) / kLegendColumns;
  return static_cast<double>(lines) * kLegendLine / kUnit + 12;
}

/// One storey with its rooms, from left to right.
struct Row {
  std::vector<Cell> cells;
  std::vector<std::size_t> loops;
  double high = 0;  ///< from ceiling to floor
  bool has_case = false;
};

/// A way in which the house could be laid out: how far apart its parts hang, how high the case is.
struct Plan {
  double pitch = 0, case_high = 0;
  std::vector<Row> rows;  ///< from the ground up
  double inner = 0, outer = 0, shaft = 0;
  double high = 0;        ///< of all, with the least roof
  bool too_wide = false;  ///< a room does not fit into a row
};

class Layout {
 public:
  Layout(const Installation& installation, const std::vector<Loop>& loops)
      : loops_(loops), cells_(cells_of(installation, loops)) {}

  House build() {
    Plan best;
    double most = -1;
    for (double high = kMostCase; high >= kLeastCase; high -= 20) {
      Plan plan = widest_pitch(high);
      const double worth = plan.high > kHigh || plan.too_wide
                               ? -plan.high / kHigh / 1000
                               : plan.pitch * std::pow(plan.case_high, 0.35);
      if (worth <= most && !best.rows.empty()) continue;
      most = worth;
      best = std::move(plan);
    }
    return house_of(best);
  }

 private:
  Plan widest_pitch(double case_high) const {
    Plan plan;
    for (double pitch = kMostPitch; pitch >= kLeastPitch; pitch -= 2) {
      plan = plan_of(pitch, case_high);
      if (plan.high <= kHigh && !plan.too_wide) break;
    }
    return plan;
  }

  double need(const Cell& cell, double pitch, double case_high) const {
    double parts = pitch * static_cast<double>(cell.parts.size()) + kAround;
    if (!cell.feeders.empty()) parts += kLeastFeeder;
    if (cell.has_case) parts += case_high * kCaseBoard.x / kCaseBoard.y + 2 * kCaseAround;
    const auto letters = text_width(name_of(cell), static_cast<float>(kName));
    return std::max(parts, static_cast<double>(letters) + kNameAround);
  }

  std::string name_of(const Cell& cell) const {
    return words_of_key(cell.loop ? words_of(loops_[*cell.loop]) : cell.name);
  }

  Plan plan_of(double pitch, double case_high) const {
    Plan plan;
    plan.pitch = pitch;
    plan.case_high = case_high;
    for (const Cell& cell : cells_) {
      if (cell.outside) plan.outer = std::max(plan.outer, need(cell, pitch, 0) + kGap);
    }
    const bool one_row = fill_rows(plan, kWide - 2 * kWall - plan.outer);
    if (!one_row) {
      plan.shaft = kShaftLane * static_cast<double>(loops_.size()) + kWall;
      plan.rows.clear();
      plan.too_wide = false;
      fill_rows(plan, kWide - 2 * kWall - plan.outer - plan.shaft);
    }
    plan.inner = kWide - 2 * kWall - plan.outer - plan.shaft;
    plan.high = kLeastSky + kLeastRoof + legend_high(loops_.size()) + kSlabHigh / 2;
    for (Row& row : plan.rows) {
      find_loops_of(row);
      const double parts = row.has_case ? case_high : 0;
      row.high = lanes(row) + std::max(parts, kFits * pitch + badge(row));
      plan.high += row.high + kSlabHigh;
    }
    return plan;
  }

  /// What the badges of numbered parts need below them.
  double badge(const Row& row) const {
    const bool any = std::any_of(row.loops.begin(), row.loops.end(),
                                 [&](std::size_t k) { return loops_[k].numbered; });
    return any ? kBadge : 4;
  }

  double lanes(const Row& row) const {
    return kLaneFrom + kLane * static_cast<double>(row.loops.size()) + 4;
  }

  /// Returns whether it needs only one. A room too wide for a row is carried on in the next.
  bool fill_rows(Plan& plan, double inner) const {
    double left = 0;
    int floor = 0;
    for (const Cell& whole : cells_) {
      const double limit = std::min(inner, even_width(whole.floor, inner, plan));
      for (const Cell& cell : pieces(whole, inner, plan)) {
        const double wide = cell.outside ? 0 : need(cell, plan.pitch, plan.case_high);
        if (plan.rows.empty() || cell.floor != floor || wide > left) {
          plan.rows.emplace_back();
          left = limit;
          floor = cell.floor;
        }
        left -= wide;
        Row& row = plan.rows.back();
        row.has_case = row.has_case || cell.has_case;
        row.cells.push_back(cell);
        plan.too_wide = plan.too_wide || wide > inner;
      }
    }
    return plan.rows.size() == 1;
  }

  /// How far the rows of a floor are filled, so that the last one is not left half empty.
  double even_width(int floor, double inner, const Plan& plan) const {
    double all = 0, most = 0;
    for (const Cell& cell : cells_) {
      if (cell.floor != floor || cell.outside) continue;
      const double wide = need(cell, plan.pitch, plan.case_high);
      all += wide;
      most = std::max(most, std::min(wide, inner));
    }
    return 1.05 * all / std::ceil(std::max(all / inner, 1.0)) + 0.6 * most;
  }

  std::vector<Cell> pieces(const Cell& cell, double inner, const Plan& plan) const {
    const double wide = need(cell, plan.pitch, plan.case_high);
    if (!cell.divisible || wide <= inner) return {cell};
    const auto n = static_cast<std::size_t>(std::ceil(
        plan.pitch * static_cast<double>(cell.parts.size()) / std::max(inner - kAround, 1.0)));
    std::vector<Cell> all;
    for (std::size_t k = 0; k < n; ++k) {
      Cell piece = cell;
      const auto from = static_cast<std::ptrdiff_t>(cell.parts.size() * k / n);
      const auto to = static_cast<std::ptrdiff_t>(cell.parts.size() * (k + 1) / n);
      piece.parts.assign(cell.parts.begin() + from, cell.parts.begin() + to);
      piece.share = static_cast<double>(piece.parts.size());
      all.push_back(std::move(piece));
    }
    return all;
  }

  /// Those whose parts hang there; where the case is, all. Numbered ones run on top.
  void find_loops_of(Row& row) const {
    row.loops.clear();
    std::set<PartId> here;
    for (const Cell& cell : row.cells) here.insert(cell.parts.begin(), cell.parts.end());
    for (const bool numbered : {true, false}) {
      for (std::size_t k = 0; k < loops_.size(); ++k) {
        const std::vector<PartId>& parts = loops_[k].parts;
        const bool any =
            std::any_of(parts.begin(), parts.end(), [&](PartId p) { return here.count(p) != 0; });
        if (loops_[k].numbered == numbered && (any || row.has_case)) row.loops.push_back(k);
      }
    }
  }

  House house_of(Plan& plan) {
    // What height is left goes to the storeys, the roof and the sky.
    double left = std::max(kHigh - plan.high, 0.0);
    const double each = left / (static_cast<double>(plan.rows.size()) + 0.6);
    for (Row& row : plan.rows) {
      const double more = std::min(each, 0.45 * row.high);
      row.high += more;
      left -= more;
      if (row.has_case) grow_case(plan, row, more);
    }
    const double roof = std::min(kLeastRoof + left, kMostRoof);
    left -= roof - kLeastRoof;
    House house;
    house.right = kWide - plan.outer;
    house.shaft = plan.shaft > 0 ? kWall + plan.shaft : 0;
    house.ridge = kLeastSky + left / 2;
    house.eaves = house.ridge + roof;
    double y = house.eaves + kSlabHigh / 2;
    for (auto row = plan.rows.rbegin(); row != plan.rows.rend(); ++row) {
      Storey storey;
      storey.ceiling = y;
      storey.floor = y + row->high;
      storey.loops = row->loops;
      if (row->has_case) house.case_storey = house.storeys.size();
      house.storeys.push_back(std::move(storey));
      y += row->high + kSlabHigh;
    }
    house.ground = y - kSlabHigh;
    find_radius(plan, house);
    std::size_t k = 0;
    for (auto row = plan.rows.rbegin(); row != plan.rows.rend(); ++row)
      put_rooms(plan, *row, k++, house);
    const double foot = std::max(y + legend_high(loops_.size()), kHigh);
    house.box = {{0, 0}, {kWide, foot}};
    put_lines(house);
    to_units(house);
    return house;
  }

  /// The case takes what height its storey has gained, as far as its room can be widened.
  void grow_case(Plan& plan, const Row& row, double more) const {
    double free = plan.inner;
    for (const Cell& cell : row.cells) {
      if (!cell.outside) free -= need(cell, plan.pitch, plan.case_high);
    }
    plan.case_high += std::clamp(0.8 * free * kCaseBoard.y / kCaseBoard.x, 0.0, 0.9 * more);
  }

  /// All parts are of one size: as large as the narrowest room and the lowest storey allow.
  void find_radius(const Plan& plan, House& house) const {
    double pitch = kMostPitch * 1.2;
    for (const Row& row : plan.rows) {
      pitch = std::min(pitch, (row.high - lanes(row) - badge(row)) / kFits);
      double free = plan.inner, share = 0;
      for (const Cell& cell : row.cells) {
        if (cell.outside) continue;
        free -= need(cell, plan.pitch, plan.case_high);
        share += cell.share;
      }
      for (const Cell& cell : row.cells) {
        if (cell.parts.empty()) continue;
        const double more = cell.outside || share <= 0 ? 0 : free * cell.share / share;
        pitch = std::min(pitch, plan.pitch + more / static_cast<double>(cell.parts.size()));
      }
    }
    house.radius = kRadius * std::max(pitch, plan.pitch);
  }

  void put_rooms(const Plan& plan, const Row& row, std::size_t k, House& house) {
    double free = plan.inner, share = 0;
    for (const Cell& cell : row.cells) {
      if (cell.outside) continue;
      free -= need(cell, plan.pitch, plan.case_high);
      share += cell.share;
    }
    const Storey& storey = house.storeys[k];
    double x = kWall + plan.shaft;
    double beside = house.right + kGap;
    for (const Cell& cell : row.cells) {
      double wide = need(cell, plan.pitch, plan.case_high);
      if (!cell.outside && share > 0) wide += std::max(free, 0.0) * cell.share / share;
      double& from = cell.outside ? beside : x;
      house.chambers.push_back({cell.name,
                                {from, storey.ceiling},
                                {from + wide, storey.floor},
                                k,
                                cell.outside,
                                cell.loop});
      put_parts(plan, row, cell, house);
      from += wide;
    }
  }

  void put_parts(const Plan& plan, const Row& row, const Cell& cell, House& house) const {
    const Chamber& room = house.chambers.back();
    double left = room.corner.x, right = room.opposite.x;
    if (cell.has_case) {
      const double scale = plan.case_high / kCaseBoard.y;
      const double wide = scale * kCaseBoard.x;
      // Alone, it stands in the middle of its room.
      const double before = cell.parts.empty() ? (right - left - wide) / 2 : kCaseAround;
      house.case_pose = {{left + before, room.opposite.y - plan.case_high - 3}, 0, scale};
      left += before + wide + kCaseAround;
    }
    const double top = room.corner.y + lanes(row);
    if (!cell.feeders.empty()) {
      const double each = kLeastFeeder - 10;
      for (std::size_t k = 0; k < cell.feeders.size(); ++k)
        house.feeders.push_back(
            {cell.feeders[k], {{left + 5, room.opposite.y - each}, 0, each}, room.storey});
      if (!cell.parts.empty()) left += kLeastFeeder;
    }
    const auto n = static_cast<double>(cell.parts.size());
    const double pitch = std::min((right - left - 4) / std::max(n, 1.0), 4.4 * house.radius);
    const double y = top + (room.opposite.y - top - badge(row)) * 0.48;
    for (std::size_t k = 0; k < cell.parts.size(); ++k) {
      const double x = (left + right) / 2 + pitch * (static_cast<double>(k) - (n - 1) / 2);
      house.hangings.push_back({cell.parts[k], {{x, y}, 0, house.radius / 100}, room.storey});
    }
  }

  /// In the shaft, what goes farthest lies nearest to the wall, so that nothing crosses it.
  void put_lines(House& house) const {
    std::vector<std::size_t> order(loops_.size());
    for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
    const auto farthest = [&](std::size_t loop) {
      std::size_t far = 0;
      for (std::size_t s = 0; s < house.storeys.size(); ++s) {
        const auto& run = house.storeys[s].loops;
        if (std::find(run.begin(), run.end(), loop) == run.end()) continue;
        const std::size_t away =
            s > house.case_storey ? s - house.case_storey : house.case_storey - s;
        far = std::max(far, away);
      }
      return far;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return farthest(a) > farthest(b); });
    house.lines_x.resize(loops_.size());
    for (std::size_t k = 0; k < order.size(); ++k)
      house.lines_x[order[k]] = kWall + kShaftLane * (static_cast<double>(k) + 0.7);
  }

  static void to_units(House& house) {
    const auto scale = [](double& v) { v *= kUnit; };
    const auto scale_point = [](Point& p) { p = p * kUnit; };
    for (Storey& storey : house.storeys) {
      scale(storey.ceiling);
      scale(storey.floor);
    }
    for (Chamber& room : house.chambers) {
      scale_point(room.corner);
      scale_point(room.opposite);
    }
    const auto scale_pose = [&](Pose& pose) {
      scale_point(pose.at);
      scale(pose.scale);
    };
    for (Hanging& hanging : house.hangings) scale_pose(hanging.pose);
    for (Hanging& feeder : house.feeders) scale_pose(feeder.pose);
    scale_pose(house.case_pose);
    for (double* v : {&house.radius, &house.left, &house.right, &house.shaft, &house.ridge,
                      &house.eaves, &house.ground})
      scale(*v);
    for (double& x : house.lines_x) scale(x);
    scale_point(house.box.first);
    scale_point(house.box.second);
  }

  const std::vector<Loop>& loops_;
  std::vector<Cell> cells_;
};

}  // namespace

double Storey::lane(std::size_t loop) const {
  const auto at = std::find(loops.begin(), loops.end(), loop);
  const auto k = static_cast<double>(at - loops.begin());
  return ceiling + (kLaneFrom + kLane * (k + 0.5)) * kUnit;
}

House build_house(const Installation& installation, const std::vector<Loop>& loops) {
  return Layout(installation, loops).build();
}

}  // namespace sixty::gui
