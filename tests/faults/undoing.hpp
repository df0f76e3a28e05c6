#pragma once

#include <optional>

#include "sim/explain/link.hpp"
#include "sim/scene/hookup.hpp"

namespace sixty {

/// A wire that undoes what a link tells: a jumper over a contact that stood open or a place that
/// loses volts; at a contact that stood closed, or a part that draws too much, the wire taken off.
/// Nothing where no wire can.
std::optional<Hookup> undoing(const explain::Link& link, const Installation& scene);

}  // namespace sixty
