#include "gui/views/line_painter.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "gui/paint/text_width.hpp"
#include "gui/views/badge.hpp"
#include "gui/views/building_painter.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kMostShine = 2.5F;  // about a line that is seen from close by
constexpr float kHalfPair = 2;      // of the distance between two wires, on the plan

/// A line beside a way that goes only along and across.
std::vector<Pixel> beside(std::span<const Pixel> way, float away) {
  const auto left = [&](std::size_t k) {
    const Pixel d = way[k + 1] - way[k];
    const float length = std::max(std::fabs(d.x) + std::fabs(d.y), 1e-6F);
    return Pixel(d.y / length, -d.x / length);
  };
  std::vector<Pixel> all;
  for (std::size_t k = 0; k < way.size(); ++k) {
    Pixel out = k + 1 < way.size() ? left(k) : left(k - 1);
    if (k > 0 && k + 1 < way.size()) {
      const Pixel before = left(k - 1);
      if (std::fabs(before.x * out.x + before.y * out.y) < 0.5F) out += before;
    }
    all.push_back(way[k] + out * away);
  }
  return all;
}

class LinePainter {
 public:
  LinePainter(const Stage& stage, Painter& painter)
      : lines_(stage.lines()), painter_(painter), scale_(plan_px(painter)) {
    width_ = std::clamp(1.35F * scale_, 1.0F, 5.0F);
  }

  void paint() {
    const auto& stretches = lines_.stretches();
    std::vector<std::size_t> lit;
    for (std::size_t k = 0; k < stretches.size(); ++k) {
      if (painter_.share_of_full(lines_.current_a(k)) > 0) {
        lit.push_back(k);
      } else {
        put(stretches[k], 0);
      }
    }
    std::stable_sort(lit.begin(), lit.end(), [&](std::size_t a, std::size_t b) {
      return lines_.current_a(a) < lines_.current_a(b);
    });
    for (const std::size_t k : lit)
      shine(stretches[k], painter_.share_of_full(lines_.current_a(k)));
    for (const std::size_t k : lit) put(stretches[k], painter_.share_of_full(lines_.current_a(k)));
  }

  /// One piece, as of a stretch of that loop.
  void sample(const Loop& loop, Pixel a, Pixel b, float share) {
    const std::array<Pixel, 2> way{a, b};
    if (share > 0) shine_on(way, !loop.numbered, share);
    put_on(way, loop, !loop.numbered, share);
  }

 private:
  std::vector<Pixel> way_of(const Stretch& stretch) const {
    std::vector<Pixel> way;
    for (const Point p : stretch.way) way.push_back(painter_.camera().pixel(p));
    return way;
  }

  void shine(const Stretch& stretch, float share) {
    shine_on(way_of(stretch), stretch.pair, share);
  }

  void shine_on(std::span<const Pixel> way, bool pair, float share) {
    const Theme& t = painter_.theme();
    const float wide = (pair ? 2 * kHalfPair : 0) * scale_ + width_;
    const float about = std::min(scale_, kMostShine);
    if (t.is_dark) {
      painter_.mesh().shine(way, wide + 9 * about * (0.4F + 0.6F * share),
                            with_alpha(t.current, 0.4F * (0.25F + 0.75F * share)));
    } else {
      painter_.mesh().stroke(way, wide + 5 * about, false, [&](Pixel) {
        return with_alpha(t.current_bed, 0.08F + 0.2F * share);
      });
    }
  }

  void put(const Stretch& stretch, float share) {
    const std::vector<Pixel> way = way_of(stretch);
    // A crossing without a gap would be read as a joint.
    if (share == 0) {
      const float wide = (stretch.pair ? 2 * kHalfPair : 0) * scale_ + width_ + 2.4F * scale_;
      painter_.line(way, wide, room_colour(painter_.theme()));
    }
    const Loop& loop = lines_.loops()[stretch.loop];
    put_on(way, loop, stretch.pair, share);
    if (stretch.joins)
      painter_.mesh().disc(way.front(), 2.3F * scale_, colour(share), colour(share));
  }

  void put_on(std::span<const Pixel> way, const Loop& loop, bool pair, float share) {
    std::array<float, 4> scaled{};
    const std::span<const float> plain = pattern_of(loop);
    for (std::size_t k = 0; k < plain.size(); ++k) scaled[k] = plain[k] * scale_;
    const std::span<const float> pattern(scaled.data(), plain.size());
    const float wide = width_ * (painter_.theme().is_dark ? 1 : 1 + 0.5F * share);
    if (!pair) {
      painter_.dashes(way, wide, colour(share), pattern);
      return;
    }
    for (const float side : {-1.0F, 1.0F})
      painter_.dashes(beside(way, side * kHalfPair * scale_), wide, colour(share), pattern);
  }

  sf::Color colour(float share) const {
    const Theme& t = painter_.theme();
    const sf::Color dark = mix(t.wire, t.second_text, 0.25F);
    if (share == 0) return dark;
    const sf::Color lit = mix(dark, t.current, 0.35F + 0.65F * share);
    return t.is_dark ? mix(lit, t.current_core, 0.55F * share * share) : lit;
  }

  const LoopLines& lines_;
  Painter& painter_;
  float scale_, width_;
};

std::string facts_of(const Loop& loop, double current_a, bool lit) {
  if (lit) return say("{:.2f} A", current_a);
  if (loop.parts.size() < 2) return "";
  return loop.series ? say("{} in series", loop.parts.size())
                     : say("{} in parallel", loop.parts.size());
}

/// Where the columns of a table begin that are as wide as what they hold, if that has room; if not,
/// all are alike. Units: pixels, from the first one's beginning; the last: where the table ends.
std::vector<float> columns_of(const std::vector<float>& widths, float all) {
  std::vector<float> needed(kLegendColumns, 0);
  for (std::size_t k = 0; k < widths.size(); ++k)
    needed[k % kLegendColumns] = std::max(needed[k % kLegendColumns], widths[k]);
  const float spare = all - std::accumulate(needed.begin(), needed.end(), 0.0F);
  std::vector<float> begins{0};
  for (const float width : needed)
    begins.push_back(begins.back() +
                     (spare < 0 ? all / kLegendColumns : width + spare / kLegendColumns));
  return begins;
}

}  // namespace

void paint_lines(const Stage& stage, Painter& painter) { LinePainter(stage, painter).paint(); }

void paint_legend(const Stage& stage, Painter& painter, float em) {
  const House& house = stage.house();
  const Theme& theme = painter.theme();
  const LoopLines& lines = stage.lines();
  const float s = plan_px(painter);
  const float radius = std::max(6.5F * s, 6.0F);
  const float aside = 46 * s + 1.8F * radius;  // beyond the corners of any sign
  const auto name_wide = [&](const Loop& loop) {
    return text_width(words_of(loop), em) + 0.8F * em;
  };
  std::vector<std::string> facts;
  std::vector<float> widths;
  for (std::size_t k = 0; k < lines.loops().size(); ++k) {
    const Loop& loop = lines.loops()[k];
    // As wide with the current as without, lest the columns move as it flows.
    const float wide = text_width(facts_of(loop, 0, false), em);
    facts.push_back(facts_of(loop, lines.loop_a(k), painter.share_of_full(lines.loop_a(k)) > 0));
    widths.push_back(aside + name_wide(loop) + std::max(wide, text_width("0.00 A", em)) + 8);
  }
  const std::vector<float> begins =
      columns_of(widths, painter.camera().pixels(house.box.second.x - house.box.first.x));
  LinePainter sampler(stage, painter);
  for (std::size_t k = 0; k < lines.loops().size(); ++k) {
    const Loop& loop = lines.loops()[k];
    const std::size_t column = k % kLegendColumns;
    const std::size_t row = k / kLegendColumns;
    const auto line = static_cast<double>(row);
    const Pixel at =
        painter.camera().pixel({house.box.first.x + 2 * kUnit,
                                house.ground + kSlab + 18 * kUnit + line * kLegendLine}) +
        Pixel(begins[column], 0);
    const float share = painter.share_of_full(lines.loop_a(k));
    sampler.sample(loop, at, at + Pixel(34 * s, 0), share);
    paint_badge(painter, loop, at + Pixel(46 * s, 0), radius, share > 0);
    const Pixel words = at + Pixel(aside, 0);
    const float after = name_wide(loop);
    const float room = begins[column + 1] - begins[column] - aside - 5;
    if (after > room) continue;
    painter.letters({words_of(loop), words, em, share > 0 ? theme.text : theme.second_text,
                     Lettering::Align::kLeft, false});
    if (after + text_width(facts[k], em) > room) continue;
    painter.letters({facts[k], words + Pixel(after, 0), em,
                     share > 0 ? theme.text : mix(theme.second_text, theme.ground, 0.12F),
                     Lettering::Align::kLeft, false});
  }
}

}  // namespace sixty::gui
