#pragma once

#include <string>
#include <vector>

#include "sim/scene/draft.hpp"

namespace sixty {

/// Takes "TIME part.command [QUANTITY]", as the command line has it, apart: the command begins at
/// the first word that reads like "part.command". Errors: nothing, reported.
bool split_action(const std::string& text, DraftAction& action, Mistakes& mistakes);

/// Looks up times and commands of a script, in order of time and, at one time, as written.
/// Errors: reported.
std::vector<Action> read_actions(const Draft& draft, Mistakes& mistakes);

}  // namespace sixty
