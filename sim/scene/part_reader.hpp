#pragma once

#include "sim/scene/draft.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {

/// Most parts that a scene may hold.
constexpr std::size_t kMostParts = 5000;
void report_too_many(const Place& place, const std::string& label, std::size_t count,
                     Mistakes& mistakes);

/// Letters of a part's notes, at the most: they are read at a glance. Units: bytes of UTF-8.
constexpr std::size_t kMostNotes = 400;
constexpr const char* kPartExample = "{type: ..., sheet: ..., set: {...}, connect: {...}}";

/// Names of all part types, in order.
std::vector<std::string> part_types(const Registry& registry);

/// Reads one part of a scene. Errors: reported; the draft holds what could be read.
DraftPart read_part(const YamlNode& key, const YamlNode& map, const Registry& registry,
                    const Plan& plan, TreeReader& reader);

/// Reads `type`, which must be there; messages call the part by its name. Order: before the others.
void read_type(const YamlNode& map, const YamlNode& whole, const Registry& registry,
               TreeReader& reader, DraftPart& part);

/// Reads `sheet`, `set` and `connect`, each if it is there; what a part has by then gives way.
void read_sheet_name(const YamlNode& map, TreeReader& reader, DraftPart& part);
void read_notes(const YamlNode& map, TreeReader& reader, DraftPart& part);
void read_set(const YamlNode& map, TreeReader& reader, DraftPart& part);
void read_connect(const YamlNode& map, TreeReader& reader, DraftPart& part);

}  // namespace sixty
