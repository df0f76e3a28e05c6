#include "gui/views/view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/views/building_painter.hpp"
#include "gui/views/labels.hpp"
#include "gui/views/remarks.hpp"
#include "gui/views/tip.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using Where = Stand::Where;

constexpr double kLeastFull_a = 0.3;  // a smaller current is never the full light
constexpr float kBody = 13;
constexpr float kNearCase = 0.55F;       // of the room for the drawing
constexpr float kRailNamesFrom = 0.62F;  // the same, where the rail has room for its names
constexpr float kRailEm = 8.8F;          // of names where it hardly has
constexpr float kNamesFrom = 0.3F;       // pixels to a unit of the case's board
constexpr float kLabelsFrom = 0.5F;      // the same, where there is room for all words

/// `margin`: beside it, and above and below it; shares of its size.
Camera fit(std::pair<Point, Point> box, Pixel size, double margin, double margin_y) {
  Camera camera;
  camera.centre = (box.first + box.second) * 0.5;
  camera.middle = {size.x / 2, size.y / 2};
  const double wide = (box.second.x - box.first.x) * (1 + margin);
  const double high = (box.second.y - box.first.y) * (1 + margin_y);
  camera.zoom = std::min(size.x / wide, size.y / high);
  return camera;
}

class StagePainter {
 public:
  StagePainter(const Stage& stage, const Installation& installation, const Look& look,
               Painter& painter)
      : stage_(stage), installation_(installation), look_(look), painter_(painter) {
    at_case_ = is_at_case();
  }

  Drawn paint() {
    Drawn drawn;
    painter_.hide_wrong(look_.hides_wrong);
    const Remarks remarks(stage_, installation_, at_case_, painter_);
    if (!at_case_) {
      painter_.set_full_current(std::max(stage_.lines().largest_a(), kLeastFull_a));
      paint_building(stage_, painter_);
    }
    paint_board();
    remarks.paint_diamonds(painter_);
    painter_.set_full_current(std::max(stage_.largest_current_a(), kLeastFull_a));
    paint_wires();
    for (const Placed& placed : stage_.parts()) {
      if (!is_shown(placed)) continue;
      painter_.draw(placed.figure);
      drawn.add(placed.part);
    }
    if (!at_case_) {
      paint_twins();
      painter_.set_full_current(std::max(stage_.lines().largest_a(), kLeastFull_a));
      paint_building_signs(stage_, painter_);
    }
    for (const Placed& placed : stage_.parts()) {
      paint_marks(placed);
    }
    paint_labels();
    remarks.paint_flags(painter_);
    tell_hovered();
    return drawn;
  }

 private:
  bool is_shown(const Placed& placed) const {
    return (!at_case_ || where(placed) != Where::kRoom) && painter_.sees(placed.figure.bounds());
  }

  const Theme& theme() const { return painter_.theme(); }
  Pixel pixel(Point p) const { return painter_.camera().pixel(p); }
  Where where(const Placed& placed) const {
    return installation_.parts[placed.part].kind->declaration.stand.where;
  }
  float board_px() const { return painter_.camera().pixels(stage_.case_pose().scale); }

  /// So near that the case fills the window: the building about it would only be in the way.
  bool is_at_case() const {
    if (is_building_clear()) return false;
    const auto [low, high] = stage_.case_box();
    const Point centre = painter_.camera().centre;
    if (centre.x < low.x || centre.x > high.x || centre.y < low.y || centre.y > high.y)
      return false;
    const Pixel room = clear().second - clear().first;
    return painter_.camera().pixels(high.x - low.x) > kNearCase * room.x ||
           painter_.camera().pixels(high.y - low.y) > kNearCase * room.y;
  }

  /// All of the building is to be seen, and nothing covers it.
  bool is_building_clear() const {
    const Pixel least = look_.clear_low;
    const Pixel most = look_.clear_high == Pixel() ? painter_.size() : look_.clear_high;
    const Pixel low = pixel(stage_.building().first), high = pixel(stage_.building().second);
    return low.x >= least.x && low.y >= least.y && high.x <= most.x && high.y <= most.y;
  }

  void paint_board() {
    const auto [low, high] = stage_.case_box();
    painter_.rectangle(pixel(low), pixel(high) - pixel(low), theme().ground);
    const Pixel a = pixel(low), b = pixel(high);
    const std::array<Pixel, 5> frame{a, Pixel(b.x, a.y), b, Pixel(a.x, b.y), a};
    painter_.line(frame, at_case_ ? 1.5F : 1.0F, theme().rule);
  }

  void paint_twins() {
    for (const SecondPlace& twin : stage_.second_places()) {
      const Placed* placed = stage_.find(twin.part);
      if (placed == nullptr || placed->figure.shapes().empty()) continue;
      const auto [low, high] = placed->figure.bounds();
      const double scale = std::min((twin.opposite.x - twin.corner.x) / (high.x - low.x),
                                    (twin.opposite.y - twin.corner.y) / (high.y - low.y));
      // It stands on the floor.
      const Point foot{(low.x + high.x) / 2, high.y};
      painter_.draw_moved(placed->figure, foot,
                          {(twin.corner.x + twin.opposite.x) / 2, twin.opposite.y}, scale);
    }
  }

  void paint_wires() {
    // What lives lies in front.
    std::vector<const Run*> runs;
    for (const Run& run : stage_.wiring().runs()) runs.push_back(&run);
    std::stable_sort(runs.begin(), runs.end(), [](const Run* a, const Run* b) {
      return std::fabs(a->current_a) < std::fabs(b->current_a);
    });
    for (const Run* run : runs) painter_.wire(run->way, run->current_a, stage_.case_pose().scale);
  }

  void paint_marks(const Placed& placed) {
    const bool selected = placed.part == look_.selected;
    if (!selected && placed.part != look_.hovered) return;
    const auto [low, high] = placed.figure.bounds();
    const Pixel a = pixel(low) - Pixel(6, 6), b = pixel(high) + Pixel(6, 6);
    constexpr float kLeg = 16;
    const auto corner = [&](Pixel at, float x, float y) {
      const std::array<Pixel, 3> way{at + Pixel(x * kLeg, 0), at, at + Pixel(0, y * kLeg)};
      painter_.line(way, selected ? 2.0F : 1.2F, theme().text);
    };
    corner(a, 1, 1);
    corner({b.x, a.y}, -1, 1);
    corner(b, -1, -1);
    corner({a.x, b.y}, 1, -1);
  }

  std::pair<Pixel, Pixel> clear() const {
    return {look_.clear_low, look_.clear_high == Pixel() ? painter_.size() : look_.clear_high};
  }

  float label_em() const { return std::clamp(kBody * board_px(), kBody * 0.87F, 16.0F); }

  void paint_labels() {
    Labels labels(clear(), label_em(), painter_);
    // Names first: they stand where they must, and pieces' labels beside them.
    for (const bool names : {true, false}) {
      for (const Placed& placed : stage_.parts()) {
        if (is_shown(placed)) paint_labels(placed, names, labels);
      }
    }
  }

  /// In the column names stand between a part and the next.
  bool has_room_for_name(const Placed& placed) const {
    constexpr double kBetween = 22;
    if (where(placed) != Where::kColumn) return true;
    return painter_.camera().pixels(placed.pose.scale) * kBetween >= 0.87 * kBody;
  }

  void paint_labels(const Placed& placed, bool names, Labels& labels) {
    const bool in_room = where(placed) == Where::kRoom;
    const float scale = in_room ? painter_.camera().pixels(placed.pose.scale) : board_px();
    if (scale < (in_room ? 0.9F : kNamesFrom) || (!in_room && !at_case_)) return;
    labels.leave_out_what_meets(!in_room && scale < kLabelsFrom);
    const bool tight = where(placed) == Where::kRail && board_px() < kRailNamesFrom;
    labels.set_em(tight ? kRailEm : label_em());
    const sf::Color ground = in_room ? theme().panel : theme().ground;
    const bool large = painter_.is_large(placed.figure);
    const std::string name = words_of_key(installation_.parts[placed.part].name);
    for (const Label& label : placed.figure.labels()) {
      if ((label.close && !large) || label.text.empty() != names) continue;
      if (!names)
        labels.put_piece(label, ground);
      else if (has_room_for_name(placed))
        labels.put_name(name, placed, label.at, ground);
      else
        labels.put_name_beside(name, placed, ground);
    }
  }

  /// Name and what it does, beside the part that the pointer is on.
  void tell_hovered() {
    const Placed* placed = look_.hovered ? stage_.find(*look_.hovered) : nullptr;
    if (placed == nullptr || placed->figure.shapes().empty()) return;
    const auto [low, high] = placed->figure.bounds();
    const PartInstance& part = installation_.parts[placed->part];
    const Pixel pointer = look_.pointer.x >= 0 ? look_.pointer : (pixel(low) + pixel(high)) * 0.5F;
    const std::string help = tr(part.kind->declaration.help);
    const Tip tip =
        lay_tip(words_of_key(part.name), part.notes.empty() ? help : help + "\n" + part.notes,
                kBody, {pixel(low), pixel(high)}, pointer, clear());
    paint_tip(tip, kBody, painter_);
  }

  const Stage& stage_;
  const Installation& installation_;
  const Look& look_;
  Painter& painter_;
  bool at_case_ = false;
};

}  // namespace

Drawn paint_stage(const Stage& stage, const Installation& installation, const Look& look,
                  Painter& painter) {
  return StagePainter(stage, installation, look, painter).paint();
}

Camera building_camera(const Stage& stage, Pixel size) {
  return fit(stage.building(), size, 0.03, 0.03);
}

Camera case_camera(const Stage& stage, Pixel size) {
  return fit(stage.case_box(), size, 0.02, 0.02);
}

Camera part_camera(const Stage& stage, PartId part, Pixel size) {
  const Placed* placed = stage.find(part);
  if (placed == nullptr || placed->figure.shapes().empty()) return case_camera(stage, size);
  // Words stand beside it.
  return fit(placed->figure.focused(), size, 0.5, 0.3);
}

}  // namespace sixty::gui
