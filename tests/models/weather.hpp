#pragma once

#include "sim/part/part.hpp"

namespace sixty {

/// Surroundings that a test sets by hand: commands temperature, mains.
const PartType& weather_part();

}  // namespace sixty
