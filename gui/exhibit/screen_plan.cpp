#include "gui/exhibit/screen_plan.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

// Of DejaVu Sans: the height of its x is 1120 of 2048 units. Source: the font's own table OS/2.
constexpr float kHeightOfX = 1120.0F / 2048.0F;
constexpr float kGapEm = 0.45F;  // between boxes; this and what follows in em
constexpr float kHeadHigh = 2.5F;
constexpr float kThingHigh = 6.4F;     // high: its figure, and two lines below
constexpr float kHandHigh = 2.7F;      // high: a line, or two of a narrow one
constexpr float kLanguageWide = 5.6F;  // wide
constexpr float kWordsLow = 7.2F;      // high, where words stand below the drawing
constexpr float kWordsShare = 0.4F;    // of the width, where they stand beside it

sf::FloatRect inset(const sf::FloatRect& box, float by) {
  return {box.left + by, box.top + by, std::max(box.width - 2 * by, 1.0F),
          std::max(box.height - 2 * by, 1.0F)};
}

}  // namespace

ScreenSizes sizes_on(const exhibit::Screen& screen, Pixel size) {
  // A screen that stands on end has the same pixels.
  const double to_m = std::max(size.x, size.y) / screen.width_m;
  const double letter_m = exhibit::Screen::kLetter_m * screen.distance_m / exhibit::Screen::kAt_m;
  return {static_cast<float>(letter_m * to_m) / kHeightOfX,
          static_cast<float>(exhibit::Screen::kTarget_m * to_m)};
}

void ScreenPlan::place_things(sf::FloatRect box, std::size_t rows, const ScreenNeeds& needs,
                              const ScreenSizes& sizes) {
  const float gap = kGapEm * sizes.letter;
  if (needs.languages > 1) {
    const float wide = std::max(kLanguageWide * sizes.letter, sizes.target);
    const float high = (box.height - gap * static_cast<float>(needs.languages - 1)) /
                       static_cast<float>(needs.languages);
    for (std::size_t k = 0; k < needs.languages; ++k)
      languages.emplace_back(box.left + box.width - wide,
                             box.top + static_cast<float>(k) * (high + gap), wide, high);
    box.width -= wide + gap;
  }
  const std::size_t columns = (needs.things + rows - 1) / rows;
  const float wide =
      (box.width - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const float high = (box.height - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
  for (std::size_t k = 0; k < needs.things; ++k) {
    const std::size_t column = k % columns, row = k / columns;
    things.emplace_back(box.left + static_cast<float>(column) * (wide + gap),
                        box.top + static_cast<float>(row) * (high + gap), wide, high);
  }
}

sf::FloatRect ScreenPlan::stack_hands(sf::FloatRect box, std::size_t count,
                                      const ScreenSizes& sizes) {
  const float gap = kGapEm * sizes.letter, high = std::max(kHandHigh * sizes.letter, sizes.target);
  for (std::size_t k = 0; k < count; ++k)
    hands.emplace_back(box.left,
                       box.top + box.height - static_cast<float>(count - k) * (high + gap) + gap,
                       box.width, high);
  box.height = std::max(box.height - static_cast<float>(count) * (high + gap), 1.0F);
  return box;
}

ScreenPlan::ScreenPlan(const exhibit::Screen& screen, Pixel size, const ScreenNeeds& needs) {
  const ScreenSizes sizes = sizes_on(screen, size);
  const float em = sizes.letter, gap = kGapEm * em;
  const bool stands = size.y > size.x;
  const std::size_t rows = stands ? 2 : 1, count = needs.hands + (needs.another ? 1 : 0);
  const sf::FloatRect all = inset({0, 0, size.x, size.y}, gap);
  head = {all.left, all.top, all.width, kHeadHigh * em};
  const float things_high =
      static_cast<float>(rows) * (std::max(kThingHigh * em, sizes.target) + gap) - gap;
  const float things_top = all.top + all.height - things_high;
  place_things({all.left, things_top, all.width, things_high}, rows, needs, sizes);
  const float top = head.top + head.height + gap;
  const sf::FloatRect between{all.left, top, all.width, things_top - gap - top};
  if (!stands && !screen.low) {
    const float wide = kWordsShare * between.width;
    drawing = {between.left, between.top, between.width - wide - gap, between.height};
    words = stack_hands({drawing.left + drawing.width + gap, between.top, wide, between.height},
                        count, sizes);
    return;
  }
  // Words below the drawing: beside their hands where there is room for both.
  const float hand_high = std::max(kHandHigh * em, sizes.target) + gap;
  const float stacked = static_cast<float>(count) * hand_high;
  const float below = stands ? kWordsLow * em * 1.6F + stacked
                             : std::max(size.y / 2 - things_high - 2 * gap, kWordsLow * em);
  drawing = {between.left, between.top, between.width, between.height - below - gap};
  const sf::FloatRect foot{between.left, drawing.top + drawing.height + gap, between.width, below};
  if (stands) {
    words = stack_hands(foot, count, sizes);
    return;
  }
  const float wide = count == 0 ? 0 : kWordsShare * foot.width;
  words = {foot.left, foot.top, foot.width - wide - (count == 0 ? 0 : gap), foot.height};
  if (count > 0)
    stack_hands({words.left + words.width + gap, foot.top, wide, foot.height}, count, sizes);
}

std::vector<sf::FloatRect> ScreenPlan::targets() const {
  std::vector<sf::FloatRect> all = hands;
  all.insert(all.end(), things.begin(), things.end());
  all.insert(all.end(), languages.begin(), languages.end());
  return all;
}

}  // namespace sixty::gui
