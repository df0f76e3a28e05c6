#include "gui/strip/loop_lanes.hpp"

#include <algorithm>

#include "sim/explain/way.hpp"

namespace sixty::gui {
namespace {

std::string key_of_words(std::string words) {
  std::replace(words.begin(), words.end(), ' ', '_');
  return words;
}

LaneOf lane_of_loop(Loop loop) {
  LaneOf lane;
  lane.part = loop.parts.front();
  LaneSource source;
  source.name = loop.name;
  source.words = [loop] { return words_of(loop); };
  source.plain = key_of_words(loop.name) + ".current";
  source.told = {"current", "current that goes into it from the case", "A", Lane::kCurve, false};
  source.value = [loop = std::move(loop)](Session& session) { return fed_a(session, loop); };
  lane.source = std::make_shared<const LaneSource>(std::move(source));
  return lane;
}

}  // namespace

double fed_a(const Session& session, const Loop& loop) {
  double fed = 0;
  for (const Loop::End& end : loop.ends) {
    const PartInstance& part = session.build().parts[end.part];
    const auto into = explain::currents_into(session, part);
    const auto here = into.find(part.nodes.at(end.terminal));
    if (here != into.end()) fed += std::max(here->second, 0.0);
  }
  return fed < kNothing ? 0 : fed;
}

std::vector<LaneOf> lanes_of_loops(const Installation& installation) {
  std::vector<LaneOf> lanes;
  for (Loop& loop : find_loops(installation)) lanes.push_back(lane_of_loop(std::move(loop)));
  return lanes;
}

}  // namespace sixty::gui
