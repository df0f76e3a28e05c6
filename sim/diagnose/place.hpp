#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/diagnose/sign.hpp"
#include "sim/scene/installation.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::diagnose {

/// Where something was noticed: a part, or several that people call by one name.
struct Place {
  enum class Kind : std::uint8_t { kPart, kGroup, kRoom, kFloor, kAll };
  Kind kind = Kind::kPart;
  std::string name;           ///< as people write it: "clock_porch", "zone 1", "floor 2"
  std::vector<PartId> parts;  ///< in order
};

/// Every place of an installation: its parts, what they belong to (a loop, a zone), its rooms, its
/// floors, all above the ground floor together ("upstairs"), and all parts of each kind ("all
/// KIND").
std::vector<Place> places_of(const Installation& installation);

/// A place's name in the spoken language. Names that the scene gives stay as they are.
std::string spoken_place(const std::string& name);

/// The place of that name; nullptr if there is none. Capitals, underscores and spaces are alike.
const Place* find_place(const std::vector<Place>& places, const std::string& name);
/// The same for a name that stands in a file under `at`. Errors: nullptr, reported.
const Place* read_place(const std::vector<Place>& places, const YamlNode& at, TreeReader& reader);

}  // namespace sixty::diagnose
