#pragma once

#include <span>

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// A part that is suspected. Told by form and number rather than by colour: a hexagon, filled for
/// the leader alone, with its place in the ranking; and its share, in letters and as a bar.
struct SuspectMark {
  PartId part = 0;
  std::size_t place = 1;  ///< in the ranking, from 1
  double share = 0;       ///< its probability. Range: 0 to 1
};

/// Marks them on the drawing, beside their parts and within what no panel covers; marks that would
/// meet make room for each other. `clear`: corners. Units: pixels.
void paint_suspects(const Stage& stage, std::span<const SuspectMark> marks,
                    std::pair<Pixel, Pixel> clear, Painter& painter);

}  // namespace sixty::gui
