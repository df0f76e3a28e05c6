#include "sim/circuit/rework.hpp"

#include <tuple>

namespace sixty::circuit {
namespace {

// The values of an element: what may be changed while it runs. Nodes, owners and what works what
// belong to the build.
auto values(Source& s) { return std::tie(s.emf_v, s.resistance_ohm); }
auto values(Resistor& r) { return std::tie(r.resistance_ohm); }
auto values(Capacitor& c) { return std::tie(c.capacitance_f, c.resistance_ohm); }
auto values(Diode& d) { return std::tie(d.resistance_ohm, d.forward_v); }
auto values(Fuse& f) { return std::tie(f.melts_a, f.time_constant_s); }
auto values(ContactKind& k) {
  return std::tie(k.bounces, k.moving_mass_kg, k.force_n, k.restitution, k.touch_s, k.sparks,
                  k.arc_min_a, k.arc_v, k.arc_gradient_v_per_m, k.glow_v, k.glow_min_a,
                  k.opening_speed_m_per_s);
}
auto values(Contact& c) { return values(c.kind); }
auto values(Coil& c) {
  Magnet& m = c.magnet;
  Armature& a = c.armature;
  return std::tie(c.resistance_ohm, m.inductance_h, m.turns, m.pole_area_m2, m.residual_gap_m,
                  m.iron_length_m, m.saturation_t, m.relative_permeability, m.coercive_a,
                  a.stroke_m, a.seat_m, a.mass_kg, a.preload_n, a.rate_n_per_m, a.second_from_m,
                  a.second_preload_n, a.second_rate_n_per_m, a.friction_n, a.stiction,
                  a.viscous_n_s_per_m, a.rebound_seat, a.rebound_open);
}

template <class Tuple, std::size_t... I>
void keep_live(const Tuple& before, Tuple after, const Tuple& live, std::index_sequence<I...>) {
  const auto keep = [](const auto& was, auto& is, const auto& now) {
    if (was == is) is = now;
  };
  (keep(std::get<I>(before), std::get<I>(after), std::get<I>(live)), ...);
}

template <class Element>
void keep_live(Element before, Element& after, Element live) {
  const auto was = values(before);
  keep_live(was, values(after), values(live),
            std::make_index_sequence<std::tuple_size_v<decltype(was)>>());
}

template <class Element>
void keep_live(const std::vector<Element>& before, std::vector<Element>& after,
               const std::vector<Element>& live) {
  for (std::size_t k = 0; k < after.size(); ++k) keep_live(before[k], after[k], live[k]);
}

}  // namespace

bool same_shape(const Network& a, const Network& b) {
  return a.sources.size() == b.sources.size() && a.capacitors.size() == b.capacitors.size() &&
         a.diodes.size() == b.diodes.size() && a.contacts.size() == b.contacts.size() &&
         a.fuses.size() == b.fuses.size() && a.coils.size() == b.coils.size();
}

Network reworked(const Rework& r) {
  Network network = r.after;
  keep_live(r.before.sources, network.sources, r.live.sources);
  keep_live(r.before.capacitors, network.capacitors, r.live.capacitors);
  keep_live(r.before.diodes, network.diodes, r.live.diodes);
  keep_live(r.before.contacts, network.contacts, r.live.contacts);
  keep_live(r.before.fuses, network.fuses, r.live.fuses);
  keep_live(r.before.coils, network.coils, r.live.coils);
  for (const auto& [was, is] : r.resistors)
    keep_live(r.before.resistors[was], network.resistors[is], r.live.resistors[was]);
  return network;
}

}  // namespace sixty::circuit
