#pragma once

#include <span>
#include <string>

#include "gui/paint/painter.hpp"
#include "gui/views/view.hpp"

namespace sixty::gui {

/// Where the sound twin's pieces are at the same moment, as dashed outlines: only of those that are
/// elsewhere by more than a pixel or two. Range: the picture has a twin.
void paint_ghost(const Picture& picture, Painter& painter);

/// Marks the parts that an answer has come by, in its order, with their numbers; one of them is
/// lit.
void paint_chain(const Stage& stage, std::span<const PartId> parts, std::size_t lit,
                 Painter& painter);

/// A tip of a meter on a terminal, or a clamp round the wire that leaves it.
struct MeterTip {
  enum class Sign : std::uint8_t { kPlus, kMinus, kThrough };
  PartId part = 0;
  std::string terminal;
  std::string letter;  ///< of the pair; the first has round flags, the second square ones
  Sign sign = Sign::kPlus;
};
/// Rings round terminals are no smaller, nor larger, however near or far they are; where there is
/// no room for one, no tip is put. Units: pixels.
constexpr float kLeastRing_px = 2.5F, kMostRing_px = 6;
/// Where meters' tips are, each with a flag, and, while one is to be put down, every terminal that
/// is seen and where it could be; where there is any room for it, no flag lies on words.
void paint_tips(const Stage& stage, std::span<const MeterTip> tips, bool all_terminals,
                const Drawn& drawn, Painter& painter);

}  // namespace sixty::gui
