#include "gui/views/labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/paint/text_width.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kBesideLabel = 4;  // between a leading line and its words
constexpr float kLine = 1.15F;     // of the em
constexpr sf::Uint8 kPlate = 205;
constexpr float kNearly = 0.95F;  // as wide as its part

}  // namespace

Labels::Box Labels::box_of(const std::string& text, Pixel at, Lettering::Align align) const {
  const float wide = text_width(text, em_);
  float left = at.x;
  if (align == Lettering::Align::kMiddle) left -= wide / 2;
  if (align == Lettering::Align::kRight) left -= wide;
  const Pixel half(0, 0.58F * em_);
  return {Pixel(left - 3, at.y) - half, Pixel(left + wide + 3, at.y) + half};
}

Pixel Labels::way_into_clear(const Box& box) const {
  const auto way = [](float low, float high, float least, float most) {
    if (high > most) return std::max(most - high, least - low);
    return low < least ? least - low : 0.0F;
  };
  return {way(box.first.x, box.second.x, clear_.first.x, clear_.second.x),
          way(box.first.y, box.second.y, clear_.first.y, clear_.second.y)};
}

bool Labels::is_free(const Box& box) const {
  return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) {
    return box.first.x < other.second.x && box.second.x > other.first.x &&
           box.first.y < other.second.y && box.second.y > other.first.y;
  });
}

void Labels::put(const std::string& text, Pixel at, Lettering::Align align, sf::Color ground) {
  const Box box = box_of(text, at, align);
  taken_.push_back(box);
  ground.a = kPlate;
  painter_.mesh().rectangle(box.first, box.second - box.first, ground);
  painter_.letters({text, at, em_, painter_.theme().second_text, align, false});
}

/// Two at the most, broken where the longer one is shortest.
std::vector<std::string> Labels::lines_of(const std::string& name, float widest) const {
  if (text_width(name, em_) <= widest) return {name};
  std::size_t best = std::string::npos;
  const auto longer = [&](std::size_t gap) { return std::max(gap, name.size() - gap - 1); };
  for (std::size_t gap = name.find(' '); gap != std::string::npos; gap = name.find(' ', gap + 1)) {
    if (best == std::string::npos || longer(gap) < longer(best)) best = gap;
  }
  if (best == std::string::npos) return {name};
  return {name.substr(0, best), name.substr(best + 1)};
}

void Labels::put_name(const std::string& name, const Placed& placed, Point at, sf::Color ground) {
  const auto [low, high] = placed.figure.bounds();
  const float wide = painter_.camera().pixels(high.x - low.x);
  const std::vector<std::string> lines = lines_of(name, kNearly * wide);
  const Pixel middle = painter_.camera().pixel((low + high) * 0.5);
  if (way_into_clear({middle, middle}) != Pixel()) return;  // of what is hardly seen
  // Above a part or below it, never across.
  const bool above = at.y < (low.y + high.y) / 2;
  const Pixel other = painter_.camera().pixel({at.x, above ? high.y : low.y});
  if (put_lines(lines, painter_.camera().pixel(at), above, ground) || !leaves_out_) return;
  put_lines(lines, other, !above, ground);
}

/// Returns whether they were put down: there, or aside of there, nothing lies that they would meet,
/// or nothing is left out.
bool Labels::put_lines(const std::vector<std::string>& lines, Pixel edge, bool above,
                       sf::Color ground) {
  Pixel place = edge;
  place.y += above ? (-0.1F - kLine * static_cast<float>(lines.size() - 1)) * em_ : 0.7F * em_;
  const float more = kLine * em_ * static_cast<float>(lines.size() - 1);
  Box all = box_of(lines[0], place, Lettering::Align::kMiddle);
  all.second.y += more;  // with the lines below the first
  const Pixel way = way_into_clear(all);
  // Aside as far as it takes; up or down no farther than stays beside the part.
  place += Pixel(way.x, std::fabs(way.y) < 1.5F * em_ ? way.y : 0);
  const auto place_of = [&](std::size_t k) {
    return place + Pixel(0, kLine * em_ * static_cast<float>(k));
  };
  for (std::size_t k = 0; k < lines.size() && leaves_out_; ++k) {
    if (!is_free(box_of(lines[k], place_of(k), Lettering::Align::kMiddle))) return false;
  }
  for (std::size_t k = 0; k < lines.size(); ++k)
    put(lines[k], place_of(k), Lettering::Align::kMiddle, ground);
  return true;
}

void Labels::put_name_beside(const std::string& name, const Placed& placed, sf::Color ground) {
  const auto [low, high] = placed.figure.bounds();
  const Pixel edge = painter_.camera().pixel({high.x, (low.y + high.y) / 2});
  for (const float widest : {text_width(name, em_), 0.0F}) {  // in one line, or in two
    const std::vector<std::string> lines = lines_of(name, widest);
    const float above = kLine * em_ * static_cast<float>(lines.size() - 1) / 2;
    const Pixel first = edge + Pixel(2 * kBesideLabel, -above);
    const auto place_of = [&](std::size_t k) {
      return first + Pixel(0, kLine * em_ * static_cast<float>(k));
    };
    bool fits = true;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const Box box = box_of(lines[k], place_of(k), Lettering::Align::kLeft);
      fits = fits && way_into_clear(box).x == 0 && is_free(box);
    }
    if (!fits) continue;
    for (std::size_t k = 0; k < lines.size(); ++k)
      put(lines[k], place_of(k), Lettering::Align::kLeft, ground);
    return;
  }
}

void Labels::put_piece(const Label& label, sf::Color ground) {
  const Theme& theme = painter_.theme();
  const std::string words = tr(label.text);
  const Pixel at = painter_.camera().pixel(label.at);
  if (way_into_clear({at, at}) != Pixel()) return;  // of a piece that is not seen
  Pixel end = painter_.camera().pixel(label.words);
  const bool left = label.words.x < label.at.x;
  const auto align = left ? Lettering::Align::kRight : Lettering::Align::kLeft;
  const Pixel beside(left ? -kBesideLabel : kBesideLabel, 0);
  end += way_into_clear(box_of(words, end + beside, align));
  bool has_place = false;
  for (const float lines : {0.0F, 1.0F, -1.0F, 2.0F, -2.0F}) {
    const Pixel other = end + Pixel(0, lines * kLine * em_);
    if (!is_free(box_of(words, other + beside, align))) continue;
    end = other;
    has_place = true;
    break;
  }
  if (leaves_out_ && !has_place) return;
  painter_.line(std::array<Pixel, 2>{at, end}, 1, mix(theme.second_text, theme.ground, 0.25F));
  painter_.mesh().disc(at, 2.4F, theme.second_text, theme.second_text);
  put(words, end + beside, align, ground);
}

}  // namespace sixty::gui
