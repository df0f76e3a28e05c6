#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {

/// Lays the lines of a scene: makes of each the parts and nets that it stands for, behind those
/// that the scene names itself. A line runs from place to place; in a parallel one a part hangs
/// across it at each place, in a series one the current goes through all parts. Order: plan, parts
/// and wires must be read. Errors: reported; the draft holds what could be laid.
void lay_lines(const YamlNode& root, const Registry& registry, TreeReader& reader, Draft& draft);

}  // namespace sixty
