#pragma once

#include <string>

namespace sixty::gui {

/// Why no window can be opened here: no X server, or one without OpenGL. Empty: one can. Asks the
/// server itself, since the window library ends the program where there is none.
std::string why_no_window();

}  // namespace sixty::gui
