#pragma once

#include <string>
#include <vector>

#include "sim/scene/installation.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {

/// Where the rooms of a building lie, and how wires are laid in it.
struct Plan {
  std::vector<Room> rooms;  ///< in the order of the file
  double storey_m = 3.5;    ///< from floor to floor
  double allowance = 0.15;  ///< share by which a wire is longer than the way

  /// Errors: nullptr if there is no such room.
  const Room* find(const std::string& room) const;
  /// Length of a wire from the middle of one room to that of another: along the walls (the
  /// Manhattan distance), up or down the storeys, and the allowance; in whole centimetres. Units:
  /// m.
  double way_m(const Room& from, const Room& to) const;
};

/// Fields of a room and of `plan:`, as their reader and the schema know them.
std::vector<ParamDecl> room_fields();
std::vector<ParamDecl> plan_fields();

/// Reads `rooms:` and `plan:` of a scene. Errors: reported; the plan holds what could be read.
Plan read_plan(const YamlNode& root, TreeReader& reader);

/// Reads `room:` of a map, the name of a room of the plan.
/// Errors: empty, as without that key; what is wrong is reported.
std::string read_room(const YamlNode& map, const std::string& label, const Plan& plan,
                      TreeReader& reader);

}  // namespace sixty
