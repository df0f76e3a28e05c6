#include "gui/bench/layout.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr float kFolded = 34;      // height of a strip that is but its head
constexpr float kLeastCard = 320;  // its readings still stand beside their names
constexpr float kLeastStrip = 150;
constexpr float kReach = 4;  // a pointer so near an edge means it

}  // namespace

float Layout::strip_height() const {
  if (is_folded()) return kFolded;
  return std::max(size_.y * static_cast<float>(strip_share_), kLeastStrip);
}

sf::FloatRect Layout::strip() const {
  return {0, size_.y - strip_height(), size_.x, strip_height()};
}

sf::FloatRect Layout::card() const {
  const float width =
      std::max({size_.x * static_cast<float>(card_share_), kLeastCard, least_card_});
  return {size_.x - width, kBar, width, size_.y - kBar - strip_height()};
}

sf::FloatRect Layout::canvas(bool card) const {
  const float beside = card ? this->card().width : 0;
  return {0, kBar, std::max(size_.x - beside, 1.0F), std::max(this->card().height, 1.0F)};
}

std::optional<Layout::Edge> Layout::edge_at(Pixel at, bool card) const {
  if (!is_folded() && std::fabs(at.y - strip().top) <= kReach) return Edge::kStrip;
  const bool beside = at.y > kBar && at.y < strip().top;
  if (card && beside && std::fabs(at.x - this->card().left) <= kReach) return Edge::kCard;
  return std::nullopt;
}

void Layout::drag(Edge edge, Pixel to) {
  const auto share = [](float part, float whole, double least, double most) {
    return std::clamp<double>(part / whole, least, most);
  };
  if (edge == Edge::kStrip)
    strip_share_ = share(size_.y - to.y, size_.y, Settings::kLeastStrip, Settings::kMostStrip);
  else
    card_share_ = share(size_.x - to.x, size_.x, Settings::kLeastCard, Settings::kMostCard);
}

void Layout::take(const Settings& settings) {
  card_share_ = settings.card_share;
  strip_share_ = settings.strip_share;
}

void Layout::give(Settings& settings) const {
  settings.card_share = card_share_;
  settings.strip_share = strip_share_;
}

sf::FloatRect box_in(Corner corner, const sf::FloatRect& room, Pixel size, float margin) {
  const bool left = corner == Corner::kLowerLeft || corner == Corner::kUpperLeft;
  const bool upper = corner == Corner::kUpperLeft || corner == Corner::kUpperRight;
  return {left ? room.left + margin : room.left + room.width - margin - size.x,
          upper ? room.top + margin : room.top + room.height - margin - size.y, size.x, size.y};
}

Corner freest_corner(Corner now, const sf::FloatRect& room, Pixel size, float margin,
                     std::span<const sf::FloatRect> boxes) {
  constexpr float kClearly = 0.2F;
  const auto hidden_in = [&](Corner corner) {
    const sf::FloatRect lies = box_in(corner, room, size, margin);
    float hidden = 0;
    for (const sf::FloatRect& box : boxes) {
      sf::FloatRect seen, covered;
      if (!box.intersects(room, seen) || !seen.intersects(lies, covered)) continue;
      hidden += covered.width * covered.height / std::max(seen.width * seen.height, 1.0F);
    }
    return hidden;
  };
  Corner best = now;
  float least = hidden_in(now) - kClearly;
  for (const Corner other :
       {Corner::kLowerLeft, Corner::kLowerRight, Corner::kUpperRight, Corner::kUpperLeft}) {
    const float hidden = hidden_in(other);
    if (hidden >= least) continue;
    best = other;
    least = hidden;
  }
  return best;
}

}  // namespace sixty::gui
