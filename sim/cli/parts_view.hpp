#pragma once

#include <string>
#include <vector>

#include "sim/part/registry.hpp"

namespace sixty::cli {

/// Names and titles of all part types, one line each.
std::string parts_list(const Registry& registry);

/// A part type in full: what it does, its values, connections, commands, readings, events and data
/// sheets.
std::string part_text(const Registry::Entry& part);

/// What hands can do to part types, one line a command.
std::string commands_list(const std::vector<const Registry::Entry*>& parts);

/// Part types as one JSON object, ending with a line end.
std::string parts_json(const std::vector<const Registry::Entry*>& parts);

}  // namespace sixty::cli
