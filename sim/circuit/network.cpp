#include "sim/circuit/network.hpp"

#include <bit>
#include <type_traits>

#include "sim/base/hash.hpp"

namespace sixty::circuit {
namespace {

template <class T>
std::uint64_t word(T value) {
  if constexpr (std::is_floating_point_v<T>) {
    return std::bit_cast<std::uint64_t>(value);
  } else {
    return static_cast<std::uint64_t>(value);
  }
}

template <class... T>
std::uint64_t mix_all(std::uint64_t h, T... values) {
  ((h = mix(h, word(values))), ...);
  return h;
}

std::uint64_t mix_kind(std::uint64_t h, const ContactKind& k) {
  h = mix_all(h, k.bounces, k.moving_mass_kg, k.force_n, k.restitution, k.touch_s, k.sparks);
  return mix_all(h, k.arc_min_a, k.arc_v, k.arc_gradient_v_per_m, k.glow_v, k.glow_min_a,
                 k.opening_speed_m_per_s);
}

std::uint64_t mix_coil(std::uint64_t h, const Coil& c) {
  const Magnet& m = c.magnet;
  const Armature& a = c.armature;
  h = mix_all(h, c.a, c.b, c.resistance_ohm, c.owner, c.marks.size());
  h = mix_all(h, m.inductance_h, m.turns, m.pole_area_m2, m.residual_gap_m, m.iron_length_m,
              m.saturation_t, m.relative_permeability, m.coercive_a);
  h = mix_all(h, a.present, a.stroke_m, a.seat_m, a.mass_kg, a.preload_n, a.rate_n_per_m,
              a.second_from_m, a.second_preload_n, a.second_rate_n_per_m);
  h = mix_all(h, a.friction_n, a.stiction, a.viscous_n_s_per_m, a.rebound_seat, a.rebound_open);
  for (const Mark& k : c.marks) h = mix_all(h, k.gap_m, k.direction, k.contact, k.closes, k.code);
  return h;
}

}  // namespace

std::uint64_t Network::hash() const {
  std::uint64_t h = mix_all(1, node_count, sources.size(), resistors.size(), capacitors.size(),
                            diodes.size(), contacts.size(), fuses.size(), coils.size());
  for (const Source& s : sources) {
    h = mix_all(h, s.plus, s.minus, s.emf_v, s.resistance_ohm, s.owner, s.rectified, s.watched);
  }
  h = mix_all(h, half_period_s);
  for (const Resistor& r : resistors) h = mix_all(h, r.a, r.b, r.resistance_ohm);
  for (const Capacitor& c : capacitors) h = mix_all(h, c.a, c.b, c.capacitance_f, c.resistance_ohm);
  for (const Diode& d : diodes) {
    h = mix_all(h, d.anode, d.cathode, d.resistance_ohm, d.forward_v);
  }
  for (const Contact& c : contacts) {
    h = mix_kind(mix_all(h, c.a, c.b, c.closed_ohm, c.closed, c.owner), c.kind);
  }
  for (const Fuse& f : fuses) h = mix_all(h, f.contact, f.melts_a, f.time_constant_s);
  for (const Coil& c : coils) h = mix_coil(h, c);
  return h;
}

}  // namespace sixty::circuit
