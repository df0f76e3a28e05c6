#include "gui/views/remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "gui/paint/text_width.hpp"
#include "gui/views/building_painter.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kInner = 1.46F, kOuter = 1.72F;  // half a diamond's height, to a radius
constexpr float kLeastRadius = 7;
constexpr float kFlagHigh = 1.5F, kSign = 1.15F,
                kBeside = 0.45F;  // of a flag, to its letters' size

std::array<Pixel, 4> diamond(Pixel at, float half) {
  return {at + Pixel(0, -half), at + Pixel(half, 0), at + Pixel(0, half), at + Pixel(-half, 0)};
}

/// Where the words of a flag may not reach farther down: the floor of the room.
float floor_below(const House& house, const Painter& painter, Point at) {
  for (const Storey& storey : house.storeys) {
    if (at.y > storey.ceiling && at.y < storey.floor)
      return painter.camera().pixel({0, storey.floor}).y;
  }
  return painter.size().y;
}

/// The first number in a text, as the spoken language writes it, and the words about it.
struct Numbered {
  explicit Numbered(const std::string& text) {
    const auto begin = std::find_if(text.begin(), text.end(), is_digit);
    const auto end = std::find_if_not(
        begin, text.end(), [](char c) { return is_digit(c) || c == spoken().decimal_sign; });
    before.assign(text.begin(), begin);
    number.assign(begin, end);
    behind.assign(end, text.end());
    std::string plain = number;
    std::replace(plain.begin(), plain.end(), spoken().decimal_sign, '.');
    value = std::strtod(plain.c_str(), nullptr);
  }
  std::string before, number, behind;
  double value = 0;  ///< nothing, where there is none
};

}  // namespace

std::string merged_text(std::vector<std::string> texts) {
  if (texts.size() == 1) return texts.front();
  std::stable_sort(texts.begin(), texts.end(), [](const std::string& a, const std::string& b) {
    return Numbered(a).value < Numbered(b).value;
  });
  const Numbered least(texts.front()), most(texts.back());
  std::string all = texts.front();
  if (least.before == most.before && least.behind == most.behind && least.number != most.number)
    all = least.before + say("{} to {}", least.number, most.number) + least.behind;
  else if (texts.front() != texts.back())
    all = say("{} to {}", texts.front(), texts.back());
  return fmt::format("{} \u00d7 {}", texts.size(), all);
}

Remarks::Remarks(const Stage& stage, const Installation& installation, bool only_case,
                 const Painter& painter)
    : em_(std::clamp(13 * plan_px(painter), 11.3F, 20.0F)), window_(painter.size()) {
  if (painter.hides_wrong()) return;
  for (const Placed& placed : stage.parts()) {
    if (placed.figure.remarks().empty() || !painter.sees(placed.figure.bounds())) continue;
    if (only_case && stands_in_room(installation.parts[placed.part])) continue;
    for (const Remark& remark : placed.figure.remarks()) {
      const Pixel at = painter.camera().pixel(remark.at);
      const float radius = std::max(painter.camera().pixels(remark.radius), kLeastRadius);
      diamonds_.push_back({at, radius});
      const float high = kFlagHigh * em_;
      const float foot = std::min(floor_below(stage.house(), painter, remark.at), window_.y - 6);
      const float top = std::max(std::min(at.y + kInner * radius - 0.1F * em_, foot - high - 1),
                                 at.y + radius + 1);
      const float y = std::min(top, window_.y - high - 4);
      flags_.push_back({remark.lean, remark.text, {0, y}, {0, y + high}, {remark.text}, at});
    }
  }
  merge();
}

/// Lays each flag under the middle of what it is about; those that meet their neighbour of the same
/// height and lean are made one.
void Remarks::merge() {
  const auto lay = [&](Flag& flag) {
    flag.text = merged_text(flag.all);
    const float wide = text_width(flag.text, em_, true) + (kSign + 2.4F * kBeside) * em_;
    const float middle = flag.around.x / static_cast<float>(flag.all.size());
    flag.low.x = std::clamp(middle - wide / 2, 4.0F, std::max(window_.x - wide - 4, 4.0F));
    flag.high.x = flag.low.x + wide;
  };
  std::vector<Flag> all = std::move(flags_);
  flags_.clear();
  std::stable_sort(all.begin(), all.end(), [](const Flag& a, const Flag& b) {
    return a.low.y != b.low.y ? a.low.y < b.low.y : a.around.x < b.around.x;
  });
  const auto meet = [](const Flag& a, const Flag& b) {
    return a.high.x + 4 > b.low.x && b.high.x + 4 > a.low.x && a.high.y + 2 > b.low.y &&
           b.high.y + 2 > a.low.y;
  };
  for (Flag& flag : all) {
    lay(flag);
    while (!flags_.empty() && meet(flags_.back(), flag)) {
      Flag& before = flags_.back();
      // One stands for both: what is ahead with what lags is told by the greater number of them.
      if (before.all.size() > flag.all.size()) flag.lean = before.lean;
      flag.all.insert(flag.all.begin(), before.all.begin(), before.all.end());
      flag.around += before.around;
      flags_.pop_back();
      lay(flag);
    }
    flags_.push_back(std::move(flag));
  }
  // Where some in a row had to be made one, all in it are.
  for (std::size_t k = 0; k + 1 < flags_.size();) {
    Flag& flag = flags_[k];
    const Flag& next = flags_[k + 1];
    if (flag.low.y != next.low.y || flag.all.size() + next.all.size() < 3) {
      ++k;
      continue;
    }
    if (next.all.size() > flag.all.size()) flag.lean = next.lean;
    flag.all.insert(flag.all.end(), next.all.begin(), next.all.end());
    flag.around += next.around;
    flags_.erase(flags_.begin() + static_cast<std::ptrdiff_t>(k) + 1);
    lay(flag);
    k = k > 0 ? k - 1 : 0;
  }
}

void Remarks::paint_diamonds(Painter& painter) const {
  const Theme& t = painter.theme();
  const sf::Color ground = t.is_dark ? sf::Color(0x2B, 0x20, 0x16) : sf::Color(0xFF, 0xF0, 0xDC);
  for (const Diamond& d : diamonds_) {
    const std::array<Pixel, 4> outer = diamond(d.at, kOuter * d.radius);
    painter.mesh().fill(outer, [&](Pixel) { return ground; });
    const float width = std::clamp(0.07F * d.radius, 1.4F, 4.0F);
    for (const float half : {kInner, kOuter}) {
      const std::array<Pixel, 4> form = diamond(d.at, half * d.radius);
      painter.mesh().stroke(form, width, true, [&](Pixel) { return t.wrong; });
    }
  }
}

void Remarks::paint_flags(Painter& painter) const {
  const Theme& t = painter.theme();
  const sf::Color ink = t.is_dark ? t.ground : t.panel;
  for (const Flag& flag : flags_) {
    painter.cover(flag.low, flag.high - flag.low);
    painter.rectangle(flag.low, flag.high - flag.low, t.wrong);
    const Pixel at((flag.low.x + (kBeside + kSign / 2) * em_), (flag.low.y + flag.high.y) / 2);
    const float r = 0.38F * em_;
    std::vector<Pixel> sign;
    if (flag.lean == Remark::Lean::kStill) {
      sign = {at + Pixel(-r, -r), at + Pixel(r, -r), at + Pixel(r, r), at + Pixel(-r, r)};
    } else {
      const float point = flag.lean == Remark::Lean::kLow ? r : -r;
      sign = {at + Pixel(-1.1F * r, -point), at + Pixel(1.1F * r, -point), at + Pixel(0, point)};
    }
    painter.mesh().fill(sign, [&](Pixel) { return ink; });
    painter.letters({flag.text,
                     {flag.low.x + (1.4F * kBeside + kSign) * em_, at.y},
                     em_,
                     ink,
                     Lettering::Align::kLeft,
                     true});
  }
}

}  // namespace sixty::gui
