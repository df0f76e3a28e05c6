#pragma once

#include "gui/paint/painter.hpp"
#include "gui/views/loops.hpp"

namespace sixty::gui {

/// The sign of a loop: its number in a filled square; of one whose parts bear the number, in an
/// outline whose form goes with the number. `lit`: current flows. Units: pixels.
void paint_badge(Painter& painter, const Loop& loop, Pixel at, float radius, bool lit);

/// How a loop's line is drawn, whatever its colour: lengths of dashes and gaps, before scaling.
std::span<const float> pattern_of(const Loop& loop);

}  // namespace sixty::gui
