#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {

/// Suspects that nothing which can be noticed tells apart, in groups: the number of each suspect's
/// group, from 0. Two are alike if each run of the one in which anything shows has a run of the
/// other that shows the same. Range: a library with cases.
std::vector<std::size_t> groups_of(const Library& library);

/// Suspects with a run that shows as much as this one of whatever can be looked for: nothing tells
/// them from it. Range: one for each suspect.
std::vector<bool> cannot_be_told_from(const Library& library, const std::vector<float>& departures);

}  // namespace sixty::diagnose
