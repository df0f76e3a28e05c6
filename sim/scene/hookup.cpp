#include "sim/scene/hookup.hpp"

#include "sim/base/units.hpp"

namespace sixty {
namespace {

circuit::Node& node_of(const Terminal& terminal, Installation& installation) {
  return installation.parts[terminal.part].nodes.at(terminal.name);
}

std::string text_of(const Terminal& terminal) {
  return std::to_string(terminal.part) + "." + terminal.name;
}

}  // namespace

std::string key_of(const Hookup& hookup) {
  const std::string way = hookup.in_series ? " in series" : " to " + text_of(hookup.b);
  return text_of(hookup.a) + way + " " + format_exact(hookup.resistance_ohm) + ";";
}

void lay_on(const Hookups& hookups, Installation& installation, circuit::Network& network) {
  for (const auto& hookup : hookups) {
    if (!hookup->in_series) continue;
    circuit::Node& node = node_of(hookup->a, installation);
    installation.tapped.push_back({hookup, node, network.node_count});
    node = network.node_count++;
  }
  for (const auto& hookup : hookups) {
    if (hookup->in_series) continue;
    installation.tapped.push_back(
        {hookup, node_of(hookup->a, installation), node_of(hookup->b, installation)});
  }
  for (const Tapped& tapped : installation.tapped)
    network.resistors.push_back({tapped.a, tapped.b, tapped.hookup->resistance_ohm});
}

}  // namespace sixty
