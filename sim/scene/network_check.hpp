#pragma once

#include "sim/scene/draft.hpp"

namespace sixty {

/// Finds what the simulator cannot compute: a node at which coils meet and nothing else conducts,
/// so that their currents would have to agree at every instant.
/// Errors: reported at the net, or at a part of it.
void check_network(const circuit::Network& network, const Draft& draft,
                   const Installation& installation, Mistakes& mistakes);

}  // namespace sixty
