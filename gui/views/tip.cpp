#include "gui/views/tip.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "gui/paint/text_width.hpp"

namespace sixty::gui {
namespace {

constexpr float kAway = 12;        // from the thing
constexpr float kLineHigh = 1.4F;  // to the letters' size
constexpr float kWidest = 30;      // line, in ems
constexpr float kTipAround = 9;

float distance(Pixel p, Pixel low, Pixel high) {
  const float x = std::max({low.x - p.x, p.x - high.x, 0.0F});
  const float y = std::max({low.y - p.y, p.y - high.y, 0.0F});
  return x + y;
}

}  // namespace

Tip lay_tip(const std::string& name, const std::string& help, float em,
            std::pair<Pixel, Pixel> thing, Pixel pointer, std::pair<Pixel, Pixel> clear) {
  const auto [least, most] = clear;
  const float room = std::max(most.x - least.x - 2 * kTipAround - 8, 4 * em);
  Tip tip{name, {}, {}, {}};
  std::istringstream paragraphs(help);
  for (std::string paragraph; std::getline(paragraphs, paragraph);) {
    const std::vector<std::string> lines =
        broken_lines(paragraph, std::min(kWidest * em, room),
                     [em](const std::string& line) { return text_width(line, em); });
    tip.lines.insert(tip.lines.end(), lines.begin(), lines.end());
  }
  float wide = text_width(name, em, true);
  for (const std::string& line : tip.lines) wide = std::max(wide, text_width(line, em));
  const Pixel size(
      wide + 2 * kTipAround,
      kLineHigh * em * (1.0F + static_cast<float>(tip.lines.size())) + 1.4F * kTipAround);
  const Pixel low_most(least.x + 4, least.y + 4);
  const Pixel high_most(std::max(most.x - size.x - 4, low_most.x),
                        std::max(most.y - size.y - 4, low_most.y));
  const auto x_of = [&](float x) { return std::clamp(x, low_most.x, high_most.x); };
  const auto y_of = [&](float y) { return std::clamp(y, low_most.y, high_most.y); };
  const float x = x_of(pointer.x - size.x / 2), y = y_of(pointer.y - size.y / 2);
  const std::array<Pixel, 4> places{
      Pixel(thing.second.x + kAway, y), Pixel(thing.first.x - kAway - size.x, y),
      Pixel(x, thing.second.y + kAway), Pixel(x, thing.first.y - kAway - size.y)};
  const Pixel* best = nullptr;
  float nearest = 0;
  for (const Pixel& place : places) {
    if (place.x != x_of(place.x) || place.y != y_of(place.y)) continue;
    const float away = distance(pointer, place, place + size);
    if (best != nullptr && away >= nearest) continue;
    best = &place;
    nearest = away;
  }
  // The thing fills all there is: in the corner farthest from the pointer.
  const Pixel corner(pointer.x < (least.x + most.x) / 2 ? high_most.x : low_most.x,
                     pointer.y < (least.y + most.y) / 2 ? high_most.y : low_most.y);
  tip.low = best != nullptr ? *best : corner;
  tip.high = tip.low + size;
  return tip;
}

void paint_tip(const Tip& tip, float em, Painter& painter) {
  const Theme& t = painter.theme();
  painter.cover(tip.low, tip.high - tip.low);
  painter.rectangle(tip.low, tip.high - tip.low, t.raised);
  const std::array<Pixel, 5> frame{tip.low, Pixel(tip.high.x, tip.low.y), tip.high,
                                   Pixel(tip.low.x, tip.high.y), tip.low};
  painter.line(frame, 1, t.edge);
  Pixel at(tip.low.x + kTipAround, tip.low.y + 0.7F * kTipAround + 0.7F * em);
  painter.letters({tip.name, at, em, t.text, Lettering::Align::kLeft, true});
  for (const std::string& line : tip.lines) {
    at.y += kLineHigh * em;
    painter.letters({line, at, em, t.second_text, Lettering::Align::kLeft, false});
  }
}

}  // namespace sixty::gui
