#pragma once

#include <string>
#include <vector>

#include "sim/cli/run_facts.hpp"
#include "sim/part/report.hpp"

namespace sixty::cli {

/// Section whose cells belong to the run as a whole: members of the JSON report's outermost object,
/// and of the text report's head.
constexpr const char* kTopLevelSection = "";

/// What the parts warn of, and that the run was interrupted if it was.
std::vector<std::string> warnings_of(const Report& report, const RunFacts& facts);

/// A run's report for people: what was run, what the parts say, tables of what there is many of,
/// warnings, and what it took.
std::string report_text(const Report& report, const RunFacts& facts);

/// The middle of it: sentences under one heading. Those that differ in nothing but the name before
/// their colon are said once, with all the names; of very many different ones the first are shown.
std::string sentences_text(const std::vector<std::string>& sentences);

/// One value with its unit, rounded for people; "-" for what is not known.
std::string cell_text(const Cell& cell);

/// One list section as a table. Of a long one the ends are shown and the rows that are unlike the
/// rest, then a line that sums up all of it.
std::string section_text(const Report::Section& section);

}  // namespace sixty::cli
