#pragma once

#include <string>

#include "sim/cli/run_facts.hpp"
#include "sim/part/report.hpp"

namespace sixty::cli {

/// Name and version of the form that report_json() has. The number goes up when a key changes its
/// meaning or goes; new keys may come without that.
constexpr const char* kRunFormat = "sixtybeats-run/1";

/// A run's report as one JSON object, ending with a line end. README.md documents every key.
std::string report_json(const Report& report, const RunFacts& facts);

}  // namespace sixty::cli
