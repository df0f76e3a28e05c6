#include "sim/circuit/idle.hpp"

#include <algorithm>

#include "sim/circuit/armature.hpp"
#include "sim/circuit/blocks.hpp"

namespace sixty::circuit {
namespace {

Coil idle_coil() {
  Coil coil;
  coil.resistance_ohm = 1;
  coil.magnet.inductance_h = 1;
  return coil;
}

Diode idle_diode() { return {0, 0, 1, 1}; }

/// Commanded so, come to rest so.
bool lies(const ContactInput& input, const ContactState& s) {
  if (sparking(s) || s.flight_s != 0) return false;
  const bool closed = s.gap == Gap::kClosed;
  return closed == (s.commanded != 0) && closed == (input.closed != 0);
}

/// Nothing but a current would move it.
bool lies_open(const Coil& coil, const CoilState& s, double extra_load_n) {
  const Armature& a = coil.armature;
  if (s.rest != Rest::kOpen || s.gap_m != a.stroke_m || s.expecting != 0) return false;
  if (!a.present) return true;
  const double pull = pull_n(coil.magnet, s.linkage_wb);
  return forces_at(a, s.gap_m, extra_load_n, pull).closing_n >= -hold_n(a, extra_load_n);
}

/// Finds what can be reached, beginning with what is commanded: an armature works its contacts only
/// once its own coil can be.
class Reach {
 public:
  Reach(const Network& network, const Inputs& inputs, const State& state)
      : network_(network), closed_(state), stirs_(network.coils.size()) {
    for (std::size_t j = 0; j < stirs_.size(); ++j) {
      active_.push_back(is_active(network.coils[j], state.coils[j]) ? 1 : 0);
      const bool lies = lies_open(network.coils[j], state.coils[j], inputs.coil_extra_load_n[j]);
      if (active_[j] != 0 || !lies) stir(j);
    }
    for (std::size_t k = 0; k < closed_.contacts.size(); ++k) {
      if (inputs.contacts[k].closed != 0) closed_.contacts[k].gap = Gap::kClosed;
    }
    closed_.diode_on.assign(closed_.diode_on.size(), 1);
    do {
      awake_ = find_awake(network, closed_, active_);
    } while (follow_coils());
  }

  const Awake& awake() const { return awake_; }
  bool stirs(std::size_t coil) const { return stirs_[coil] != 0; }

 private:
  /// Whether there is more to be reached.
  bool follow_coils() {
    bool more = false;
    for (std::size_t j = 0; j < stirs_.size(); ++j) {
      if (awake_.coils[j] != 0 && stirs_[j] == 0) more = stir(j) || more;
    }
    return more;
  }

  /// Whether that may close a contact.
  bool stir(std::size_t j) {
    stirs_[j] = 1;
    bool closes = false;
    for (const Mark& mark : network_.coils[j].marks) {
      if (mark.contact < 0) continue;
      Gap& gap = closed_.contacts[static_cast<std::size_t>(mark.contact)].gap;
      closes = closes || gap == Gap::kOpen;
      gap = Gap::kClosed;
    }
    return closes;
  }

  const Network& network_;
  State closed_;  ///< as far as can be
  std::vector<std::uint8_t> active_, stirs_;
  Awake awake_;
};

std::vector<std::size_t> not_in(const std::vector<std::uint8_t>& awake) {
  std::vector<std::size_t> numbers;
  for (std::size_t k = 0; k < awake.size(); ++k) {
    if (awake[k] == 0) numbers.push_back(k);
  }
  return numbers;
}

}  // namespace

Idle find_idle(const Network& network, const Inputs& inputs, const State& state) {
  const Reach reach(network, inputs, state);
  std::vector<std::uint8_t> awake = reach.awake().contacts;
  for (std::size_t k = 0; k < awake.size(); ++k) {
    if (!lies(inputs.contacts[k], state.contacts[k])) awake[k] = 1;
  }
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    if (!reach.stirs(j)) continue;
    for (const Mark& mark : network.coils[j].marks) {
      if (mark.contact >= 0) awake[static_cast<std::size_t>(mark.contact)] = 1;
    }
  }
  Idle idle;
  idle.contacts = not_in(awake);
  idle.resistors = not_in(reach.awake().resistors);
  idle.diodes = not_in(reach.awake().diodes);
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    const std::vector<Mark>& marks = network.coils[j].marks;
    // Who works a contact stays with it: it is by its worker that a contact obeys no command.
    const bool works = std::any_of(marks.begin(), marks.end(), [&](const Mark& mark) {
      return mark.contact >= 0 && awake[static_cast<std::size_t>(mark.contact)] != 0;
    });
    if (!reach.stirs(j) && !works) idle.coils.push_back(j);
  }
  return idle;
}

std::uint64_t Idle::hash() const {
  std::uint64_t h = 1;
  for (const std::vector<std::size_t>* some : {&contacts, &coils, &resistors, &diodes})
    h = mix(hash_bytes(some->data(), some->size() * sizeof(std::size_t), h), some->size());
  return h;
}

Network without(const Network& network, const Idle& idle) {
  Network rest = network;
  for (const std::size_t k : idle.contacts) rest.contacts[k] = Contact{};
  for (const std::size_t j : idle.coils) rest.coils[j] = idle_coil();
  for (const std::size_t k : idle.diodes) rest.diodes[k] = idle_diode();
  rest.resistors.clear();
  for (std::size_t k = 0; k < network.resistors.size(); ++k) {
    if (!std::binary_search(idle.resistors.begin(), idle.resistors.end(), k))
      rest.resistors.push_back(network.resistors[k]);
  }
  return rest;
}

void set_aside(const Idle& idle, State& state) {
  for (const std::size_t k : idle.contacts) state.contacts[k] = ContactState{};
  for (const std::size_t j : idle.coils) state.coils[j] = CoilState{};
  for (const std::size_t k : idle.diodes) state.diode_on[k] = 0;
}

void set_aside(const Idle& idle, Inputs& inputs) {
  for (const std::size_t k : idle.contacts) inputs.contacts[k].closed = 0;
  for (const std::size_t j : idle.coils) inputs.coil_extra_load_n[j] = 0;
}

void put_back(const Network& network, const Idle& idle, const State& before, bool settled,
              State& state) {
  for (const std::size_t k : idle.contacts) {
    state.contacts[k] = before.contacts[k];
    if (!settled || state.contacts[k].gap != Gap::kClosed) continue;
    state.contacts[k].ohm = network.contacts[k].closed_ohm;
    state.contacts[k].dry = 1;
  }
  for (const std::size_t j : idle.coils) state.coils[j] = before.coils[j];
  for (const std::size_t k : idle.diodes) state.diode_on[k] = before.diode_on[k];
}

}  // namespace sixty::circuit
