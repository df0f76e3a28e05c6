// Sums over a step: charge, extremes, and where the energy went.
#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/step.hpp"

namespace sixty::circuit {
namespace {

double square(double x) { return x * x; }

}  // namespace

void Stepper::add_to(Ledger& ledger, const State& state, const Response& response, double weight,
                     bool energy) const {
  currents_in(state, response, in_);
  out_.resize(response.outputs());
  const Response::Rows all{0, response.outputs()};
  response.voltages(in_.data(), out_.data(), energy ? all : response.rows_beside());
  std::size_t rectified = response.first_emf();
  for (std::size_t k = 0; k < network_.sources.size(); ++k) {
    const Source& s = network_.sources[k];
    const double terminal_v = out_[response.inputs() + k];
    const double own_v = s.rectified ? out_[rectified++] : terminal_v;
    const double current =
        (emf_v(s, state.mains_s, network_.half_period_s) - own_v) / s.resistance_ohm;
    ledger.charge_as[k] += weight * current;
    widen(ledger, k, terminal_v, current);
  }
  heat_fuses(ledger, state, response, weight);
  const auto& live = response.live();
  for (std::size_t k = 0; k < response.sparks().size(); ++k) {
    const std::size_t row = live.size() + state.capacitor_v.size() + k;
    const double current = (out_[row] - in_[row]) * kSparkSiemens;
    ledger.spark_j[response.sparks()[k]] += weight * current * out_[row];
  }
  if (!energy) return;

  std::vector<double> node_v;
  response.nodes(in_.data(), node_v);
  const auto drop = [&](Node a, Node b) {
    return node_v[static_cast<std::size_t>(a)] - node_v[static_cast<std::size_t>(b)];
  };
  double heat = 0;
  for (const Source& s : network_.sources) {
    const double emf = emf_v(s, state.mains_s, network_.half_period_s);
    const double current = (emf - drop(s.plus, s.minus)) / s.resistance_ohm;
    ledger.source_j += weight * current * emf;
    heat += square(current) * s.resistance_ohm;
  }
  for (const Resistor& r : network_.resistors) heat += square(drop(r.a, r.b)) / r.resistance_ohm;
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    const Capacitor& c = network_.capacitors[k];
    heat += square(drop(c.a, c.b) - state.capacitor_v[k]) / c.resistance_ohm;
  }
  for (std::size_t k = 0; k < network_.diodes.size(); ++k) {
    const Diode& d = network_.diodes[k];
    if (state.diode_on[k] == 0) continue;
    const double current = (drop(d.anode, d.cathode) - d.forward_v) / d.resistance_ohm;
    heat += current * drop(d.anode, d.cathode);
  }
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    const double volts = drop(network_.contacts[k].a, network_.contacts[k].b);
    const ContactState& s = state.contacts[k];
    if (s.gap == Gap::kClosed) heat += square(volts) / s.ohm;
    if (sparking(s)) {
      heat += volts * (volts - spark_volts(k, s, 0)) * kSparkSiemens;
    }
  }
  for (std::size_t i = 0; i < live.size(); ++i) {
    const Coil& c = network_.coils[live[i]];
    const CoilState& s = state.coils[live[i]];
    heat += square(in_[i]) * c.resistance_ohm;
    if (c.magnet.turns > 0) {  // the iron keeps part of what a falling flux would give back
      heat -= s.held_a / c.magnet.turns * (out_[i] - c.resistance_ohm * in_[i]);
    }
    if (!c.armature.present) continue;
    ledger.work_j -= weight * pull_n(c.magnet, s.linkage_wb) * s.speed_m_per_s;
    const double speed = std::fabs(s.speed_m_per_s);
    const double friction_n = c.armature.friction_n + c.armature.viscous_n_s_per_m * speed;
    ledger.friction_j += weight * friction_n * speed;
  }
  ledger.heat_j += weight * heat;
}

/// Order: right after the voltages of the state have been found.
void Stepper::heat_fuses(Ledger& ledger, const State& state, const Response& response,
                         double weight) const {
  for (std::size_t k = 0; k < network_.fuses.size(); ++k) {
    const Fuse& fuse = network_.fuses[k];
    const ContactState& wire = state.contacts[static_cast<std::size_t>(fuse.contact)];
    if (wire.gap != Gap::kClosed) continue;
    const double volts = out_[response.inputs() + network_.sources.size() + k];
    const double share = square(volts / (wire.ohm * fuse.melts_a));
    ledger.fuse_heat[k] += weight * share / fuse.time_constant_s;
  }
}

void Stepper::cool_fuses(Ledger& ledger, double h) const {
  for (std::size_t k = 0; k < network_.fuses.size(); ++k) {
    ledger.fuse_most[k] = std::max(ledger.fuse_most[k], ledger.fuse_heat[k]);
    const double keep = det_exp(-h / network_.fuses[k].time_constant_s);
    ledger.fuse_heat[k] *= keep;
    ledger.fuse_keep[k] *= keep;
  }
}

}  // namespace sixty::circuit
