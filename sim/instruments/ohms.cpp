#include "sim/instruments/ohms.hpp"

#include <limits>

#include "sim/circuit/plan.hpp"
#include "sim/instruments/meter.hpp"
#include "sim/instruments/uncertainty.hpp"

namespace sixty::instruments {
namespace {

using circuit::Network;
using circuit::State;
using circuit::SteadyNodes;

constexpr double kLeastScale_ohm = 400;
constexpr double kNoWay_ohm = 1e12;
constexpr int kMostTurns = 20;  // diodes that change over, one after the other

/// What the test's few tenths of a volt see: what rectifies mains that fail blocks them.
Network as_tested(const Network& network) {
  Network n = network;
  for (circuit::Source& s : n.sources) {
    if (s.rectified && s.emf_v == 0) s.resistance_ohm = kNoWay_ohm;
  }
  return n;
}

/// Steady nodes once the diodes conduct as their volts have it.
SteadyNodes settled(const Network& network, State& state) {
  SteadyNodes nodes = circuit::Plan::steady(network, state);
  for (int turn = 0; turn < kMostTurns; ++turn) {
    bool changed = false;
    for (std::size_t k = 0; k < network.diodes.size(); ++k) {
      const circuit::Diode& d = network.diodes[k];
      if (!nodes.joined(d.anode, d.cathode)) continue;
      const bool on = nodes.drop(d.anode, d.cathode) > d.forward_v;
      changed = changed || on != (state.diode_on[k] != 0);
      state.diode_on[k] = on ? 1 : 0;
    }
    if (!changed) break;
    nodes = circuit::Plan::steady(network, state);
  }
  return nodes;
}

double volts(const Network& network, State state, circuit::Node a, circuit::Node b) {
  const SteadyNodes nodes = settled(network, state);
  return nodes.joined(a, b) ? nodes.drop(a, b) : 0;
}

}  // namespace

Ohms read_ohms(const Session::CircuitNow& now, circuit::Node a, circuit::Node b,
               std::uint64_t seed) {
  static const MeterSheet sheet{"ohmmeter", "ohm", false, {}, 0.008, 2.0 / 4000, 1.0 / 4000};
  Network network = as_tested(now.network);
  Ohms ohms;
  ohms.foreign_v = volts(network, now.probe.state(), a, b);
  // The ranges differ in what stands behind the test: as much as half of full scale.
  double scale = kLeastScale_ohm;
  double found = std::numeric_limits<double>::infinity();
  for (; scale <= Ohms::kMost_ohm * 1.001; scale *= 10) {
    Network tested = network;
    tested.sources.push_back({a, b, Ohms::kTest_v, scale / 2});
    const double v = volts(tested, now.probe.state(), a, b);
    found = v / (Ohms::kTest_v - v) * scale / 2;
    if (found >= 0 && found <= scale) break;
  }
  if (!(found >= 0 && found <= Ohms::kMost_ohm)) {
    ohms.beyond = true;
    return ohms;
  }
  const double step = sheet.resolution * scale;
  ohms.ohm = to_step(found * (1 + sheet.of_reading * own_error(seed, sheet.name)), step);
  ohms.uncertainty_ohm = sheet.uncertainty(ohms.ohm, scale);
  ohms.continuous = ohms.ohm < Ohms::kSounds_ohm;
  return ohms;
}

}  // namespace sixty::instruments
