#include "gui/strip/export.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.hpp"
#include "sim/base/vcd_names.hpp"

namespace sixty::gui {
namespace {

std::string change(const LaneOf& lane, float value, const std::string& code) {
  if (lane.form == Lane::kBar) return fmt::format("{}{}\n", value != 0 ? 1 : 0, code);
  return fmt::format("r{} {}\n", format_exact(static_cast<double>(value)), code);
}

std::string step_text(const LaneTable& table) {
  return format_quantity(to_seconds(table.step), "s");
}

/// The rows of one tile: its edges, and the ends of its columns.
class Reading {
 public:
  Reading(const Tile& tile, LaneTable& table) : tile_(tile), table_(table) {}

  void put() {
    states_.resize(tile_.lanes);
    for (std::size_t k = 0; k < tile_.filled(); ++k) {
      if (k == 0)
        for (std::size_t lane = 0; lane < tile_.lanes; ++lane)
          states_[lane] = tile_.at(0, lane).first;
      const SimTime end = tile_.from + tile_.width * static_cast<SimTime>(k + 1);
      while (next_ < tile_.edges.size() && tile_.edges[next_].at <= end) put_edge();
      put_sample(k, end);
    }
  }

 private:
  LaneTable::Row& row_at(SimTime at) {
    if (table_.rows.empty() || table_.rows.back().at != at)
      table_.rows.push_back({at, false, states_, std::vector<std::uint8_t>(tile_.lanes, 0)});
    return table_.rows.back();
  }
  void put_edge() {
    const Edge& edge = tile_.edges[next_++];
    states_[edge.lane] = edge.value;
    LaneTable::Row& row = row_at(edge.at);
    row.values[edge.lane] = edge.value;
    row.changes[edge.lane] = 1;
  }
  /// What is not known of all lanes is left out.
  void put_sample(std::size_t column, SimTime end) {
    for (std::size_t lane = 0; lane < tile_.lanes; ++lane) {
      if (!std::isfinite(tile_.at(column, lane).last)) return;
    }
    LaneTable::Row& row = row_at(end);
    row.is_sample = true;
    for (std::size_t lane = 0; lane < tile_.lanes; ++lane)
      row.values[lane] = tile_.at(column, lane).last;
  }

  const Tile& tile_;
  LaneTable& table_;
  std::vector<float> states_;  ///< at the latest row
  std::size_t next_ = 0;       ///< of the edges
};

}  // namespace

LaneTable lane_table(const Strip& strip) {
  LaneTable table;
  for (const auto& tile : strip.written()) {
    table.step = tile->width;
    Reading(*tile, table).put();
  }
  return table;
}

std::string csv_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes) {
  std::string text = "time_s";
  for (const LaneOf& lane : lanes) {
    const std::string& unit = reading_of(installation, lane).unit;
    text += "," + plain_name_of(installation, lane) + (unit.empty() ? "" : " [" + unit + "]");
    text += lane.form == Lane::kCurve ? " every " + step_text(table) : " at each change";
  }
  text += "\r\n";
  for (const LaneTable::Row& row : table.rows) {
    text += fmt::format("{}.{:09}", row.at / kSecond, row.at % kSecond);
    for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
      const bool told = row.is_sample || lanes[lane].form != Lane::kCurve;
      text += "," + (told ? format_exact(static_cast<double>(row.values[lane])) : "");
    }
    text += "\r\n";
  }
  return text;
}

std::string vcd_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes) {
  std::string text = "$comment States (";
  text +=
      "contacts, armatures, signals, counts: wires, and reals that are no curves) change at "
      "their exact instants. ";
  text += "Curves (currents and the like) are samples";
  if (table.step > 0) text += ", one every " + step_text(table);
  text += ": what they do in between is not told.";
  std::string sampled;
  for (const LaneOf& lane : lanes) {
    if (lane.form == Lane::kCurve)
      sampled +=
          (sampled.empty() ? " " : ", ") + simple_identifier(plain_name_of(installation, lane));
  }
  if (!sampled.empty()) text += " Sampled are:" + sampled + ".";
  text += " $end\n";
  text += "$timescale 1 ns $end\n$scope module installation $end\n";
  for (std::size_t k = 0; k < lanes.size(); ++k) {
    text += fmt::format("$var {} {} {} {} $end\n", lanes[k].form == Lane::kBar ? "wire" : "real",
                        lanes[k].form == Lane::kBar ? 1 : 64, identifier_code(k),
                        simple_identifier(plain_name_of(installation, lanes[k])));
  }
  text += "$upscope $end\n$enddefinitions $end\n";
  std::vector<std::optional<float>> told(lanes.size());
  for (const LaneTable::Row& row : table.rows) {
    std::string changes;
    for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
      const bool looked_at = row.is_sample || row.changes[lane] != 0;
      if (!looked_at || told[lane] == row.values[lane]) continue;
      told[lane] = row.values[lane];
      changes += change(lanes[lane], row.values[lane], identifier_code(lane));
    }
    if (!changes.empty()) text += fmt::format("#{}\n{}", row.at, changes);
  }
  return text;
}

}  // namespace sixty::gui
