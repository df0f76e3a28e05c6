#pragma once

#include <string>
#include <vector>

#include "sim/scene/draft.hpp"

namespace sixty {

/// Takes "TIME part.command [QUANTITY]", as the command line has it, apart: the command begins at
/// the first word that reads like "part.command". Errors: nothing, reported.
bool split_action(const std::string& text, DraftAction& action, Mistakes& mistakes);

/// A time of a scene, since its start: the first such at or after `from`. `text` is all of what was
/// written, or a piece of it. Errors: nothing, reported.
std::optional<SimTime> read_time(const std::string& text, const CivilClock& clock, SimTime from,
                                 const Written& written, Mistakes& mistakes);

/// Looks up times and commands of a script, in order of time and, at one time, as written.
/// Errors: reported.
std::vector<Action> read_actions(const Draft& draft, Mistakes& mistakes);

}  // namespace sixty
