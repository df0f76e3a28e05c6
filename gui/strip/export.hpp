#pragma once

#include <string>

#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// What the lanes were in the time that is shown, as far as it is written, for other programs:
/// curves as samples at the ends of columns of time, states (bars and strokes) at the instants at
/// which they change.
struct LaneTable {
  struct Row {
    SimTime at = 0;
    bool is_sample = false;             ///< an end of a column; else states change
    std::vector<float> values;          ///< per lane; of curves none that counts between samples
    std::vector<std::uint8_t> changes;  ///< per lane: a state that is another from here on
  };
  SimTime step = 0;  ///< from sample to sample; 0: there are none
  std::vector<Row> rows;
};
LaneTable lane_table(const Strip& strip);

/// Comma-separated values by RFC 4180, a line of names first, which tells of each lane whether it
/// is sampled or told at its changes. Between samples a curve's field is empty.
std::string csv_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes);
/// Value change dump by IEEE 1364-2005, clause 18: bars as wires of one bit, all others as reals.
/// Its comment tells what is sampled and what is told at its changes.
std::string vcd_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes);

}  // namespace sixty::gui
