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

}  // namespace

LaneTable lane_table(const Strip& strip) {
  LaneTable table;
  for (const auto& tile : strip.written()) {
    for (std::size_t k = 0; k < tile->filled(); ++k) {
      std::vector<float> row;
      for (std::size_t lane = 0; lane < tile->lanes; ++lane) row.push_back(tile->at(k, lane).last);
      const auto known = [](float value) { return std::isfinite(value); };
      if (!std::all_of(row.begin(), row.end(), known)) continue;
      table.at.push_back(tile->from + tile->width * static_cast<SimTime>(k + 1));
      table.values.push_back(std::move(row));
    }
  }
  return table;
}

std::string csv_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes) {
  std::string text = "time_s";
  for (const LaneOf& lane : lanes) {
    const std::string& unit = reading_of(installation, lane).unit;
    text += "," + plain_name_of(installation, lane) + (unit.empty() ? "" : " [" + unit + "]");
  }
  text += "\r\n";
  for (std::size_t k = 0; k < table.at.size(); ++k) {
    text += fmt::format("{}.{:09}", table.at[k] / kSecond, table.at[k] % kSecond);
    for (const float value : table.values[k])
      text += "," + format_exact(static_cast<double>(value));
    text += "\r\n";
  }
  return text;
}

std::string vcd_of(const LaneTable& table, const Installation& installation,
                   std::span<const LaneOf> lanes) {
  std::string text = "$comment Looked at as the strip showed it";
  if (table.at.size() > 1)
    text += ", every " + format_quantity(to_seconds(table.at[1] - table.at[0]), "s");
  text += "; what happens in between is told at the next look. $end\n";
  text += "$timescale 1 ns $end\n$scope module installation $end\n";
  for (std::size_t k = 0; k < lanes.size(); ++k) {
    text += fmt::format("$var {} {} {} {} $end\n", lanes[k].form == Lane::kBar ? "wire" : "real",
                        lanes[k].form == Lane::kBar ? 1 : 64, identifier_code(k),
                        simple_identifier(plain_name_of(installation, lanes[k])));
  }
  text += "$upscope $end\n$enddefinitions $end\n";
  for (std::size_t k = 0; k < table.at.size(); ++k) {
    std::string changes;
    for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
      if (k > 0 && table.values[k][lane] == table.values[k - 1][lane]) continue;
      changes += change(lanes[lane], table.values[k][lane], identifier_code(lane));
    }
    if (!changes.empty()) text += fmt::format("#{}\n{}", table.at[k], changes);
  }
  return text;
}

}  // namespace sixty::gui
