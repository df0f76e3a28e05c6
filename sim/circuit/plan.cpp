#include "sim/circuit/plan.hpp"

#include <Eigen/Sparse>
#include <Eigen/SparseCholesky>
#include <cmath>
#include <limits>
#include <numeric>

#include "sim/base/hash.hpp"
#include "sim/base/math.hpp"
#include "sim/circuit/blocks.hpp"

namespace sixty::circuit {
namespace {

using Matrix = Eigen::SparseMatrix<double>;

std::size_t at(Node n) { return static_cast<std::size_t>(n); }

int root(std::vector<int>& parent, int n) {
  while (parent[static_cast<std::size_t>(n)] != n) {
    parent[static_cast<std::size_t>(n)] =
        parent[static_cast<std::size_t>(parent[static_cast<std::size_t>(n)])];
    n = parent[static_cast<std::size_t>(n)];
  }
  return n;
}

void join(std::vector<int>& parent, Node a, Node b) {
  const int ra = root(parent, a);
  const int rb = root(parent, b);
  // The lower number leads, so that each island's reference is its lowest node.
  if (ra != rb) parent[static_cast<std::size_t>(std::max(ra, rb))] = std::min(ra, rb);
}

bool conducts(const ContactState& c) { return c.gap != Gap::kOpen; }

double siemens(const ContactState& c) { return sparking(c) ? kSparkSiemens : 1 / c.ohm; }

}  // namespace

double spark_volts(const ContactKind& kind, const ContactState& s, double dt) {
  if (s.gap == Gap::kGlow) return kind.glow_v * s.spark_sign;
  const double gap_m = kind.opening_speed_m_per_s * (s.timer_s + dt);
  return (kind.arc_v + kind.arc_gradient_v_per_m * gap_m) * s.spark_sign;
}

double contact_current_a(const Contact& contact, const ContactState& s, double volts) {
  if (s.gap == Gap::kOpen) return 0;
  return sparking(s) ? (volts - spark_volts(contact.kind, s, 0)) * kSparkSiemens : volts / s.ohm;
}

struct Plan::Factor {
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower, Eigen::AMDOrdering<int>> ldlt;
  Eigen::VectorXd diagonal;
  mutable Eigen::VectorXd rhs;
  mutable Eigen::VectorXd solution;
};

Plan::Plan(const Network& network, const State& state) : Plan(network, state, false) {}
Plan::~Plan() = default;

Plan::Plan(const Network& network, const State& state, bool coils_as_resistors)
    : network_(network),
      contacts_(state.contacts),
      diode_on_(state.diode_on),
      factor_(std::make_unique<Factor>()) {
  key_ = key_of(state);
  for (const Coil& c : network.coils) {
    coil_a_.push_back(at(c.a));
    coil_b_.push_back(at(c.b));
  }
  join_islands(network, state, coils_as_resistors);
  stamp(network, state, coils_as_resistors);
}

std::uint64_t Plan::key_of(const State& state) {
  std::uint64_t h = hash_bytes(state.diode_on.data(), state.diode_on.size());
  for (const ContactState& c : state.contacts) {
    h = mix(h, static_cast<std::uint64_t>(c.gap));
    if (c.gap == Gap::kClosed) h = hash_bytes(&c.ohm, sizeof c.ohm, h);
  }
  return h;
}

void Plan::join_islands(const Network& network, const State& state, bool coils_as_resistors) {
  island_.resize(at(network.node_count));
  std::iota(island_.begin(), island_.end(), 0);
  for (const Source& s : network.sources) join(island_, s.plus, s.minus);
  for (const Resistor& r : network.resistors) join(island_, r.a, r.b);
  if (coils_as_resistors) {
    for (const Coil& c : network.coils) join(island_, c.a, c.b);
  } else {
    for (const Capacitor& c : network.capacitors) join(island_, c.a, c.b);
  }
  for (std::size_t k = 0; k < network.diodes.size(); ++k) {
    if (state.diode_on[k] != 0) join(island_, network.diodes[k].anode, network.diodes[k].cathode);
  }
  for (std::size_t k = 0; k < network.contacts.size(); ++k) {
    if (conducts(state.contacts[k])) join(island_, network.contacts[k].a, network.contacts[k].b);
  }
  unknown_.assign(island_.size(), -1);
  int count = 0;
  for (Node n = 0; n < network.node_count; ++n) {
    const int r = root(island_, n);
    island_[at(n)] = r;
    if (r != n) unknown_[at(n)] = count++;
  }
  factor_->rhs.setZero(count);
  factor_->solution.setZero(count);
}

void Plan::stamp(const Network& network, const State& state, bool coils_as_resistors) {
  std::vector<Eigen::Triplet<double>> entries;
  const auto conductance = [&](Node a, Node b, double g) {
    const int i = unknown_[at(a)];
    const int j = unknown_[at(b)];
    if (i >= 0) entries.emplace_back(i, i, g);
    if (j >= 0) entries.emplace_back(j, j, g);
    if (i >= 0 && j >= 0) entries.emplace_back(std::max(i, j), std::min(i, j), -g);
  };
  constant_.assign(island_.size(), 0.0);
  for (const Source& s : network.sources) {
    conductance(s.plus, s.minus, 1 / s.resistance_ohm);
    if (s.rectified) continue;
    constant_[at(s.plus)] += s.emf_v / s.resistance_ohm;
    constant_[at(s.minus)] -= s.emf_v / s.resistance_ohm;
  }
  for (const Resistor& r : network.resistors) conductance(r.a, r.b, 1 / r.resistance_ohm);
  if (coils_as_resistors) {
    for (const Coil& c : network.coils) conductance(c.a, c.b, 1 / c.resistance_ohm);
  } else {
    for (const Capacitor& c : network.capacitors) conductance(c.a, c.b, 1 / c.resistance_ohm);
  }
  for (std::size_t k = 0; k < network.diodes.size(); ++k) {
    const Diode& d = network.diodes[k];
    if (state.diode_on[k] == 0) continue;
    conductance(d.anode, d.cathode, 1 / d.resistance_ohm);
    constant_[at(d.anode)] += d.forward_v / d.resistance_ohm;
    constant_[at(d.cathode)] -= d.forward_v / d.resistance_ohm;
  }
  for (std::size_t k = 0; k < network.contacts.size(); ++k) {
    if (!conducts(state.contacts[k])) continue;
    conductance(network.contacts[k].a, network.contacts[k].b, siemens(state.contacts[k]));
  }
  if (factor_->rhs.size() == 0) return;
  Matrix g(factor_->rhs.size(), factor_->rhs.size());
  g.setFromTriplets(entries.begin(), entries.end());
  factor_->diagonal = g.diagonal();
  factor_->ldlt.compute(g);
}

double Plan::node_siemens(std::size_t n) const {
  return unknown_[n] >= 0 ? factor_->diagonal[unknown_[n]]
                          : std::numeric_limits<double>::infinity();
}

void Plan::node_voltages(const Given& given, std::vector<double>& node_v) const {
  const auto [coil_a, capacitor_v, spark_v, emf_v] = given;
  node_v = constant_;
  for (std::size_t k = 0; k < network_.sources.size(); ++k) {
    const Source& s = network_.sources[k];
    if (!s.rectified) continue;
    const double injected_a = (emf_v != nullptr ? emf_v[k] : mean_v(s)) / s.resistance_ohm;
    node_v[at(s.plus)] += injected_a;
    node_v[at(s.minus)] -= injected_a;
  }
  for (std::size_t j = 0; j < coil_a_.size(); ++j) {
    if (coil_a == nullptr || open_coil(j)) continue;
    node_v[coil_a_[j]] -= coil_a[j];
    node_v[coil_b_[j]] += coil_a[j];
  }
  for (std::size_t k = 0; capacitor_v != nullptr && k < network_.capacitors.size(); ++k) {
    const Capacitor& c = network_.capacitors[k];
    node_v[at(c.a)] += capacitor_v[k] / c.resistance_ohm;
    node_v[at(c.b)] -= capacitor_v[k] / c.resistance_ohm;
  }
  for (std::size_t k = 0; k < contacts_.size(); ++k) {
    if (!sparking(contacts_[k])) continue;
    node_v[at(network_.contacts[k].a)] += spark_v[k] * kSparkSiemens;
    node_v[at(network_.contacts[k].b)] -= spark_v[k] * kSparkSiemens;
  }
  Factor& f = *factor_;
  for (std::size_t n = 0; n < node_v.size(); ++n) {
    if (unknown_[n] >= 0) f.rhs[unknown_[n]] = node_v[n];
  }
  if (f.rhs.size() > 0) f.solution = f.ldlt.solve(f.rhs);
  for (std::size_t n = 0; n < node_v.size(); ++n) {
    node_v[n] = unknown_[n] >= 0 ? f.solution[unknown_[n]] : 0.0;
  }
}

void Plan::node_voltages_in(const State& state, std::vector<double>& node_v) const {
  std::vector<double> coil_a, spark_v, emf;
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    const CoilState& s = state.coils[j];
    const double current_a =
        coil_current_a(network_.coils[j].magnet, s.linkage_wb, s.gap_m, s.held_a);
    coil_a.push_back(std::fabs(current_a) > kNoCurrent ? current_a : 0);
  }
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    const ContactState& s = state.contacts[k];
    spark_v.push_back(sparking(s) ? spark_volts(network_.contacts[k].kind, s, 0) : 0);
  }
  for (const Source& s : network_.sources)
    emf.push_back(emf_v(s, state.mains_s, network_.half_period_s));
  node_voltages({coil_a.data(), state.capacitor_v.data(), spark_v.data(), emf.data()}, node_v);
}

SteadyNodes Plan::steady(const Network& network, const State& state) {
  const Plan plan(network, state, true);
  SteadyNodes nodes;
  plan.node_voltages({}, nodes.volts);
  nodes.island = plan.island_;
  return nodes;
}

}  // namespace sixty::circuit
