#include "sim/circuit/state.hpp"

#include <bit>
#include <cstring>
#include <limits>

#include "sim/base/math.hpp"

namespace sixty::circuit {
namespace {

template <class T>
std::uint64_t hash_vector(const std::vector<T>& v, std::uint64_t h) {
  return hash_bytes(v.data(), v.size() * sizeof(T), h);
}

template <class T>
bool same_bytes(const std::vector<T>& a, const std::vector<T>& b) {
  return a.size() == b.size() &&
         (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0);
}

}  // namespace

std::uint64_t State::hash() const {
  const std::uint64_t h =
      hash_vector(diode_on, hash_vector(capacitor_v, hash_vector(contacts, hash_vector(coils, 7))));
  return mix(h, std::bit_cast<std::uint64_t>(mains_s));
}

std::uint64_t Inputs::commands_hash() const {
  std::uint64_t h = 0;
  std::uint64_t closed = 0;
  for (std::size_t k = 0; k < contacts.size(); ++k) {
    closed |= contacts[k].closed << (k % 64);
    if (k % 64 != 63) continue;
    h = mix(h, closed);
    closed = 0;
  }
  h = mix(h, closed);
  for (std::size_t j = 0; j < coil_extra_load_n.size(); ++j) {
    const double load = coil_extra_load_n[j];
    if (load != 0) h = mix(mix(h, j), std::bit_cast<std::uint64_t>(load));
  }
  return h;
}

bool State::same(const State& o) const {
  return same_bytes(coils, o.coils) && same_bytes(contacts, o.contacts) &&
         same_bytes(capacitor_v, o.capacitor_v) && same_bytes(diode_on, o.diode_on) &&
         std::bit_cast<std::uint64_t>(mains_s) == std::bit_cast<std::uint64_t>(o.mains_s);
}

double emf_v(const Source& source, double mains_s, double half_period_s) {
  if (!source.rectified) return source.emf_v;
  return source.emf_v * det_sin(kPi * mains_s / half_period_s);
}

double mean_v(const Source& source) { return source.emf_v * (source.rectified ? 2 / kPi : 1); }

double emf_slope(const Source& source, double mains_s, double half_period_s) {
  if (!source.rectified) return 0;
  return source.emf_v * kPi / half_period_s * det_cos(kPi * mains_s / half_period_s);
}

State rest_state(const Network& network) {
  State s;
  s.coils.resize(network.coils.size());
  for (std::size_t j = 0; j < s.coils.size(); ++j) {
    s.coils[j].gap_m = network.coils[j].armature.stroke_m;
  }
  s.contacts.resize(network.contacts.size());
  for (std::size_t k = 0; k < s.contacts.size(); ++k) {
    const Contact& c = network.contacts[k];
    s.contacts[k].ohm = c.closed_ohm;
    s.contacts[k].commanded = c.closed ? 1 : 0;
    s.contacts[k].gap = c.closed ? Gap::kClosed : Gap::kOpen;
  }
  s.capacitor_v.resize(network.capacitors.size());
  s.diode_on.resize(network.diodes.size());
  return s;
}

Inputs initial_inputs(const Network& network) {
  Inputs in;
  for (const Contact& c : network.contacts) {
    in.contacts.push_back({c.closed_ohm, 0, c.closed ? std::uint64_t{1} : std::uint64_t{0}});
  }
  in.coil_extra_load_n.assign(network.coils.size(), 0.0);
  return in;
}

Ledger empty_ledger(const Network& network) {
  Ledger ledger;
  ledger.charge_as.assign(network.sources.size(), 0.0);
  ledger.least_v.assign(network.sources.size(), std::numeric_limits<double>::infinity());
  ledger.most_a.assign(network.sources.size(), 0.0);
  ledger.spark_j.assign(network.contacts.size(), 0.0);
  ledger.fuse_heat.assign(network.fuses.size(), 0.0);
  ledger.fuse_most.assign(network.fuses.size(), 0.0);
  ledger.fuse_keep.assign(network.fuses.size(), 1.0);
  return ledger;
}

}  // namespace sixty::circuit
