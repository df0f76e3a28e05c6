#pragma once

#include <string>

namespace sixty::gui {

/// Why no window can be opened here: no X server, or one without OpenGL. Empty: one can. Asks the
/// server itself, since the window library ends the program where there is none.
std::string why_no_window();

/// How large the display asks letters to be (its resource Xft.dpi, against 96), or 1 where it asks
/// for nothing. Range: above 0.
double display_scale();

}  // namespace sixty::gui
