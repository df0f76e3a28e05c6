#pragma once

#include <vector>

#include "sim/diagnose/chances.hpp"
#include "sim/diagnose/ranking.hpp"

namespace sixty::diagnose {

/// Pairs of suspects that explain together what the leaders alone do not, the likeliest first, each
/// with the logarithm of its likelihood as its probability and one run of each of the two. Found
/// from the leaders: each with every other suspect. What shows in a run of either counts as shown.
std::vector<Ranked> pairs_of(const Library& library, const Chances& chances,
                             const std::vector<Ranked>& leaders, std::size_t observations);

}  // namespace sixty::diagnose
