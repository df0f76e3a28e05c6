#pragma once

namespace sixty {

/// From now on the first request to end (SIGTERM, or Ctrl-C) only sets a flag, so that the
/// program ends in good order; a second one ends it at once.
void watch_for_end();

/// Whether that flag is set.
bool is_asked_to_end();

}  // namespace sixty
