#pragma once

#include <map>
#include <set>
#include <vector>

#include "sim/scene/draft.hpp"

namespace sixty {

/// What becomes of each of a scene's times of day: none, one or two instead, of the same half day
/// and never one that another time has become. Minutes of the day.
std::map<int, std::vector<int>> times_instead(const std::set<int>& times, const OtherTimes& other,
                                              std::uint64_t seed);

/// Puts the times that the draft's assumptions have people choose in place of those that the scene
/// gives. A text that is no time stays, to be refused by its part.
void choose_times(Draft& draft);

}  // namespace sixty
