#include "sim/circuit/stretch.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::circuit {
namespace {

Reads reads_of(const Integrator& run) {
  Reads reads;
  for (std::size_t k = 0; k < run.consulted().size(); ++k) {
    if (run.consulted()[k] != 0)
      reads.push_back({static_cast<std::uint16_t>(k), run.consulted()[k]});
  }
  return reads;
}

/// Most volts that were there at a coil when something happened to it: it may start just while the
/// contact that feeds it bounces.
double most_v(const std::vector<Located>& events, const Located& start) {
  double most = 0;
  for (const Located& e : events) {
    const bool at_coil = e.what == What::kStarts || e.what == What::kSeats ||
                         e.what == What::kLeaves || e.what == What::kReturns;
    if (at_coil && e.element == start.element) most = std::max(most, std::fabs(e.volts));
  }
  return most;
}

/// What each armature that starts gets in the end.
void tell_what_arrives(const Network& network, const State& end, bool settled,
                       std::vector<Located>& events) {
  for (Located& e : events) {
    if (e.what != What::kStarts) continue;
    const auto j = static_cast<std::size_t>(e.element);
    const Coil& c = network.coils[j];
    const CoilState& s = end.coils[j];
    e.arrives_v = settled ? std::fabs(e.volts) : most_v(events, e);
    if (!settled || s.rest != Rest::kSeated) continue;
    const double steady_a = coil_current_a(c.magnet, s.linkage_wb, s.gap_m, s.held_a);
    e.arrives_v = std::fabs(steady_a) * c.resistance_ohm;
  }
}

}  // namespace

std::size_t bytes_of(const State& s) {
  return sizeof s + s.coils.size() * sizeof(CoilState) + s.contacts.size() * sizeof(ContactState) +
         s.capacitor_v.size() * sizeof(double) + s.diode_on.size();
}

std::size_t bytes_of(const Network& n) {
  std::size_t bytes = sizeof n + n.sources.size() * sizeof(Source) +
                      n.resistors.size() * sizeof(Resistor) +
                      n.capacitors.size() * sizeof(Capacitor) + n.diodes.size() * sizeof(Diode) +
                      n.contacts.size() * sizeof(Contact) + n.coils.size() * sizeof(Coil);
  for (const Coil& c : n.coils) bytes += c.marks.size() * sizeof(Mark);
  return bytes;
}

std::size_t bytes_of(const Stretch& s) {
  return sizeof s + s.events.size() * sizeof(Located) +
         s.inputs.contacts.size() * sizeof(ContactInput) + s.inputs.coil_extra_load_n.size() * 8 +
         2 * s.driven_anew.size() + 4 * s.sets_moving.size() + s.ledger->spark_j.size() * 8 +
         s.reads.size() * sizeof(Read) + 300;
}

std::shared_ptr<Stretch> compute_stretch(const std::shared_ptr<const Network>& network,
                                         const Inputs& inputs,
                                         const std::shared_ptr<const State>& start,
                                         const std::shared_ptr<Responses>& responses) {
  Integrator run(*network, inputs, *start, responses);
  auto s = std::make_shared<Stretch>();
  try {
    run.advance_stretch();
  } catch (const IntegrationFailure& e) {
    s->failure = e;
  }
  s->network = network;
  s->start = start;
  s->inputs = inputs;
  s->events = run.events();
  s->settled = run.settled();
  s->strikes = run.strikes();
  s->hums = run.hums();
  s->end_s = run.time_s();
  s->end_ns = from_seconds(s->end_s);
  s->ledger = std::make_shared<const Ledger>(run.ledger());
  for (std::size_t j = 0; j < run.driven_anew().size(); ++j) {
    if (run.driven_anew()[j] != 0) s->driven_anew.push_back(static_cast<std::uint16_t>(j));
  }
  for (std::size_t k = 0; k < s->events.size(); ++k) {
    const What what = s->events[k].what;
    if (what == What::kStarts || what == What::kLeaves)
      s->sets_moving.push_back(static_cast<std::uint32_t>(k));
  }
  s->reads = reads_of(run);
  const Ledger flow = run.steady_second();
  if (s->settled) s->steady_a = flow.charge_as;
  for (std::size_t k = 0; k < network->fuses.size(); ++k) {
    s->steady_heat.push_back(flow.fuse_heat[k] * network->fuses[k].time_constant_s);
  }
  s->end = std::make_shared<const State>(run.state_on_grid());
  tell_what_arrives(*network, *s->end, s->settled, s->events);
  return s;
}

}  // namespace sixty::circuit
