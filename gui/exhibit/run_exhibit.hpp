#pragma once

#include "gui/bench/options.hpp"

namespace sixty::gui {

/// Runs the exhibit that the command line names. Returns the exit code. Errors: `mistakes` are
/// reported, and nothing is run; throws std::runtime_error where there can be no window.
int run_exhibit(const Options& options, const Registry& registry, Diagnostics& mistakes);

}  // namespace sixty::gui
