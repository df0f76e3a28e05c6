#include "sim/circuit/response.hpp"

#include <algorithm>
#include <cmath>

#include "sim/circuit/blocks.hpp"

namespace sixty::circuit {
namespace {

bool contains(const std::vector<std::uint8_t>& all, std::uint8_t value) {
  return std::find(all.begin(), all.end(), value) != all.end();
}

}  // namespace

Response::Response(const Network& network, const State& state)
    : network_(network), plan_(network, state), capacitors_(network.capacitors.size()) {
  std::vector<std::uint8_t> moved;
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    moved.push_back(is_active(network.coils[j], state.coils[j]) ? 1 : 0);
  }
  awake_ = find_awake(network, state, moved);
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    if (moved[j] != 0 || (awake_.coils[j] != 0 && !plan_.open_coil(j))) live_.push_back(j);
  }
  for (std::size_t k = 0; k < state.contacts.size(); ++k) {
    if (sparking(state.contacts[k])) sparks_.push_back(k);
  }
  for (std::size_t k = 0; k < network.sources.size(); ++k) {
    if (network.sources[k].rectified) rectified_.push_back(k);
  }
  for (std::size_t k = 0; k < network.diodes.size(); ++k) {
    const Diode& d = network.diodes[k];
    if (plan_.island_of(d.anode) == plan_.island_of(d.cathode)) joined_diodes_.push_back(k);
  }
  emf_v_.assign(network.sources.size(), 0.0);
  coil_a_.assign(network.coils.size(), 0.0);
  capacitor_v_.assign(capacitors_, 0.0);
  spark_v_.assign(network.contacts.size(), 0.0);
  if (!has_matrix()) return;
  const std::size_t n = inputs();
  const std::size_t rows = outputs();
  matrix_.assign(rows * (n + 1), 0.0);
  std::vector<double> in(n, 0.0);
  std::vector<double> base;
  nodes(in.data(), base);
  for (std::size_t row = 0; row < rows; ++row) matrix_[n * rows + row] = difference(base, row);
  std::vector<double> with;
  for (std::size_t column = 0; column < n; ++column) {
    in[column] = 1;
    nodes(in.data(), with);
    in[column] = 0;
    for (std::size_t row = 0; row < rows; ++row) {
      matrix_[column * rows + row] = difference(with, row) - matrix_[n * rows + row];
    }
  }
}

void dry_idle_contacts(const Network& network, const Awake& fed, State& state) {
  for (std::size_t k = 0; k < network.contacts.size(); ++k) {
    ContactState& s = state.contacts[k];
    if (s.gap != Gap::kClosed || fed.contacts[k] != 0) continue;
    s.dry = 1;
    s.ohm = network.contacts[k].closed_ohm;
  }
}

std::shared_ptr<const Response> Responses::find(const State& state) {
  std::uint64_t key = Plan::key_of(state);
  for (std::size_t j = 0; j < state.coils.size(); ++j) {
    key = mix(key, std::uint64_t{is_active(network_.coils[j], state.coils[j])});
  }
  for (const Known& known : known_) {
    if (known.key == key) return known.response;
  }
  auto response = std::make_shared<const Response>(network_, state);
  if (known_.size() < kMost) {
    known_.push_back({key, response});
  } else {
    known_[oldest_] = {key, response};
    oldest_ = (oldest_ + 1) % kMost;
  }
  return response;
}

void Response::spread(const double* in) const {
  for (std::size_t i = 0; i < live_.size(); ++i) coil_a_[live_[i]] = in[i];
  for (std::size_t k = 0; k < capacitors_; ++k) capacitor_v_[k] = in[live_.size() + k];
  for (std::size_t k = 0; k < sparks_.size(); ++k) {
    spark_v_[sparks_[k]] = in[live_.size() + capacitors_ + k];
  }
  for (std::size_t k = 0; k < rectified_.size(); ++k) emf_v_[rectified_[k]] = in[first_emf() + k];
}

void Response::nodes(const double* in, std::vector<double>& node_v) const {
  spread(in);
  plan_.node_voltages({coil_a_.data(), capacitor_v_.data(), spark_v_.data(), emf_v_.data()},
                      node_v);
}

double Response::difference(const std::vector<double>& node_v, std::size_t row) const {
  Node a = 0;
  Node b = 0;
  if (row < live_.size()) {
    const std::size_t j = live_[row];
    if (plan_.open_coil(j)) return 0;
    a = network_.coils[j].a;
    b = network_.coils[j].b;
  } else if (row < live_.size() + capacitors_) {
    a = network_.capacitors[row - live_.size()].a;
    b = network_.capacitors[row - live_.size()].b;
  } else if (row < first_emf()) {
    const std::size_t k = sparks_[row - live_.size() - capacitors_];
    a = network_.contacts[k].a;
    b = network_.contacts[k].b;
  } else if (row < inputs()) {
    const std::size_t k = rectified_[row - first_emf()];
    a = network_.sources[k].plus;
    b = network_.sources[k].minus;
  } else if (row < inputs() + network_.sources.size()) {
    a = network_.sources[row - inputs()].terminal();
    b = network_.sources[row - inputs()].minus;
  } else if (row < first_diode()) {
    const Fuse& fuse = network_.fuses[row - inputs() - network_.sources.size()];
    a = network_.contacts[static_cast<std::size_t>(fuse.contact)].a;
    b = network_.contacts[static_cast<std::size_t>(fuse.contact)].b;
  } else {
    const Diode& diode = network_.diodes[joined_diodes_[row - first_diode()]];
    a = diode.anode;
    b = diode.cathode;
  }
  return node_v[static_cast<std::size_t>(a)] - node_v[static_cast<std::size_t>(b)];
}

void Response::voltages(const double* in, double* out, Rows rows) const {
  if (!has_matrix()) {
    nodes(in, node_v_);
    for (std::size_t row = rows.first; row < rows.last; ++row) out[row] = difference(node_v_, row);
    return;
  }
  // Column by column, so that no sum waits for its own last term.
  const std::size_t n = inputs();
  const std::size_t height = outputs();
  const double* const m = matrix_.data();
  std::copy(m + n * height + rows.first, m + n * height + rows.last, out + rows.first);
  for (std::size_t column = 0; column < n; ++column) {
    const double* const gains = m + column * height;
    const double x = in[column];
    for (std::size_t row = rows.first; row < rows.last; ++row) out[row] += gains[row] * x;
  }
}

double Response::self_ohm(std::size_t live_index) const {
  if (has_matrix()) return -gain(live_index, live_index);
  const Coil& c = network_.coils[live_[live_index]];
  return 1 / plan_.node_siemens(static_cast<std::size_t>(c.a)) +
         1 / plan_.node_siemens(static_cast<std::size_t>(c.b));
}

const Response::Steady& Response::steady(const State& state) const {
  if (steady_ != nullptr) return *steady_;
  auto found = std::make_unique<Steady>();
  found->fed = find_fed(network_, state);
  State idle = state;
  dry_idle_contacts(network_, found->fed, idle);
  const SteadyNodes nodes = Plan::steady(network_, idle);
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    const Coil& c = network_.coils[j];
    found->coil_a.push_back(found->fed.coils[j] != 0 ? nodes.drop(c.a, c.b) / c.resistance_ohm
                                                     : 0.0);
  }
  for (const Capacitor& c : network_.capacitors) {
    found->capacitor_v.push_back(nodes.drop(c.a, c.b));
    found->keeps_charge.push_back(nodes.joined(c.a, c.b) ? 0 : 1);
  }
  found->hums =
      !rectified_.empty() && (contains(found->fed.coils, 1) || contains(found->keeps_charge, 0));
  for (const std::size_t k : rectified_) {
    const Source& s = network_.sources[k];
    const double mean_a = (mean_v(s) - nodes.drop(s.plus, s.minus)) / s.resistance_ohm;
    found->hums = found->hums || std::fabs(mean_a) > kNoCurrent;
  }
  steady_ = std::move(found);
  return *steady_;
}

}  // namespace sixty::circuit
