#pragma once

#include "sim/scene/draft.hpp"

namespace sixty {

/// Gives every terminal of every part its node: joined ones that of their net, open ones one of
/// their own. Node 0 is the net named "minus", or else the first net, so that potentials are told
/// from there.
/// Returns how many nodes there are. Errors: reported.
circuit::Node assign_nodes(const Draft& draft, Installation& installation, Mistakes& mistakes);

}  // namespace sixty
