#pragma once

namespace sixty::cli {

/// From now on the first Ctrl-C (or a request to end) only sets a flag, so that the run can end
/// cleanly; a second one ends the program at once. Files that grow beyond a limit make writing fail
/// instead of ending the program.
void watch_for_interrupts();

/// Whether that flag is set.
bool interrupted();

/// Thrown where nothing that has been found so far can be told: the program ends with its code.
struct Interrupted {};
/// Errors: throws it once that flag is set.
void end_if_interrupted();

}  // namespace sixty::cli
