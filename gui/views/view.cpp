#include "gui/views/view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

using Where = Stand::Where;

constexpr double kLeastFull_a = 0.3;  // a smaller current is never the full light
constexpr float kBody = 13;
constexpr double kNamesFrom = 0.4;   // pixels to a unit of the building
constexpr float kLabelsFrom = 0.5F;  // pixels to a unit of the case's board

Camera fit(std::pair<Point, Point> box, Pixel size, double margin) {
  Camera camera;
  camera.centre = (box.first + box.second) * 0.5;
  camera.middle = {size.x / 2, size.y / 2};
  const double wide = (box.second.x - box.first.x) * (1 + margin);
  const double high = (box.second.y - box.first.y) * (1 + margin);
  camera.zoom = std::min(size.x / wide, size.y / high);
  return camera;
}

class StagePainter {
 public:
  StagePainter(const Stage& stage, const Installation& installation, const Look& look,
               Painter& painter)
      : stage_(stage), installation_(installation), look_(look), painter_(painter) {}

  void paint() {
    paint_rooms();
    paint_board();
    painter_.set_full_current(std::max(stage_.largest_current_a(), kLeastFull_a));
    paint_wires();
    for (const Placed& placed : stage_.parts()) {
      if (painter_.sees(placed.figure.bounds())) painter_.draw(placed.figure);
    }
    for (const Placed& placed : stage_.parts()) paint_marks(placed);
    for (const Placed& placed : stage_.parts()) paint_labels(placed);
  }

 private:
  const Theme& theme() const { return painter_.theme(); }
  Pixel pixel(Point p) const { return painter_.camera().pixel(p); }
  Where where(const Placed& placed) const {
    return installation_.parts[placed.part].kind->declaration.stand.where;
  }
  float board_px() const { return painter_.camera().pixels(stage_.case_pose().scale); }

  void paint_rooms() {
    const float em = std::clamp(painter_.camera().pixels(13), 9.5F, 15.0F);
    for (const Chamber& room : stage_.chambers()) {
      const Pixel low = pixel(room.corner), high = pixel(room.opposite);
      painter_.rectangle(low, high - low, theme().panel);
      const std::array<Pixel, 2> slab{Pixel(low.x, high.y), high};
      painter_.line(slab, std::max(painter_.camera().pixels(3), 1.0F), theme().rule);
      const std::array<Pixel, 4> walls{Pixel(low.x, high.y), low, Pixel(high.x, low.y), high};
      painter_.line(walls, 1, theme().rule);
      const auto letters = static_cast<float>(room.name.size());
      if (painter_.camera().zoom < kNamesFrom || 0.52F * em * letters > high.x - low.x + 12)
        continue;
      painter_.letters({words_of_key(room.name),
                        {(low.x + high.x) / 2, high.y + 0.75F * em},
                        em,
                        theme().second_text,
                        Lettering::Align::kMiddle,
                        false});
    }
  }

  void paint_board() {
    const auto [low, high] = stage_.case_box();
    painter_.rectangle(pixel(low), pixel(high) - pixel(low), theme().ground);
    const Pixel a = pixel(low), b = pixel(high);
    const std::array<Pixel, 5> frame{a, Pixel(b.x, a.y), b, Pixel(a.x, b.y), a};
    painter_.line(frame, 1.5F, theme().rule);
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

  void paint_labels(const Placed& placed) {
    const bool in_room = where(placed) == Where::kRoom;
    const float scale = in_room ? painter_.camera().pixels(placed.pose.scale) : board_px();
    if (scale < (in_room ? 0.9F : kLabelsFrom)) return;
    const float em = std::clamp(kBody * board_px(), kBody * 0.87F, 20.0F);
    for (const Label& label : placed.figure.labels()) {
      const Pixel at = pixel(label.at);
      if (label.text.empty()) {
        put_name(placed, at + Pixel(0, 0.7F * em), em);
        continue;
      }
      const Pixel end = pixel(label.words);
      const bool left = label.words.x < label.at.x;
      painter_.line(std::array<Pixel, 2>{at, end}, 1,
                    mix(theme().second_text, theme().ground, 0.25F));
      painter_.mesh().disc(at, 2.4F, theme().second_text, theme().second_text);
      painter_.letters({label.text, end + Pixel(left ? -4.0F : 4.0F, 0), em, theme().second_text,
                        left ? Lettering::Align::kRight : Lettering::Align::kLeft, false});
    }
  }

  /// On the rail there is room for short lines only.
  void put_name(const Placed& placed, Pixel at, float em) {
    const std::string name = words_of_key(installation_.parts[placed.part].name);
    const std::size_t gap = where(placed) == Where::kRail ? name.find(' ') : std::string::npos;
    const auto put = [&](const std::string& text, Pixel place) {
      painter_.letters({text, place, em, theme().second_text, Lettering::Align::kMiddle, false});
    };
    put(name.substr(0, gap), at);
    if (gap != std::string::npos) put(name.substr(gap + 1), at + Pixel(0, 1.15F * em));
  }

  const Stage& stage_;
  const Installation& installation_;
  const Look& look_;
  Painter& painter_;
};

}  // namespace

void paint_stage(const Stage& stage, const Installation& installation, const Look& look,
                 Painter& painter) {
  StagePainter(stage, installation, look, painter).paint();
}

Camera building_camera(const Stage& stage, Pixel size) {
  std::pair<Point, Point> box = stage.building();
  box.first.x = stage.case_box().first.x;
  box.first.y = std::min(box.first.y, stage.case_box().first.y);
  return fit(box, size, 0.05);
}

Camera case_camera(const Stage& stage, Pixel size) { return fit(stage.case_box(), size, 0.02); }

Camera part_camera(const Stage& stage, PartId part, Pixel size) {
  const Placed* placed = stage.find(part);
  if (placed == nullptr || placed->figure.shapes().empty()) return case_camera(stage, size);
  return fit(placed->figure.bounds(), size, 0.5);
}

}  // namespace sixty::gui
