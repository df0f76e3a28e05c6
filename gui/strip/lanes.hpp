#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "sim/run/session.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// What a lane follows that is no reading of a part.
struct LaneSource {
  std::string name;   ///< for people
  std::string plain;  ///< for files, as "line.current"
  NamedDecl told;     ///< what its values are
  /// Its value now; not a number where it cannot be told.
  std::function<double(Session&)> value;
  /// The meter that reads it, laid on from the start of the run that is written; nullptr: none.
  std::shared_ptr<const Hookup> laid = nullptr;
  /// Its name in the spoken language; nullptr: it has none but the one above.
  std::function<std::string()> words = nullptr;
};

/// A reading of a part, or what a source tells, drawn against time.
struct LaneOf {
  PartId part = 0;  ///< that it is about
  std::size_t reading = 0;
  Lane form = Lane::kCurve;
  std::shared_ptr<const LaneSource> source = nullptr;  ///< in place of the reading
  bool operator==(const LaneOf&) const = default;
};

/// In the form that the part gives it.
LaneOf lane_of(const Installation& installation, const ReadingOf& reading);
/// The lanes of everything that stands in the case, in the order of cause: contacts, mechanism,
/// what they work, the lines and zones, then what feeds and is fed.
std::vector<LaneOf> lanes_of_case(const Installation& installation,
                                  const std::vector<LaneOf>& lines);
/// What is seen of the whole house: contacts, the lines and zones, and then what stands in the case
/// without its currents.
std::vector<LaneOf> lanes_of_building(const Installation& installation,
                                      const std::vector<LaneOf>& lines);
/// Those of one part.
std::vector<LaneOf> lanes_of(const Installation& installation, PartId part);
const NamedDecl& reading_of(const Installation& installation, const LaneOf& lane);
/// SI; what is smaller no instrument of the trade tells from none.
constexpr double kNothing = 1e-9;
/// A value as the bench tells it: what is left of one that dies away is nothing.
std::string shown_text(double value, const NamedDecl& reading);
/// What a reading is called, without the unit that its value is told with: "error" for minutes.
std::string words_of_reading(const NamedDecl& reading);
/// The part's name, and the reading's too where a bar does not say what it is.
std::string name_of(const Installation& installation, const LaneOf& lane);
/// By the names in the scene, for files.
std::string plain_name_of(const Installation& installation, const LaneOf& lane);
/// What it is now.
double value_of(Session& session, const LaneOf& lane);

}  // namespace sixty::gui
