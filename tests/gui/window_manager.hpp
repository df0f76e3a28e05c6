#pragma once

#include <string>

namespace sixty::gui {

/// Asks the one window of a display to close, as a desktop's button does. Returns whether there was
/// one. Errors: false.
bool ask_to_close(const std::string& display_number);

}  // namespace sixty::gui
