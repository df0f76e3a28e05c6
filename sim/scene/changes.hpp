#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {

/// Puts the command line's changes into a scene as read. Errors: reported, without a place.
void apply_changes(const SceneChanges& changes, Draft& draft, Mistakes& mistakes);

}  // namespace sixty
