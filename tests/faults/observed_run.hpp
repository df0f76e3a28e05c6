#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty {

const Registry& all_parts();

/// One of the scenes that come with the program, with faults put in as on the command line.
/// Errors: fails the test, nullptr.
std::shared_ptr<const Installation> scene_with(const std::string& scene,
                                               const std::vector<std::string>& faults,
                                               const std::vector<std::string>& set = {},
                                               const std::vector<std::string>& hands = {});

/// "part.reading" now. Errors: fails the test.
double reading_of(Session& session, const std::string& name);

/// "part.reading [@ TIME] OP NUMBER", "... OP healthy", "... OP healthy * NUMBER" or "... +
/// NUMBER": something seen in a run. "#part.kind" counts events of a kind. OP is one of < > <= >=
/// == !=.
struct Observation {
  std::string reading;
  SimTime at = 0;
  std::string op;
  bool against_healthy = false;
  double factor = 1, added = 0;
};
/// `end`: when it is looked at if no time is said.
Observation parse_observation(const std::string& text, const Installation& scene, SimTime end);

/// What readings a run shows for observations; in their order.
std::vector<double> look_at(const std::shared_ptr<const Installation>& scene,
                            const std::vector<Observation>& observations);

bool holds(const Observation& o, double seen, double healthy);

std::vector<std::string> split(const std::string& text, char at);

}  // namespace sixty
