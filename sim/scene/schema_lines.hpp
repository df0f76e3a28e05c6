#pragma once

#include "sim/part/registry.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty::schema {

/// What parts and templates of a type have in common: type, sheet, set, connect.
Json piece_properties(const Registry::Entry& entry);
/// The template of a type.
Json line_template(const Registry::Entry& entry);
/// Defines "line", and what lines have in them; refers to "template".
void define_lines(const std::vector<std::string>& part_types, Json& definitions);

/// The name of a room; the rooms; how wires are laid between them.
Json room();
Json rooms();
Json plan();

}  // namespace sixty::schema
