#pragma once

#include <vector>

#include "sim/diagnose/departure.hpp"

namespace sixty::diagnose {

/// Watches a session, and then tries what hands can do at the parts that have faults in them to see
/// whether it goes right: each such thing on its own, as the last day begins, which is watched
/// anew. The number of a sign of that kind is the share of what went wrong in that day that goes
/// right. At other parts such a thing changes nothing that goes wrong: a contact that is clean is
/// wiped in vain.
Sighting watch_and_try(Session& session, const std::vector<SignAt>& signs,
                       const std::vector<Usual>& usual, const WatchPlan& plan);

}  // namespace sixty::diagnose
