#pragma once

#include <string>
#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// What is fed together in rooms: parts that wires join, away from the case.
struct Loop {
  std::string name;           ///< of what its parts belong to: "ground floor", "zone 1"
  std::string kind;           ///< "zone" or "line", where that with its number is its name
  int number = 0;             ///< as written on it
  bool numbered = false;      ///< its parts bear the number themselves, as those of a zone do
  bool series = false;        ///< one way through all of them
  std::vector<PartId> parts;  ///< those in rooms, in the scene's order
  /// Where it is joined to what is in the case.
  struct End {
    PartId part = 0;
    std::string terminal;
  };
  std::vector<End> ends;
};

/// Loops of an installation in the order of their numbers, first those whose parts bear none. Parts
/// in the case are where they begin and end; what is drawn nowhere, as a run of wire, leads from
/// its first terminal to its second.
std::vector<Loop> find_loops(const Installation& installation);
/// Its name, in the spoken language where the scene does not give it.
std::string words_of(const Loop& loop);

/// Whether a part stands in the master's case.
bool stands_in_case(const PartInstance& part);
bool stands_in_room(const PartInstance& part);

}  // namespace sixty::gui
