#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <optional>

#include "gui/views/view.hpp"

namespace sixty::gui {

/// The camera, and how it travels from one distance to another.
class Sight {
 public:
  explicit Sight(View view) : view_(view) {}
  /// Sets out for a distance. `part`: the one that kPart is about; `canvas`: pixels of the window
  /// in which the drawing is seen.
  void travel(View view, const Stage& stage, std::optional<PartId> part,
              const sf::FloatRect& canvas);
  /// Whether it glides there, or is there at once.
  void glide(bool glides) { glides_ = glides; }
  /// Is there at once.
  void arrive() { camera_ = aim_; }
  /// Travels on. Units: s.
  void move(float frame_s);
  /// It is not yet where it set out for, by what can be seen.
  bool travels() const;
  /// Nearer or farther, with what is at that pixel staying there; no farther than that the building
  /// is half as large as the window, and no nearer than that a piece of a part fills it. Neither
  /// this nor shift() takes the drawing out of sight. Order: it has travelled.
  void zoom_at(Pixel at, float steps);
  void shift(Pixel by);
  /// Moves, no more than it must, so that a box of the drawing is seen within the canvas.
  void bring_in(std::pair<Point, Point> box, const sf::FloatRect& canvas);
  View view() const { return view_; }
  /// It is, or goes, where it set out for, and nobody has moved it since.
  bool is_home() const { return home_; }
  const Camera& camera() const { return camera_; }

 private:
  void keep_in_sight();

  View view_;
  double least_zoom_ = 0.05, most_zoom_ = 60;  ///< of the stage that was last looked at
  std::pair<Point, Point> whole_;              ///< its box
  Camera camera_, aim_;
  bool home_ = true;
  bool glides_ = true;
};

}  // namespace sixty::gui
