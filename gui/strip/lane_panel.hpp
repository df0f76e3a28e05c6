#pragma once

#include <string>

#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// What is chosen at the head of the strip: which lanes it has, and as what file they are kept.
/// Order: within a frame of the panels.
/// Returns what is to be kept: "csv", "vcd" or "png"; empty: nothing.
std::string show_lane_choice(Strip& strip, const Installation& installation);

}  // namespace sixty::gui
