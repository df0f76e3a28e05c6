#pragma once

#include <string>

#include "sim/exhibit/hours.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::exhibit {

/// Reads a map of days and times: `Mon-Fri: "09:00-17:30"`, `Sat: ["10:00-12:00", "14:00-16:00"]`,
/// `Sun: closed`, `2026-12-24: closed`. What goes on past midnight is written as two spans. A null
/// pointer is nothing said. Errors: reported.
Hours read_hours(const YamlNode* node, const std::string& label, TreeReader& reader);

}  // namespace sixty::exhibit
