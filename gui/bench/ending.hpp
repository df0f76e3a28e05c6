#pragma once

namespace sixty::gui {

/// From now on the first request to end (SIGTERM, or Ctrl-C) only sets a flag, so that the window
/// is closed as by hand and keeps its settings; a second one ends the program at once.
void watch_for_end();

/// Whether that flag is set.
bool is_asked_to_end();

}  // namespace sixty::gui
