#pragma once

#include <string>
#include <vector>

#include "sim/scene/connections.hpp"
#include "sim/scene/settle.hpp"

namespace sixty {

/// Places every offered link in the state, eight bytes apart at least, so that all links have their
/// places before the first part is made.
void place_links(Installation& installation);

/// Makes a part from its settled values: its object, elements, state and riders. Order: nodes,
/// connections and places of links must be settled for all parts.
/// Returns "part.terminal" of each declared terminal that it has no use for with these values.
/// Errors: what the part refuses is reported.
std::vector<std::string> make_part(PartId id, const DraftPart& draft, const SettledPart& settled,
                                   const LinkSources& links, Installation& installation,
                                   circuit::Network& network, Mistakes& mistakes);

}  // namespace sixty
