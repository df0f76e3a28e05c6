#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <cstdint>
#include <optional>
#include <span>

#include "gui/keep/settings.hpp"
#include "gui/paint/mesh.hpp"

namespace sixty::gui {

/// Where bar, drawing, card and strip of time lie in the window, and the edges between them that
/// can be moved. Units: pixels of the drawing.
class Layout {
 public:
  /// What can be moved: the strip's upper edge, the card's left one.
  enum class Edge : std::uint8_t { kStrip, kCard };

  void resize(Pixel size) { size_ = size; }
  Pixel size() const { return size_; }
  /// The strip is but its head.
  void fold() { folded_ = !folded_; }
  bool is_folded() const { return folded_ || size_.y < kLeastToUnfold; }

  /// The card is at least so wide, for what else stands in its column. Units: pixels; 0: as usual.
  void widen_card(float least) { least_card_ = least; }

  float strip_height() const;
  sf::FloatRect bar() const { return {0, 0, size_.x, kBar}; }
  sf::FloatRect strip() const;
  sf::FloatRect card() const;
  /// What is left for the drawing beside a card that is there or not.
  sf::FloatRect canvas(bool card) const;

  /// `card`: it is there.
  std::optional<Edge> edge_at(Pixel at, bool card) const;
  void drag(Edge edge, Pixel to);
  void take(const Settings& settings);
  void give(Settings& settings) const;

  static constexpr float kBar = 44;
  static constexpr float kLeastToUnfold = 500;  ///< height of a window in which all has room

 private:
  Pixel size_{1, 1};
  bool folded_ = false;
  float least_card_ = 0;
  double card_share_ = Settings{}.card_share, strip_share_ = Settings{}.strip_share;
};

/// Of a room, where something may lie over it.
enum class Corner : std::uint8_t { kLowerLeft, kLowerRight, kUpperRight, kUpperLeft };

/// Units: pixels. `margin`: that it stays from the room's edges.
sf::FloatRect box_in(Corner corner, const sf::FloatRect& room, Pixel size, float margin);
/// The corner in which something of that size hides least of some boxes, each counting by the share
/// of it that is hidden. It stays in the one where it is, unless it hides clearly less in another.
Corner freest_corner(Corner now, const sf::FloatRect& room, Pixel size, float margin,
                     std::span<const sf::FloatRect> boxes);

}  // namespace sixty::gui
