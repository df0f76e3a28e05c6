#pragma once

#include <string>
#include <vector>

#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// A reading of a part, drawn against time.
struct LaneOf {
  PartId part = 0;
  std::size_t reading = 0;
  Lane form = Lane::kCurve;
  bool operator==(const LaneOf&) const = default;
};

/// In the form that the part gives it.
LaneOf lane_of(const Installation& installation, const ReadingOf& reading);
/// The lanes of everything that stands in the case, in the order of cause: contacts, mechanism,
/// what they work, then what feeds and is fed.
std::vector<LaneOf> lanes_of_case(const Installation& installation);
/// Those of one part.
std::vector<LaneOf> lanes_of(const Installation& installation, PartId part);
const NamedDecl& reading_of(const Installation& installation, const LaneOf& lane);
/// A value as the bench tells it: what is left of one that dies away is nothing.
std::string shown_text(double value, const NamedDecl& reading);
/// The part's name, and of a curve the reading's too.
std::string name_of(const Installation& installation, const LaneOf& lane);

}  // namespace sixty::gui
