#include "sim/circuit/idle.hpp"

#include "sim/circuit/blocks.hpp"

namespace sixty::circuit {
namespace {

/// The contacts as far closed as they can come to be.
State most_closed(const Network& network, const Inputs& inputs, const State& state) {
  State s = state;
  for (std::size_t k = 0; k < s.contacts.size(); ++k) {
    if (inputs.contacts[k].closed != 0) s.contacts[k].gap = Gap::kClosed;
  }
  for (const Coil& c : network.coils) {
    for (const Mark& m : c.marks) {
      if (m.contact >= 0) s.contacts[static_cast<std::size_t>(m.contact)].gap = Gap::kClosed;
    }
  }
  s.diode_on.assign(s.diode_on.size(), 1);
  return s;
}

bool lies_closed(const ContactInput& input, const ContactState& s) {
  return s.gap == Gap::kClosed && s.flight_s == 0 && s.commanded != 0 && input.closed != 0;
}

bool lies_open(const Coil& coil, const CoilState& s) {
  return s.rest == Rest::kOpen && s.gap_m == coil.armature.stroke_m && s.expecting == 0;
}

}  // namespace

Idle find_idle(const Network& network, const Inputs& inputs, const State& state) {
  std::vector<std::uint8_t> active;
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    active.push_back(is_active(network.coils[j], state.coils[j]) ? 1 : 0);
  }
  const Awake awake = find_awake(network, most_closed(network, inputs, state), active);
  Idle idle;
  for (std::size_t k = 0; k < network.contacts.size(); ++k) {
    if (awake.contacts[k] == 0 && lies_closed(inputs.contacts[k], state.contacts[k]))
      idle.contacts.push_back(k);
  }
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    const bool reached = awake.coils[j] != 0 || active[j] != 0;
    if (!reached && lies_open(network.coils[j], state.coils[j])) idle.coils.push_back(j);
  }
  return idle;
}

void set_aside(const Network& network, const Idle& idle, State& state, Inputs& inputs) {
  for (const std::size_t k : idle.contacts) {
    state.contacts[k] = ContactState{};
    state.contacts[k].ohm = network.contacts[k].closed_ohm;
    inputs.contacts[k].closed = 0;
  }
  for (const std::size_t j : idle.coils) {
    state.coils[j] = CoilState{};
    state.coils[j].gap_m = network.coils[j].armature.stroke_m;
  }
}

void put_back(const Network& network, const Idle& idle, const State& before, bool settled,
              State& state) {
  for (const std::size_t k : idle.contacts) {
    state.contacts[k] = before.contacts[k];
    if (!settled) continue;
    state.contacts[k].ohm = network.contacts[k].closed_ohm;
    state.contacts[k].dry = 1;
  }
  for (const std::size_t j : idle.coils) state.coils[j] = before.coils[j];
}

}  // namespace sixty::circuit
