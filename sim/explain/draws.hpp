#pragma once

#include <optional>

#include "sim/explain/link.hpp"
#include "sim/explain/roots.hpp"

namespace sixty::explain {

/// The part that draws most more than in a sound run, among those that are others: at the moment
/// at which both sessions stand. `less_too`: or most less.
std::optional<Link> greatest_draw(const Session& looked_at, const Session& sound,
                                  const Roots& roots, SimTime at, bool less_too = false);

}  // namespace sixty::explain
