#pragma once

#include <string>
#include <utility>
#include <vector>

#include "gui/paint/mesh.hpp"
#include "gui/paint/theme.hpp"
#include "sim/part/figure.hpp"

namespace sixty::gui {

/// From units of a drawing to pixels.
struct Camera {
  Point centre;        ///< units
  double zoom = 1;     ///< pixels to a unit
  Pixel middle{0, 0};  ///< pixel at which the centre is seen
  Pixel pixel(Point p) const;
  Point point(Pixel p) const;
  float pixels(double units) const { return static_cast<float>(units * zoom); }
};

/// Letters to be put down once all shapes are.
struct Lettering {
  enum class Align : std::uint8_t { kLeft, kMiddle, kRight };
  std::string text;  ///< UTF-8
  Pixel at;          ///< on the letters' middle line
  float size = 0;    ///< of the em, pixels
  sf::Color colour;
  Align align = Align::kMiddle;
  bool bold = false;
};

/// The box that they take up.
std::pair<Pixel, Pixel> extent_of(const Lettering& lettering);

/// Puts figures down as triangles and letters: fills, edges, shadows, and the light of currents.
class Painter {
 public:
  /// `size`: of the window, in pixels. `used`: a mesh of an earlier frame, for its memory.
  Painter(const Theme& theme, const Camera& camera, Pixel size, Mesh used = {})
      : theme_(theme), camera_(camera), size_(size), high_(size), mesh_(std::move(used)) {
    mesh_.clear();
  }

  /// What lies outside that box, in pixels, need not be put down: it will be covered, or cut off.
  void show_only(Pixel low, Pixel high) {
    low_ = low;
    high_ = high;
  }
  void draw(const Figure& figure);
  /// The figure as it would look at another place: what is at `from` is seen at `to`.
  void draw_moved(const Figure& figure, Point from, Point to, double scale);
  /// What is not as it should be is not told: neither remarks nor where things should be.
  void hide_wrong(bool hides) { hides_wrong_ = hides; }
  bool hides_wrong() const { return hides_wrong_; }
  /// Whether a figure takes so much of the window that what lies behind its face is shown.
  bool is_large(const Figure& figure) const;
  /// Currents are seen against the largest on the drawing. Units: A.
  void set_full_current(double ampere) { full_a_ = ampere; }
  /// A wire with what flows through it. `scale`: units to one of the board that it lies on.
  void wire(std::span<const Point> way, double current_a, double scale);
  void letters(Lettering lettering) { letterings_.push_back(std::move(lettering)); }
  /// What has been written within a box is covered by what is put there now.
  void cover(Pixel corner, Pixel size);
  /// Straight in pixels.
  void rectangle(Pixel corner, Pixel size, sf::Color colour);
  void line(std::span<const Pixel> points, float width, sf::Color colour);
  /// A line of dashes. `pattern`: lengths, by turns of a dash and of a gap; empty: an unbroken one.
  void dashes(std::span<const Pixel> points, float width, sf::Color colour,
              std::span<const float> pattern);
  /// 0 where no current is to be seen, up to 1 for a full one.
  float share_of_full(double current_a) const;

  /// Whether anything in a box, in units, can be seen.
  bool sees(std::pair<Point, Point> box) const;
  Mesh& mesh() { return mesh_; }
  const Camera& camera() const { return camera_; }
  Pixel size() const { return size_; }
  const Theme& theme() const { return theme_; }
  const std::vector<Lettering>& letterings() const { return letterings_; }

 private:
  void area(const Shape& shape, std::vector<Pixel> outline);
  void band(const Shape& shape, std::span<const Pixel> points);
  void disc(const Shape& shape, Pixel centre);
  void stroke(const Shape& shape, std::span<const Pixel> points);
  void edges(std::span<const Pixel> outline, const Finish& finish);
  float fall(std::vector<Pixel>& outline, double lift) const;
  void shadow(std::vector<Pixel> outline, double lift);
  void shadow_between(std::vector<Pixel> outer, std::vector<Pixel> inner, double lift);
  void glow(std::span<const Pixel> points, double current_a, float wide);
  void spark(const Spark& spark);
  void ghost(const Shape& shape, std::span<const Pixel> points);
  bool shows(const Shape& shape, std::span<const Pixel> points) const;
  std::vector<Pixel> pixels(std::span<const Point> points) const;

  const Theme& theme_;
  Camera camera_;
  Pixel size_;
  Pixel low_, high_;  ///< of what is shown
  double full_a_ = 1;
  bool hides_wrong_ = false;
  Mesh mesh_;
  std::vector<Lettering> letterings_;
};

}  // namespace sixty::gui
