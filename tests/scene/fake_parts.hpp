#pragma once

#include <string>

#include "sim/part/registry.hpp"

namespace sixty::fake {

/// Part types that exist for these tests alone, with one data sheet for the lamp:
/// cell (a source), lamp (a resistor with a parameter of every kind), winding (a coil), cable (a
/// resistor by its length, with a third terminal), wheel (offers a shaft, has an output), barrel
/// (offers a drive), finger (rides on a shaft, takes signals).
const Registry& registry();

/// The same with another text as the lamp's data sheet "small".
Registry registry_with_sheet(const std::string& text);

/// The text of the lamp's data sheet.
std::string lamp_sheet();

/// Values that a lamp's maker saw.
struct SeenLamp {
  std::size_t tags = 0, marks = 0;
  double first_mark_s = 0;
  std::string colour;
};
/// Of a built lamp.
SeenLamp seen_by(const Part& lamp);

/// Riders of a built wheel, by the address that its maker was given.
const std::vector<Rider>& riders_of(const Part& wheel);

/// Offsets of the links that a built finger takes.
std::size_t shaft_offset_of(const Part& finger);
std::size_t drive_offset_of(const Part& finger);

}  // namespace sixty::fake
