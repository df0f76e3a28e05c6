#include "tests/faults/bench_feed.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace sixty {
namespace {

constexpr double kLeadOhm = 1e-3;

/// The terminal of a part that is a node, or leads to it through nothing but its own resistors and
/// contacts, and not through its other end. Empty if there is none.
std::string terminal_before(const PartInstance& part, const circuit::Network& network,
                            circuit::Node node, circuit::Node other) {
  std::string here = terminal_at(part, node);
  if (!here.empty()) return here;
  std::vector<std::pair<circuit::Node, circuit::Node>> ways;
  for (const int k : part.resistors) {
    const circuit::Resistor& r = network.resistors[static_cast<std::size_t>(k)];
    ways.emplace_back(r.a, r.b);
  }
  for (const int k : part.contacts) {
    const circuit::Contact& c = network.contacts[static_cast<std::size_t>(k)];
    ways.emplace_back(c.a, c.b);
  }
  for (const auto& [a, b] : ways) {
    if (a == other || b == other || (a != node && b != node)) continue;
    // Where it came from is the other end now: it does not go back.
    std::string name = terminal_before(part, network, a == node ? b : a, node);
    if (!name.empty()) return name;
  }
  return "";
}

}  // namespace

std::string terminal_at(const PartInstance& part, circuit::Node node) {
  for (const auto& [name, at] : part.nodes) {
    if (at == node) return name;
  }
  return "";
}

Action lay(const Hookup& hookup, SimTime at) {
  Action action;
  action.at = at;
  action.hookup = std::make_shared<const Hookup>(hookup);
  return action;
}

std::optional<BenchFeed> feed_like(Session& sound, PartId part, SimTime at) {
  sound.seek(at);
  const PartInstance& instance = sound.build().parts[part];
  const auto [network, probe] = sound.circuit();
  BenchFeed feed{{part, ""}, {part, ""}};
  if (!instance.coils.empty()) {
    const circuit::Coil& c = network.coils[static_cast<std::size_t>(instance.coils.front())];
    feed.plus.name = terminal_before(instance, network, c.a, c.b);
    feed.minus.name = terminal_before(instance, network, c.b, c.a);
    feed.emf_v = probe.volts(c.a, c.b);
  } else if (!instance.sources.empty()) {
    const circuit::Source& s = network.sources[static_cast<std::size_t>(instance.sources.front())];
    feed.plus.name = "plus";
    feed.minus.name = "minus";
    feed.emf_v = probe.volts(s.terminal(), s.minus);
  }
  if (feed.plus.name.empty() || feed.minus.name.empty()) return std::nullopt;
  if (feed.emf_v < 0) std::swap(feed.plus, feed.minus);
  feed.emf_v = std::fabs(feed.emf_v);
  return feed;
}

std::string with_bench_supply(std::string scene_text) {
  const std::size_t lines = scene_text.find("\nlines:");
  const std::size_t wires = scene_text.find("\nwires:");
  scene_text.insert(wires + 8, "  bench_lead: [bench_supply.plus, bench_key.a]\n");
  scene_text.insert(std::min(lines, wires) + 1,
                    "  bench_supply: {type: supply, set: {emf: 24 V, resistance: 50 mohm}}\n"
                    "  bench_key: {type: switch, sheet: case_key}\n");
  return scene_text;
}

std::string bench_volts(const BenchFeed& feed) {
  return fmt::format("bench_supply.emf={} V", std::max(feed.emf_v, 0.1));
}

std::vector<Action> leads_of(const BenchFeed& feed, const Installation& scene, SimTime at) {
  const auto lead = [at](Terminal from, const Terminal& to) {
    return lay({std::move(from), to, false, kLeadOhm}, at);
  };
  return {lead({scene.find_id("bench_key").value(), "b"}, feed.plus),
          lead({scene.find_id("bench_supply").value(), "minus"}, feed.minus)};
}

std::string key_press(SimTime from, SimTime lasts) {
  return fmt::format("{} ns bench_key.hold {} ns", from, lasts);
}

}  // namespace sixty
