#pragma once

#include <string>
#include <vector>

#include "sim/cli/arguments.hpp"
#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::cli {

/// How the runs of a library are made. Errors: reported.
diagnose::LibraryPlan plan_of(const SceneArguments& scene, const LibraryArguments& library,
                              Diagnostics& mistakes);

/// Takes a library that has been opened from the disk, or runs it and keeps it there, and says how
/// far it has come. Returns whether it was there. `early`: what was noticed, of which something is
/// told before all is known; none: nothing.
bool fill_or_find(diagnose::Library& library, const diagnose::LibraryPlan& plan,
                  const std::string& cache, const Registry& registry,
                  const std::vector<diagnose::Observation>& early);

}  // namespace sixty::cli
