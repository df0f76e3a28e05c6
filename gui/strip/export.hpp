#pragma once

#include <string>

#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// What the lanes were in the time that is shown, as far as it is written, for other programs.
/// Rows are the ends of columns of time.
struct LaneTable {
  std::vector<SimTime> at;
  std::vector<std::vector<float>> values;  ///< per row, per lane
};
LaneTable lane_table(const Strip& strip);

/// Comma-separated values by RFC 4180, a line of names first.
std::string csv_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes);
/// Value change dump by IEEE 1364-2005, clause 18: bars as wires of one bit, all others as reals.
std::string vcd_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes);

}  // namespace sixty::gui
