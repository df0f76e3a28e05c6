// Sums over a step: charge, extremes, and where the energy went.
#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/step.hpp"

namespace sixty::circuit {
namespace {

double square(double x) { return x * x; }

}  // namespace

/// By what has just been answered.
void Stepper::put_flow(const State& from, const Response& response, double mains_s,
                       Flow& flow) const {
  const std::size_t n = network_.sources.size();
  flow.source_a.resize(n);
  flow.terminal_v.resize(n);
  std::size_t rectified = response.first_emf();
  for (std::size_t k = 0; k < n; ++k) {
    const Source& s = network_.sources[k];
    flow.terminal_v[k] = out_[response.inputs() + k];
    const double own_v = s.rectified ? out_[rectified] : flow.terminal_v[k];
    const double emf = s.rectified ? in_[rectified++] : emf_v(s, mains_s, network_.half_period_s);
    flow.source_a[k] = (emf - own_v) / s.resistance_ohm;
  }
  flow.fuse_share.resize(network_.fuses.size());
  for (std::size_t k = 0; k < network_.fuses.size(); ++k) {
    const Fuse& fuse = network_.fuses[k];
    const ContactState& wire = from.contacts[static_cast<std::size_t>(fuse.contact)];
    const double volts = out_[response.inputs() + n + k];
    flow.fuse_share[k] = wire.gap == Gap::kClosed ? square(volts / (wire.ohm * fuse.melts_a)) : 0.0;
  }
  flow.spark_a.resize(response.sparks().size());
  flow.spark_v.resize(response.sparks().size());
  for (std::size_t k = 0; k < response.sparks().size(); ++k) {
    const std::size_t row = response.live().size() + network_.capacitors.size() + k;
    flow.spark_a[k] = (out_[row] - in_[row]) * kSparkSiemens;
    flow.spark_v[k] = out_[row];
  }
}

void Stepper::find_flow(const State& from, const Response& response, const double* y, double dt,
                        Flow& flow) const {
  find_volts(from, response, y, dt, response.rows_beside());
  put_flow(from, response, from.mains_s + dt, flow);
}

void Stepper::find_end_flow(const State& from, const Response& response, const Step& step,
                            Flow& flow) const {
  find_end_beside(from, response, step);
  put_flow(from, response, from.mains_s + step.h, flow);
}

void Stepper::add(Ledger& ledger, const Response& response, const Flow& flow, double weight) const {
  for (std::size_t k = 0; k < flow.source_a.size(); ++k) {
    ledger.charge_as[k] += weight * flow.source_a[k];
    widen(ledger, k, flow.terminal_v[k], flow.source_a[k]);
  }
  for (std::size_t k = 0; k < flow.fuse_share.size(); ++k)
    ledger.fuse_heat[k] += weight * flow.fuse_share[k] / network_.fuses[k].time_constant_s;
  for (std::size_t k = 0; k < flow.spark_a.size(); ++k)
    ledger.spark_j[response.sparks()[k]] += weight * flow.spark_a[k] * flow.spark_v[k];
}

void Stepper::add_to(Ledger& ledger, const State& state, const Response& response, double weight,
                     bool energy) const {
  end_in_ = nullptr;
  currents_in(state, response, in_);
  out_.resize(response.outputs());
  const Response::Rows all{0, response.outputs()};
  response.voltages(in_.data(), out_.data(), energy ? all : response.rows_beside());
  put_flow(state, response, state.mains_s, flow_);
  add(ledger, response, flow_, weight);
  if (!energy) return;

  std::vector<double> node_v;
  response.nodes(in_.data(), node_v);
  const auto drop = [&](Node a, Node b) {
    return node_v[static_cast<std::size_t>(a)] - node_v[static_cast<std::size_t>(b)];
  };
  const auto& live = response.live();
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

void Stepper::cool_fuses(Ledger& ledger, double h) const {
  const std::size_t n = network_.fuses.size();
  if (h != kept_h_) {  // a step has two halves
    kept_h_ = h;
    fuse_keep_.resize(n);
    for (std::size_t k = 0; k < n; ++k)
      fuse_keep_[k] = det_exp(-h / network_.fuses[k].time_constant_s);
  }
  for (std::size_t k = 0; k < n; ++k) {
    ledger.fuse_most[k] = std::max(ledger.fuse_most[k], ledger.fuse_heat[k]);
    ledger.fuse_heat[k] *= fuse_keep_[k];
    ledger.fuse_keep[k] *= fuse_keep_[k];
  }
}

}  // namespace sixty::circuit
