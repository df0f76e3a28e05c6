#include "gui/strip/lanes.hpp"

#include <cmath>

#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"

namespace sixty::gui {

LaneOf lane_of(const Installation& installation, const ReadingOf& reading) {
  return {reading.part, reading.reading, installation.declaration(reading).lane};
}

std::vector<LaneOf> lanes_of(const Installation& installation, PartId part) {
  std::vector<LaneOf> lanes;
  const std::vector<NamedDecl>& readings = installation.parts[part].kind->declaration.readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].lane != Lane::kNone) lanes.push_back({part, k, readings[k].lane});
  }
  return lanes;
}

std::vector<LaneOf> lanes_of_case(const Installation& installation) {
  std::vector<LaneOf> lanes;
  using Where = Stand::Where;
  for (const Where where :
       {Where::kOnLink, Where::kFixed, Where::kColumn, Where::kRail, Where::kCorner}) {
    for (PartId p = 0; p < installation.parts.size(); ++p) {
      if (installation.parts[p].kind->declaration.stand.where != where) continue;
      const std::vector<LaneOf> own = lanes_of(installation, p);
      lanes.insert(lanes.end(), own.begin(), own.end());
    }
  }
  return lanes;
}

const NamedDecl& reading_of(const Installation& installation, const LaneOf& lane) {
  return installation.declaration({lane.part, lane.reading});
}

std::string shown_text(double value, const NamedDecl& reading) {
  constexpr double kNothing = 1e-9;  // SI; no instrument of the trade tells it from none
  return explain::value_text(std::fabs(value) < kNothing ? 0 : value, reading);
}

std::string name_of(const Installation& installation, const LaneOf& lane) {
  const std::string part = words_of_key(installation.parts[lane.part].name);
  // A bar or a stroke needs no more to be understood.
  if (lane.form != Lane::kCurve) return part;
  return part + ", " + words_of_key(reading_of(installation, lane).name);
}

}  // namespace sixty::gui
