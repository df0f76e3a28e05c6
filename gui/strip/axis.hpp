#pragma once

#include <algorithm>
#include <limits>

#include "gui/strip/scribe.hpp"

namespace sixty::gui {

/// What a lane reaches while it is shown.
struct Reach {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  double rest = 0;  ///< the largest, of either sign, that a column of time ends with

  void take(const Column& column);
  void take(double value);
};

/// Between which values a lane is drawn, and how far it goes beyond.
struct Axis {
  double low = 0, high = 1;
  bool is_beyond_low = false, is_beyond_high = false;  ///< what lies there is cut off

  double clamped(double value) const { return std::clamp(value, low, high); }
};

/// From zero, but for volts that never come near it. Volts that only leap up, as where a coil is
/// cut off, do not set the scale of those that stay: what is much beyond them is cut off.
Axis axis_of(const Reach& reach, bool is_volts);

}  // namespace sixty::gui
