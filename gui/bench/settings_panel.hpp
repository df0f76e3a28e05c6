#pragma once

#include <imgui/imgui.h>

#include "gui/keep/settings.hpp"

namespace sixty::gui {

/// What of the settings a person may choose, on one panel: language, how large, which colours, what
/// sounds in writing, and whether views glide.
struct Choosing {
  Settings& settings;
  bool light = false;  ///< the colours as they are
  float scale = 1;     ///< of all that is drawn, as it is
};

/// What was chosen; what is kept in the settings alone has been changed there.
struct Chosen {
  bool language = false;  ///< another, or none: as the system asks
  bool other_theme = false;
  float scale = 0;  ///< 0: as it is
};

/// Order: its place is set. Units: pixels. Range: `open`: the panel is shown, until it is closed.
Chosen show_settings(const Choosing& choosing, bool& open, float width, float most_high,
                     ImFont* heading);

}  // namespace sixty::gui
