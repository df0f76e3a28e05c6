#include "tests/circuit/bench.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim/circuit/runtime.hpp"

namespace sixty::circuit {

void add_to(Ledger& total, const Ledger& part) {
  if (total.charge_as.empty()) {
    total = part;
    return;
  }
  for (std::size_t k = 0; k < part.charge_as.size(); ++k) {
    total.charge_as[k] += part.charge_as[k];
    widen(total, k, part.least_v[k], part.most_a[k]);
  }
  for (std::size_t k = 0; k < part.spark_j.size(); ++k) total.spark_j[k] += part.spark_j[k];
  total.source_j += part.source_j;
  total.heat_j += part.heat_j;
  total.work_j += part.work_j;
  total.impact_j += part.impact_j;
  total.friction_j += part.friction_j;
}

double Energies::missing(const Energies& start) const {
  return source - heat - (field - start.field) - (spring - start.spring) -
         (kinetic - start.kinetic) - impact - friction - (capacitors - start.capacitors);
}

Node Bench::node(const std::string& name) {
  const auto [it, added] = nodes_.try_emplace(name, network_.node_count);
  if (added) ++network_.node_count;
  return it->second;
}

void Bench::meter(const std::string& name, const std::string& a, const std::string& b) {
  const auto na = static_cast<std::size_t>(node(a));
  const auto nb = static_cast<std::size_t>(node(b));
  signals_[name] = [na, nb](const Look& l) { return l.node_v[na] - l.node_v[nb]; };
}

void Bench::source(const std::string& name, const std::string& plus, const std::string& minus,
                   double emf_v, double resistance_ohm) {
  network_.sources.push_back({node(plus), node(minus), emf_v, resistance_ohm, -1});
  meter(name + ".volts", plus, minus);
  const auto volts = signals_[name + ".volts"];
  signals_[name + ".current"] = [=](const Look& l) { return (emf_v - volts(l)) / resistance_ohm; };
}

void Bench::resistor(const std::string& a, const std::string& b, double ohm) {
  network_.resistors.push_back({node(a), node(b), ohm});
}

void Bench::capacitor(const std::string& name, const std::string& a, const std::string& b,
                      double farad, double ohm) {
  const std::size_t k = network_.capacitors.size();
  network_.capacitors.push_back({node(a), node(b), farad, ohm});
  signals_[name + ".charged"] = [k](const Look& l) { return l.state.capacitor_v[k]; };
}

void Bench::diode(const std::string& anode, const std::string& cathode, double ohm,
                  double forward_v) {
  network_.diodes.push_back({node(anode), node(cathode), ohm, forward_v});
}

int Bench::contact(const std::string& name, const std::string& a, const std::string& b, double ohm,
                   ContactKind kind) {
  Contact c;
  c.a = node(a);
  c.b = node(b);
  c.closed_ohm = ohm;
  c.kind = kind;
  contacts_[name] = network_.contacts.size();
  network_.contacts.push_back(c);
  meter(name + ".volts", a, b);
  return static_cast<int>(network_.contacts.size()) - 1;
}

void Bench::coil(const std::string& name, const std::string& a, const std::string& b, Coil coil) {
  coil.a = node(a);
  coil.b = node(b);
  const std::size_t j = network_.coils.size();
  const Magnet magnet = coil.magnet;
  network_.coils.push_back(std::move(coil));
  coil_names_.push_back(name);
  meter(name + ".volts", a, b);
  signals_[name + ".current"] = [j, magnet](const Look& l) {
    const CoilState& s = l.state.coils[j];
    return coil_current_a(magnet, s.linkage_wb, s.gap_m, s.held_a);
  };
  signals_[name + ".flux_linkage"] = [j](const Look& l) { return l.state.coils[j].linkage_wb; };
  signals_[name + ".gap"] = [j](const Look& l) { return l.state.coils[j].gap_m; };
  signals_[name + ".speed"] = [j](const Look& l) { return l.state.coils[j].speed_m_per_s; };
}

void Bench::work(double at_s, const std::string& contact, bool closed) {
  works_.push_back({at_s, contacts_.at(contact), closed});
}

void Bench::prepare() {
  if (!segments_.empty()) return;
  Memo memo;
  const auto begun = begin_network(std::make_shared<const Network>(network_), 0, memo);
  Segment s{0, begun.inputs, *begun.met.start, {}};
  for (std::size_t k = 0; k < works_.size(); ++k) {
    if (works_[k].at_s > s.from_s) {
      segments_.push_back(s);
      Integrator run(network_, s.inputs, s.start, true);
      const double length = works_[k].at_s - s.from_s;
      run.advance(length);
      s.start = run.state_at(length);
      add_to(s.before, run.ledger_at(length));
      s.from_s = works_[k].at_s;
    }
    s.inputs.contacts[works_[k].contact].closed = works_[k].closed ? 1 : 0;
  }
  segments_.push_back(s);
}

const Bench::Segment& Bench::segment_of(double t_s, bool before) {
  prepare();
  std::size_t k = 0;
  while (k + 1 < segments_.size() &&
         (before ? segments_[k + 1].from_s < t_s : segments_[k + 1].from_s <= t_s)) {
    ++k;
  }
  return segments_[k];
}

Bench::Look Bench::at(double t_s, bool before) {
  const Segment& s = segment_of(t_s, before);
  if (&s != current_ || t_s < looked_s_) {
    current_ = &s;
    run_ = std::make_unique<Integrator>(network_, s.inputs, s.start, true);
  }
  looked_s_ = t_s;
  const double within = t_s - s.from_s;
  run_->advance(within);
  Look look{run_->state_at(within), {}, s.before};
  Plan(network_, look.state).node_voltages_in(look.state, look.node_v);
  add_to(look.ledger, run_->ledger_at(within));
  return look;
}

double Bench::value(const Look& look, const std::string& signal) const {
  const auto found = signals_.find(signal);
  if (found == signals_.end()) throw std::runtime_error("no signal " + signal);
  return found->second(look);
}

Energies Bench::energies(const Look& look) const {
  Energies e;
  e.source = look.ledger.source_j;
  e.heat = look.ledger.heat_j;
  e.impact = look.ledger.impact_j;
  e.friction = look.ledger.friction_j;
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    const Armature& a = network_.coils[j].armature;
    const CoilState& s = look.state.coils[j];
    e.field += field_energy_j(network_.coils[j].magnet, s.linkage_wb, s.gap_m);
    if (!a.present) continue;
    const double way = a.stroke_m - s.gap_m;
    e.spring += a.preload_n * way + a.rate_n_per_m * way * way / 2;
    const double second = std::max(0.0, a.second_from_m - s.gap_m);
    e.spring += a.second_preload_n * second + a.second_rate_n_per_m * second * second / 2;
    e.kinetic += a.mass_kg / 2 * s.speed_m_per_s * s.speed_m_per_s;
  }
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    const double u = look.state.capacitor_v[k];
    e.capacitors += network_.capacitors[k].capacitance_f / 2 * u * u;
  }
  return e;
}

std::vector<Bench::Happened> Bench::events(double until_s) {
  prepare();
  std::vector<Happened> all;
  for (std::size_t k = 0; k < segments_.size() && segments_[k].from_s < until_s; ++k) {
    const Segment& s = segments_[k];
    const double to_s = k + 1 < segments_.size() ? segments_[k + 1].from_s : until_s;
    Integrator run(network_, s.inputs, s.start);
    run.advance(to_s - s.from_s);
    for (const Located& e : run.events()) {
      if (s.from_s + e.t_s > to_s) continue;
      const bool contact =
          e.what == What::kMakes || e.what == What::kBreaks || e.what == What::kSparkEnds;
      all.push_back(
          {s.from_s + e.t_s, contact ? "" : coil_names_[static_cast<std::size_t>(e.element)], e});
    }
  }
  return all;
}

}  // namespace sixty::circuit
