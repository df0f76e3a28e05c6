#pragma once

#include <memory>
#include <optional>
#include <string>

#include "sim/base/clock_time.hpp"
#include "sim/cli/arguments.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::cli {

/// What the command line changes in a scene. Errors: reported.
SceneChanges changes_of(const SceneArguments& arguments, Diagnostics& mistakes);

/// Loads a scene with the command line's changes. Errors: reported, all in one go; then nullptr.
/// The same without any faults, its own or the command line's.
std::shared_ptr<const Installation> load_sound(const SceneArguments& arguments,
                                               const Registry& registry, Diagnostics& mistakes);
std::shared_ptr<const Installation> load(const SceneArguments& arguments, const Registry& registry,
                                         Diagnostics& mistakes);

/// Reads the DURATION given with an option. Errors: reported; then 0. An empty text gives nothing
/// and is no mistake.
std::optional<SimTime> duration_of(const std::string& option, const std::string& text,
                                   Diagnostics& mistakes);
/// Reads the TIME given with an option, by the clocks of a scene; a weekday means the
/// first one at or after `from`. Errors: as duration_of().
std::optional<SimTime> time_of(const std::string& option, const std::string& text,
                               const CivilClock& clock, SimTime from, Diagnostics& mistakes);

/// Reads the whole number given with an option, and a share as "20 %". Errors: reported; then
/// nothing, as for an empty text.
std::optional<std::uint64_t> count_of(const std::string& option, const std::string& text,
                                      std::uint64_t least, std::uint64_t most,
                                      Diagnostics& mistakes);
std::optional<double> share_of(const std::string& option, const std::string& text,
                               Diagnostics& mistakes);

/// Reports every action of the command line that lies behind the end of the run, where it could
/// change nothing. A scene's own script may be longer than a run.
void check_actions(const Installation& installation, SimTime until, Diagnostics& mistakes);

}  // namespace sixty::cli
