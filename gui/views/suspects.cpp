#include "gui/views/suspects.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr float kFormRadius = 11, kPlateHigh = 27, kPlateWide = 84, kEm = 13;
constexpr float kMarkAround = 6, kBarWide = 46, kBarHigh = 4;
constexpr int kCorners = 6;

struct Plate {
  const SuspectMark* mark = nullptr;
  Pixel part_low, part_high;  ///< the part's box
  Pixel at;                   ///< the plate's upper left corner
};

bool meet(const Plate& a, const Plate& b) {
  return std::fabs(a.at.x - b.at.x) < kPlateWide + 2 && std::fabs(a.at.y - b.at.y) < kPlateHigh + 2;
}

/// Beside its part where there is room, else as near as others leave it.
void find_room(Plate& plate, const std::vector<Plate>& taken, std::pair<Pixel, Pixel> clear) {
  const auto put = [&](Pixel at) {
    plate.at.x =
        std::clamp(at.x, clear.first.x, std::max(clear.second.x - kPlateWide, clear.first.x));
    plate.at.y =
        std::clamp(at.y, clear.first.y, std::max(clear.second.y - kPlateHigh, clear.first.y));
  };
  const auto is_free = [&] {
    return std::none_of(taken.begin(), taken.end(),
                        [&](const Plate& other) { return meet(plate, other); });
  };
  const Pixel first(plate.part_low.x, plate.part_low.y - kPlateHigh - 3);
  constexpr int kMostSteps = 14;
  for (int away = 0; away < kMostSteps; ++away) {
    for (const float side : {-1.0F, 1.0F}) {
      put(first + Pixel(0, side * static_cast<float>(away) * (kPlateHigh + 3)));
      if (is_free()) return;
      put(first + Pixel(side * static_cast<float>(away) * (kPlateWide + 4), 0));
      if (is_free()) return;
    }
  }
  put(first);
}

/// A side of a frame, left out where words stand. Range: level or upright, `to` below or to the
/// right.
void paint_side(Pixel from, Pixel to, float width, sf::Color colour, Painter& painter) {
  constexpr float kApart = 5;
  const bool level = from.y == to.y;
  std::vector<std::pair<float, float>> words;  // along the side
  for (const Lettering& one : painter.letterings()) {
    const auto [low, high] = extent_of(one);
    const bool meets = level ? low.y - kApart < from.y && high.y + kApart > from.y
                             : low.x - kApart < from.x && high.x + kApart > from.x;
    if (meets)
      words.emplace_back((level ? low.x : low.y) - kApart, (level ? high.x : high.y) + kApart);
  }
  std::sort(words.begin(), words.end());
  float at = level ? from.x : from.y;
  const float end = level ? to.x : to.y;
  const auto put = [&](float a, float b) {
    if (b <= a) return;
    const auto place = [&](float along) {
      return level ? Pixel(along, from.y) : Pixel(from.x, along);
    };
    painter.line(std::array{place(a), place(b)}, width, colour);
  };
  for (const auto& [begins, ends] : words) {
    put(at, std::min(begins, end));
    at = std::max(at, ends);
  }
  put(at, end);
}

void paint_frame(const Plate& plate, Painter& painter) {
  const Pixel a = plate.part_low, b = plate.part_high;
  const float width = 1 + 3 * static_cast<float>(plate.mark->share);
  for (const auto& [from, to] : {std::pair(a, Pixel(b.x, a.y)), std::pair(Pixel(a.x, b.y), b),
                                 std::pair(a, Pixel(a.x, b.y)), std::pair(Pixel(b.x, a.y), b)}) {
    paint_side(from, to, width + 2, painter.theme().ground, painter);
    paint_side(from, to, width, painter.theme().text, painter);
  }
}

/// From the plate to its part, where it does not stand at it.
void paint_leader(const Plate& plate, Painter& painter) {
  const Pixel end(std::clamp(plate.at.x + kFormRadius, plate.part_low.x, plate.part_high.x),
                  std::clamp(plate.at.y + kPlateHigh / 2, plate.part_low.y, plate.part_high.y));
  const Pixel begin(std::clamp(end.x, plate.at.x, plate.at.x + kPlateWide),
                    std::clamp(end.y, plate.at.y, plate.at.y + kPlateHigh));
  if (std::fabs(end.x - begin.x) + std::fabs(end.y - begin.y) < kMarkAround) return;
  painter.line(std::array{begin, end}, 3.5F, painter.theme().ground);
  painter.line(std::array{begin, end}, 1.5F, painter.theme().text);
}

void paint_plate(const Plate& plate, Painter& painter) {
  const Theme& t = painter.theme();
  const Pixel size(kPlateWide, kPlateHigh);
  painter.cover(plate.at, size);
  painter.rectangle(plate.at, size, t.panel);
  painter.line(std::array{plate.at, plate.at + Pixel(kPlateWide, 0), plate.at + size,
                          plate.at + Pixel(0, kPlateHigh), plate.at},
               1, t.edge);
  const Pixel centre = plate.at + Pixel(kFormRadius + 3, kPlateHigh / 2);
  std::vector<Pixel> form;
  for (int k = 0; k < kCorners; ++k) {
    const float turn = 6.2831853F * static_cast<float>(k) / kCorners;
    form.push_back(centre + Pixel(kFormRadius * std::sin(turn), -kFormRadius * std::cos(turn)));
  }
  const bool leads = plate.mark->place == 1;
  if (leads) painter.mesh().fill(form, [&](Pixel) { return t.text; });
  painter.mesh().stroke(form, 1.6F, true, [&](Pixel) { return t.text; });
  painter.letters({std::to_string(plate.mark->place), centre, kEm, leads ? t.panel : t.text,
                   Lettering::Align::kMiddle, true});
  const Pixel words = plate.at + Pixel(2 * kFormRadius + 8, kPlateHigh / 2 - 4);
  painter.letters({percent(plate.mark->share), words, kEm, t.text, Lettering::Align::kLeft, true});
  const Pixel bar = plate.at + Pixel(2 * kFormRadius + 8, kPlateHigh - kBarHigh - 4);
  painter.rectangle(bar, {kBarWide, kBarHigh}, t.raised);
  const float share = static_cast<float>(std::clamp(plate.mark->share, 0.0, 1.0));
  painter.rectangle(bar, {std::max(kBarWide * share, 1.0F), kBarHigh}, t.text);
}

}  // namespace

void paint_suspects(const Stage& stage, std::span<const SuspectMark> marks,
                    std::pair<Pixel, Pixel> clear, Painter& painter) {
  const Pixel around(kMarkAround, kMarkAround);
  clear.first += around;
  clear.second -= around;
  std::vector<Plate> plates;
  for (const SuspectMark& mark : marks) {
    const Placed* placed = stage.find(mark.part);
    if (placed == nullptr || placed->figure.shapes().empty()) continue;
    const auto [low, high] = placed->figure.bounds();
    Plate plate{
        &mark, painter.camera().pixel(low) - around, painter.camera().pixel(high) + around, {}};
    if (plate.part_high.x < clear.first.x || plate.part_low.x > clear.second.x ||
        plate.part_high.y < clear.first.y || plate.part_low.y > clear.second.y)
      continue;
    find_room(plate, plates, clear);
    plates.push_back(plate);
  }
  for (const Plate& plate : plates) paint_frame(plate, painter);
  for (const Plate& plate : plates) paint_leader(plate, painter);
  for (const Plate& plate : plates) paint_plate(plate, painter);
}

}  // namespace sixty::gui
