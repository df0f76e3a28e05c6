#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::diagnose {

/// What is noticed, through the library's watch, of its own installation with faults in it from the
/// start on: departures of all signs in all spans, to who knows it well. Order: the library knows
/// what is usual.
std::vector<float> noticed_with(const Library& library, const std::vector<Injection>& faults);

}  // namespace sixty::diagnose
