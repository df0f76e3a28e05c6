#pragma once

#include <string>
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

/// Puts figures down as triangles and letters: fills, edges, shadows, and the light of currents.
class Painter {
 public:
  /// `size`: of the window, in pixels.
  Painter(const Theme& theme, const Camera& camera, Pixel size)
      : theme_(theme), camera_(camera), size_(size) {}

  void draw(const Figure& figure);
  /// Currents are seen against the largest on the drawing. Units: A.
  void set_full_current(double ampere) { full_a_ = ampere; }
  /// A wire with what flows through it. `scale`: units to one of the board that it lies on.
  void wire(std::span<const Point> way, double current_a, double scale);
  void letters(Lettering lettering) { letterings_.push_back(std::move(lettering)); }
  /// Straight in pixels.
  void rectangle(Pixel corner, Pixel size, sf::Color colour);
  void line(std::span<const Pixel> points, float width, sf::Color colour);

  /// Whether anything in a box, in units, can be seen.
  bool sees(std::pair<Point, Point> box) const;
  Mesh& mesh() { return mesh_; }
  const Camera& camera() const { return camera_; }
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
  float share_of_full(double current_a) const;
  std::vector<Pixel> pixels(std::span<const Point> points) const;

  const Theme& theme_;
  Camera camera_;
  Pixel size_;
  double full_a_ = 1;
  Mesh mesh_;
  std::vector<Lettering> letterings_;
};

}  // namespace sixty::gui
