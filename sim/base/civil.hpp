#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/clock_time.hpp"

namespace sixty {

/// Instants at which clocks go forward or back where a scene is set, for 292 years from its start.
/// `rule`: standard time and summer time as in the environment variable TZ of IEEE Std 1003.1,
/// section 8.3, as "CET-1CEST,M3.5.0,M10.5.0/3": what it means lies in the text alone, in no data
/// base that another machine might not have. Read by H. Hinnant's library `date`.
/// Range: whole minutes, no more than a day either way.
/// Errors: nothing, and in `error` what is wrong with the rule.
std::optional<std::vector<CivilChange>> civil_changes(std::string_view rule,
                                                      const CalendarTime& start,
                                                      std::string& error);

}  // namespace sixty
