#pragma once

#include <string>
#include <vector>

#include "gui/paint/painter.hpp"

namespace sixty::gui {

/// A name with a few lines beside a thing.
struct Tip {
  std::string name;
  std::vector<std::string> lines;
  Pixel low, high;  ///< its box
};

/// Lays a tip beside a thing's box and near the pointer: never on the thing where there is any room
/// beside it, always within the area that is clear of panels. Units: pixels.
/// `help`: paragraphs, a line feed between them.
Tip lay_tip(const std::string& name, const std::string& help, float em,
            std::pair<Pixel, Pixel> thing, Pixel pointer, std::pair<Pixel, Pixel> clear);
void paint_tip(const Tip& tip, float em, Painter& painter);

}  // namespace sixty::gui
