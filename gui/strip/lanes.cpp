#include "gui/strip/lanes.hpp"

#include <cmath>
#include <initializer_list>
#include <string_view>

#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using Where = Stand::Where;

/// Of what stands at such places in the case, place by place.
void append_standing(std::vector<LaneOf>& lanes, const Installation& installation,
                     std::initializer_list<Where> places) {
  for (const Where where : places) {
    for (PartId p = 0; p < installation.parts.size(); ++p) {
      if (installation.parts[p].kind->declaration.stand.where != where) continue;
      const std::vector<LaneOf> own = lanes_of(installation, p);
      lanes.insert(lanes.end(), own.begin(), own.end());
    }
  }
}

}  // namespace

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

std::vector<LaneOf> lanes_of_case(const Installation& installation,
                                  const std::vector<LaneOf>& lines) {
  std::vector<LaneOf> lanes;
  append_standing(lanes, installation, {Where::kOnLink, Where::kFixed, Where::kColumn});
  lanes.insert(lanes.end(), lines.begin(), lines.end());
  append_standing(lanes, installation, {Where::kRail, Where::kCorner});
  return lanes;
}

std::vector<LaneOf> lanes_of_building(const Installation& installation,
                                      const std::vector<LaneOf>& lines) {
  std::vector<LaneOf> lanes, others;
  append_standing(lanes, installation, {Where::kOnLink});
  lanes.insert(lanes.end(), lines.begin(), lines.end());
  append_standing(others, installation, {Where::kFixed, Where::kColumn, Where::kRail});
  std::erase_if(others, [](const LaneOf& lane) { return lane.form == Lane::kCurve; });
  append_standing(others, installation, {Where::kCorner});
  lanes.insert(lanes.end(), others.begin(), others.end());
  return lanes;
}

const NamedDecl& reading_of(const Installation& installation, const LaneOf& lane) {
  if (lane.source != nullptr) return lane.source->told;
  return installation.declaration({lane.part, lane.reading});
}

std::string shown_text(double value, const NamedDecl& reading) {
  // Of metal a billionth of a cubic metre is much.
  const bool is_nothing = std::fabs(value) < kNothing && reading.unit != "m3";
  const double told = is_nothing ? 0 : value;
  // Nothing of a length is nothing of what a gap is told in.
  if (told == 0 && reading.unit == "m") return "0 mm";
  if (reading.unit.empty()) return told != 0 ? tr("yes") : tr("no");
  return spoken_number(explain::value_text(told, reading));
}

std::string words_of_reading(const NamedDecl& reading) {
  constexpr std::string_view kWord = "_min";
  std::string_view name = reading.name;
  if (reading.told == Told::kMinutes && name.ends_with(kWord)) name.remove_suffix(kWord.size());
  return tr(words_of_key(name));
}

std::string name_of(const Installation& installation, const LaneOf& lane) {
  if (lane.source != nullptr) return lane.source->words ? lane.source->words() : lane.source->name;
  const std::string part = words_of_key(installation.parts[lane.part].name);
  // A bar needs no more to be understood; of a number one wants to know what it counts.
  if (lane.form == Lane::kBar) return part;
  return say("{}, {}", part, words_of_reading(reading_of(installation, lane)));
}

std::string plain_name_of(const Installation& installation, const LaneOf& lane) {
  if (lane.source != nullptr) return lane.source->plain;
  return installation.parts[lane.part].name + "." + reading_of(installation, lane).name;
}

double value_of(Session& session, const LaneOf& lane) {
  if (lane.source != nullptr) return lane.source->value(session);
  return session.read(lane.part, lane.reading);
}

}  // namespace sixty::gui
