#include "tests/faults/observed_run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <sstream>

#include "models/part_list.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {

namespace {

/// Counts events by "part.kind".
class Counter final : public TraceSink {
 public:
  explicit Counter(const Installation& scene) : scene_(scene) {}
  void record(const TraceRecord& r) override {
    ++counts_[scene_.parts[r.part].name + "." + std::string(r.kind)];
  }
  bool full() const override { return false; }
  double of(const std::string& name) const {
    const auto it = counts_.find(name);
    return it == counts_.end() ? 0 : it->second;
  }

 private:
  const Installation& scene_;
  std::map<std::string, int> counts_;
};

}  // namespace

const Registry& all_parts() {
  static const Registry parts = models::registry();
  return parts;
}

std::shared_ptr<const Installation> scene_with(const std::string& scene,
                                               const std::vector<std::string>& faults,
                                               const std::vector<std::string>& set,
                                               const std::vector<std::string>& hands) {
  Diagnostics diagnostics;
  SceneChanges changes;
  changes.fault = faults;
  changes.set = set;
  changes.action = hands;
  auto installation = load_scene(std::string(SIXTY_SOURCE_DIR) + "/scenes/" + scene + ".yaml",
                                 all_parts(), changes, diagnostics);
  EXPECT_NE(installation, nullptr) << diagnostics.to_text();
  return installation;
}

double reading_of(Session& session, const std::string& name) {
  const std::size_t dot = name.find('.');
  const std::vector<PartInstance>& parts = session.installation().parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    if (parts[p].name != name.substr(0, dot)) continue;
    const auto& readings = parts[p].kind->declaration.readings;
    for (std::size_t k = 0; k < readings.size(); ++k) {
      if (readings[k].name == name.substr(dot + 1)) return session.read(p, k);
    }
  }
  ADD_FAILURE() << "no reading " << name;
  return 0;
}

Observation parse_observation(const std::string& text, const Installation& scene, SimTime end) {
  Observation o;
  o.at = end;
  std::istringstream words(text);
  words >> o.reading >> o.op;
  if (o.op == "@") {
    std::string time;
    words >> time >> o.op;
    std::replace(time.begin(), time.end(), '_', ' ');
    Diagnostic mistake;
    const std::optional<SimTime> at = parse_time(time, scene.clock, 0, mistake);
    EXPECT_TRUE(at) << time << " in " << text;
    o.at = at.value_or(0);
  }
  std::string right;
  words >> right;
  o.against_healthy = right == "healthy";
  if (!o.against_healthy) {
    o.factor = 0;
    o.added = std::stod(right);
    return o;
  }
  std::string sign;
  double number = 0;
  if (!(words >> sign >> number)) return o;
  if (sign == "*") o.factor = number;
  if (sign == "+") o.added = number;
  if (sign == "-") o.added = -number;
  return o;
}

std::vector<double> look_at(const std::shared_ptr<const Installation>& scene,
                            const std::vector<Observation>& observations) {
  std::vector<std::size_t> order(observations.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return observations[a].at < observations[b].at;
  });
  std::vector<double> seen(observations.size());
  Session session(scene);
  Counter counter(*scene);
  const bool counts = std::any_of(observations.begin(), observations.end(),
                                  [](const Observation& o) { return o.reading[0] == '#'; });
  if (counts) session.set_sink(&counter);
  for (const std::size_t k : order) {
    session.run_until(observations[k].at);
    const std::string& name = observations[k].reading;
    seen[k] = name[0] == '#' ? counter.of(name.substr(1)) : reading_of(session, name);
  }
  return seen;
}

bool holds(const Observation& o, double seen, double healthy) {
  const double bound = (o.against_healthy ? healthy * o.factor : 0) + o.added;
  if (o.op == "<") return seen < bound;
  if (o.op == ">") return seen > bound;
  if (o.op == "<=") return seen <= bound;
  if (o.op == ">=") return seen >= bound;
  if (o.op == "!=") return seen != bound;
  EXPECT_EQ(o.op, "==");
  return seen == bound;
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> pieces;
  std::istringstream stream(text);
  for (std::string piece; std::getline(stream, piece, at);) pieces.push_back(piece);
  return pieces;
}

}  // namespace sixty
