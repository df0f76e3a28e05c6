#pragma once

#include <SFML/System/Clock.hpp>

namespace sixty::gui {

/// Tells when a window need not be drawn anew, so that one that stands still costs next to nothing.
class Idle {
 public:
  /// For so long it is drawn on after the last change: what follows from one shows itself by then.
  static constexpr float kGoesOn_s = 0.5F;
  /// So often it is drawn even if nothing changes.
  static constexpr float kLooks_s = 1;

  /// `stirs`: something has been done to it, or is under way. Returns whether this frame may be
  /// left out. `gone_s`: since it was last asked; range: >= 0.
  bool rests(bool stirs, float gone_s);
  /// The same by the wall's clock.
  bool rests(bool stirs) { return rests(stirs, clock_.restart().asSeconds()); }

 private:
  sf::Clock clock_;
  float still_s_ = 0, shown_s_ = 0;  ///< since it last stirred, and since it was last drawn
};

}  // namespace sixty::gui
