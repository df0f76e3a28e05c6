#include "gui/bench/sight.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr float kTravel_s = 0.25F;
constexpr double kFarther = 0.5;  // than that the whole building is seen, at the most
constexpr double kNearer = 16;    // than that the case is

float smooth(float share) { return share * share * (3 - 2 * share); }

Camera between(const Camera& a, const Camera& b, float share) {
  Camera c = b;
  c.centre = a.centre + (b.centre - a.centre) * share;
  c.zoom = a.zoom * std::pow(b.zoom / a.zoom, static_cast<double>(share));
  return c;
}

}  // namespace

void Sight::travel(View view, const Stage& stage, std::optional<PartId> part,
                   const sf::FloatRect& canvas) {
  home_ = true;
  view_ = view;
  const Pixel room(canvas.width, canvas.height);
  aim_ = view == View::kBuilding       ? building_camera(stage, room)
         : view == View::kPart && part ? part_camera(stage, *part, room)
                                       : case_camera(stage, room);
  least_zoom_ = std::min(kFarther * building_camera(stage, room).zoom, aim_.zoom);
  most_zoom_ = std::max(kNearer * case_camera(stage, room).zoom, aim_.zoom);
  whole_ = stage.building();
  aim_.middle += Pixel(canvas.left, canvas.top);
  camera_.middle = aim_.middle;
}

void Sight::move(float frame_s) {
  const float share = glides_ ? std::min(frame_s / kTravel_s * 3, 1.0F) : 1;
  camera_ = between(camera_, aim_, smooth(share));
}

bool Sight::travels() const {
  constexpr double kSeen_px = 0.1, kSeenShare = 1e-4;
  const Point off = (aim_.centre - camera_.centre) * aim_.zoom;
  return std::hypot(off.x, off.y) > kSeen_px ||
         std::fabs(camera_.zoom - aim_.zoom) > kSeenShare * aim_.zoom;
}

void Sight::zoom_at(Pixel at, float steps) {
  const Point still = camera_.point(at);
  const double zoom = std::clamp(camera_.zoom * std::pow(1.2, steps), least_zoom_, most_zoom_);
  camera_.centre = still + (camera_.centre - still) * (camera_.zoom / zoom);
  camera_.zoom = zoom;
  keep_in_sight();
  aim_ = camera_;
  home_ = false;
}

void Sight::bring_in(std::pair<Point, Point> box, const sf::FloatRect& canvas) {
  constexpr float kMargin = 24;
  const Pixel low = aim_.pixel(box.first), high = aim_.pixel(box.second);
  const auto off = [](float a, float b, float from, float to) {
    if (b > to) return std::max(to - b, from - a);
    return a < from ? from - a : 0.0F;
  };
  const Pixel by(off(low.x, high.x, canvas.left + kMargin, canvas.left + canvas.width - kMargin),
                 off(low.y, high.y, canvas.top + kMargin, canvas.top + canvas.height - kMargin));
  aim_.centre = aim_.centre - Point{by.x, by.y} * (1 / aim_.zoom);
}

/// Something of the drawing stays in the middle.
void Sight::keep_in_sight() {
  camera_.centre.x = std::clamp(camera_.centre.x, whole_.first.x, whole_.second.x);
  camera_.centre.y = std::clamp(camera_.centre.y, whole_.first.y, whole_.second.y);
}

void Sight::shift(Pixel by) {
  const Point units = Point{by.x, by.y} * (1 / camera_.zoom);
  camera_.centre = camera_.centre - units;
  keep_in_sight();
  aim_ = camera_;
  home_ = false;
}

}  // namespace sixty::gui
