#pragma once

#include <string>
#include <utility>
#include <vector>

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// The names of parts, and of their pieces with lines that lead to them: each on a plate of the
/// ground's colour, so that it can be read over wires and metal; within what no panel covers; and
/// beside the labels that are there already.
class Labels {
 public:
  /// `clear`: corners of what no panel covers. Units: pixels; `em` of the letters.
  Labels(std::pair<Pixel, Pixel> clear, float em, Painter& painter)
      : clear_(std::move(clear)), em_(em), painter_(painter) {}

  /// `ground`: the colour behind it. A name that is wider than its part stands in two lines. What
  /// is left out on one side of its part has its place on the other, if there is any.
  void put_name(const std::string& name, const Placed& placed, Point at, sf::Color ground);
  /// Where there is no room above or below: to the right of it, if there is any.
  void put_name_beside(const std::string& name, const Placed& placed, sf::Color ground);
  /// From now on, what would lie on other words is left out.
  void leave_out_what_meets(bool leaves) { leaves_out_ = leaves; }
  /// Of the letters from now on.
  void set_em(float em) { em_ = em; }
  void put_piece(const Label& label, sf::Color ground);

 private:
  using Box = std::pair<Pixel, Pixel>;
  Box box_of(const std::string& text, Pixel at, Lettering::Align align) const;
  /// The way by which it comes within the clear area.
  Pixel way_into_clear(const Box& box) const;
  bool is_free(const Box& box) const;
  std::vector<std::string> lines_of(const std::string& name, float widest) const;
  bool put_lines(const std::vector<std::string>& lines, Pixel edge, bool above, sf::Color ground);
  void put(const std::string& text, Pixel at, Lettering::Align align, sf::Color ground);

  Box clear_;
  float em_;
  bool leaves_out_ = false;
  Painter& painter_;
  std::vector<Box> taken_;
};

}  // namespace sixty::gui
