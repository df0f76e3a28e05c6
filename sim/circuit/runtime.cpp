#include "sim/circuit/runtime.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace sixty::circuit {
namespace {

void add(Ledger& total, const Ledger& part) {
  for (std::size_t k = 0; k < total.charge_as.size(); ++k) {
    total.charge_as[k] += part.charge_as[k];
    widen(total, k, part.least_v[k], part.most_a[k]);
  }
  for (std::size_t k = 0; k < total.spark_j.size(); ++k) total.spark_j[k] += part.spark_j[k];
}

void add(Ledger& total, const Cut& cut, const Stretch& stretch) {
  add(total, *cut.ledger);
  if (cut.steady_s <= 0) return;
  for (std::size_t k = 0; k < total.charge_as.size(); ++k) {
    total.charge_as[k] += stretch.steady_a[k] * cut.steady_s;
  }
}

EventId resolve(const NetworkData& data, std::int32_t cause) {
  if (cause >= 0) return data.ids[static_cast<std::size_t>(cause)];
  if (cause == kCauseIsCut) return data.cut_cause;
  const auto coil = static_cast<std::size_t>((-cause - 2) / 2);
  return (-cause) % 2 == 0 ? data.drive_cause[coil] : data.motion_cause[coil];
}

void find_next(NetworkData& data) {
  const Stretch& s = *data.met.stretch;
  SimTime next = s.settled ? kNever : data.began + s.end_ns;
  if (data.next < s.events.size()) next = data.began + s.events[data.next].offset_ns;
  data.next_at = std::min(next, data.fuses.melts_at());
}

/// Before a stretch is left, what last drove and moved each coil is kept for the next one.
void keep_causes(NetworkData& data) {
  const Stretch& s = *data.met.stretch;
  for (const std::size_t j : s.driven_anew) data.drive_cause[j] = data.cut_cause;
  for (const std::size_t k : s.sets_moving) {
    if (k >= data.next) break;
    const Located& e = s.events[k];
    const auto j = static_cast<std::size_t>(e.element);
    data.motion_cause[j] = data.ids[k];
    if (e.cause >= 0) data.drive_cause[j] = data.ids[static_cast<std::size_t>(e.cause)];
  }
}

std::uint64_t mark_of(std::size_t contact, const ContactInput& in) {
  const std::uint64_t h = mix(2 * contact + 1, std::bit_cast<std::uint64_t>(in.closed_ohm));
  return mix(mix(h, std::bit_cast<std::uint64_t>(in.closing_speed_m_per_s)), in.closed);
}

std::uint64_t mark_of(std::size_t coil, double newton) {
  return mix(2 * coil + 2, std::bit_cast<std::uint64_t>(newton));
}

void enter(NetworkData& data, Met met, SimTime now) {
  data.met = std::move(met);
  data.began = now;
  data.next = 0;
  data.ids.resize(data.met.stretch->events.size());
  data.fuses.expect(*data.met.stretch, now, data.inputs);
  find_next(data);
}

void leave(NetworkData& data, const Cut& cut) {
  add(data.total, cut, *data.met.stretch);
  data.fuses.follow(*data.met.stretch, cut);
}

/// Diodes as the steady currents want them; one that carries nothing is left conducting, since what
/// lies behind it was charged through it.
SteadyNodes steady_with_diodes(const Network& network, State& s) {
  constexpr double kRounding = 1e-9;  // V
  s.diode_on.assign(network.diodes.size(), 1);
  for (std::size_t round = 0;; ++round) {
    SteadyNodes nodes = Plan::steady(network, s);
    std::size_t wrong = network.diodes.size();
    for (std::size_t k = 0; k < network.diodes.size() && wrong == network.diodes.size(); ++k) {
      const Diode& d = network.diodes[k];
      if (!nodes.joined(d.anode, d.cathode)) continue;
      const double forward_v = nodes.drop(d.anode, d.cathode) - d.forward_v;
      if (s.diode_on[k] != 0 ? forward_v < -kRounding : forward_v > kRounding) wrong = k;
    }
    if (wrong == network.diodes.size() || round > 4 * network.diodes.size()) return nodes;
    s.diode_on[wrong] ^= 1;
  }
}

/// Capacitors as charged as they get, though no coil carries anything yet: by what is rectified to
/// its peak, since next to nothing is drawn.
State first_state(const Network& network) {
  State s = rest_state(network);
  if (network.capacitors.empty() && network.diodes.empty()) return s;
  Network at_peak = network;
  for (Source& source : at_peak.sources) source.rectified = false;
  const SteadyNodes nodes = steady_with_diodes(at_peak, s);
  for (std::size_t k = 0; k < network.capacitors.size(); ++k) {
    const Capacitor& c = network.capacitors[k];
    if (nodes.joined(c.a, c.b)) s.capacitor_v[k] = nodes.drop(c.a, c.b);
  }
  return s;
}

std::vector<std::uint8_t> worked_contacts(const Network& network) {
  std::vector<std::uint8_t> worked(network.contacts.size(), 0);
  for (const Coil& coil : network.coils) {
    for (const Mark& mark : coil.marks) {
      if (mark.contact >= 0) worked[static_cast<std::size_t>(mark.contact)] = 1;
    }
  }
  return worked;
}

/// Contacts that armatures have come to work only now stand as those armatures have them.
void take_up(const Network& before, const Network& now, State& state) {
  const std::vector<std::uint8_t> were = worked_contacts(before);
  for (std::size_t j = 0; j < now.coils.size(); ++j) {
    for (const Mark& mark : now.coils[j].marks) {
      if (mark.contact < 0 || were[static_cast<std::size_t>(mark.contact)] != 0) continue;
      const double gap_m = state.coils[j].gap_m;
      const bool beyond = mark.direction < 0 ? gap_m <= mark.gap_m : gap_m >= mark.gap_m;
      if (!beyond) continue;
      ContactState& contact = state.contacts[static_cast<std::size_t>(mark.contact)];
      contact.commanded = mark.closes ? 1 : 0;
      contact.gap = mark.closes ? Gap::kClosed : Gap::kOpen;
    }
  }
}

/// The state with every armature that lies open at its open stop, which may have been moved.
std::shared_ptr<const State> at_their_stops(const Network& network,
                                            const std::shared_ptr<const State>& state) {
  std::shared_ptr<State> moved;
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    const Armature& a = network.coils[j].armature;
    const CoilState& s = state->coils[j];
    const bool stands_off = s.rest == Rest::kOpen && s.gap_m != a.stroke_m;
    if (!a.present || (!stands_off && s.gap_m <= a.stroke_m)) continue;
    if (moved == nullptr) moved = std::make_shared<State>(*state);
    moved->coils[j].gap_m = a.stroke_m;
    moved->coils[j].speed_m_per_s = 0;
    moved->coils[j].rest = Rest::kOpen;
  }
  return moved != nullptr ? moved : state;
}

}  // namespace

NetworkData begin_network(std::shared_ptr<const Network> network, SimTime now, Memo& memo) {
  NetworkData data;
  data.network = std::move(network);
  data.inputs = initial_inputs(*data.network);
  data.drive_cause.assign(data.network->coils.size(), kSceneStart);
  data.motion_cause.assign(data.network->coils.size(), kSceneStart);
  data.total = empty_ledger(*data.network);
  data.fuses = Fuses(data.network->fuses.size());
  const auto first = std::make_shared<const State>(first_state(*data.network));
  enter(data, memo.meet(data.network, data.inputs, first), now);
  return data;
}

bool take(NetworkData& data, EventId id, Memo& memo, Happening& happening) {
  const Stretch& s = *data.met.stretch;
  if (data.fuses.melts_at() == data.next_at && data.next_at != kNever) {
    data.melted = data.fuses.melt(*data.network, data.began);
    happening.located = &data.melted;
    happening.cause = data.next == 0 ? data.cut_cause : data.ids[data.next - 1];
    find_next(data);
    return true;
  }
  if (data.next < s.events.size()) {
    happening.located = &s.events[data.next];
    happening.cause = resolve(data, happening.located->cause);
    data.ids[data.next++] = id;
    find_next(data);
    return true;
  }
  if (s.failure) throw IntegrationFailure(*s.failure);
  keep_causes(data);
  add(data.total, *s.ledger);
  data.fuses.follow(*s.ledger);
  const SimTime end = data.began + s.end_ns;
  enter(data, memo.go_on({data.network, data.inputs, data.mark, data.met}), end);
  return false;
}

void set_contact(NetworkData& data, std::size_t contact, const ContactInput& input) {
  ContactInput& in = data.inputs.contacts[contact];
  data.mark ^= mark_of(contact, in) ^ mark_of(contact, input);
  data.changed = data.changed || in.closed != input.closed;
  in = input;
}

void set_load(NetworkData& data, std::size_t coil, double newton) {
  double& load = data.inputs.coil_extra_load_n[coil];
  if (load == newton) return;
  data.mark ^= mark_of(coil, load) ^ mark_of(coil, newton);
  data.changed = true;
  load = newton;
}

Network& edit(NetworkData& data) {
  if (data.edited == nullptr) data.edited = std::make_shared<Network>(*data.network);
  data.changed = true;
  return *data.edited;
}

void recut(NetworkData& data, SimTime now, EventId cause, Memo& memo) {
  keep_causes(data);
  data.cut_cause = cause;
  data.changed = false;
  if (data.edited == nullptr) {
    const Asked asked{data.network, data.inputs, data.mark, data.met};
    Onward onward = memo.go_on(asked, data.began, now - data.began, data.next);
    leave(data, onward.cut);
    enter(data, std::move(onward.met), now);
    return;
  }
  const Cut cut = memo.cut(data.met, data.began, now - data.began, data.next);
  leave(data, cut);
  const std::shared_ptr<const Network> before = data.network;
  data.network = memo.intern(std::move(data.edited));
  auto state = at_their_stops(*data.network, cut.state);
  if (worked_contacts(*before) != worked_contacts(*data.network)) {
    auto taken_up = std::make_shared<State>(*state);
    take_up(*before, *data.network, *taken_up);
    state = std::move(taken_up);
  }
  enter(data, memo.meet(data.network, data.inputs, state), now);
}

double fuse_heat(const NetworkData& data, std::size_t fuse, SimTime now, Memo& memo) {
  const Cut cut = memo.sums(data.met, data.began, now - data.began, data.next);
  Fuses then = data.fuses;
  then.follow(*data.met.stretch, cut);
  return then.heat(fuse);
}

Ledger ledger_at(const NetworkData& data, SimTime now, Memo& memo) {
  Ledger total = data.total;
  add(total, memo.sums(data.met, data.began, now - data.began, data.next), *data.met.stretch);
  return total;
}

std::uint64_t state_hash(const NetworkData& d) {
  std::uint64_t h = mix(d.met.start->hash(), static_cast<std::uint64_t>(d.began));
  h = mix(mix(h, d.next), d.inputs.hash());
  h = d.fuses.hash(mix(mix(h, d.cut_cause), d.network->hash()));
  for (std::size_t k = 0; k < d.next; ++k) h = mix(h, d.ids[k]);
  h = hash_bytes(d.total.charge_as.data(), d.total.charge_as.size() * sizeof(double), h);
  return hash_bytes(d.drive_cause.data(), d.drive_cause.size() * sizeof(EventId), h);
}

void Probe::look(const NetworkData& data, SimTime now) {
  const double offset_s = to_seconds(now - data.began);
  const bool onward = network_ == data.network.get() && stretch_ == data.met.stretch &&
                      start_ == data.met.start && offset_s >= offset_s_;
  if (!onward) {
    stretch_ = data.met.stretch;
    start_ = data.met.start;
    idle_ = data.met.idle;
    if (network_ != data.network.get()) plan_.reset();
    network_ = data.network.get();
    integrator_.reset();
  } else if (offset_s == offset_s_) {
    return;
  }
  offset_s_ = offset_s;
  if (hums()) {
    look_at_hum(offset_s - stretch_->end_s);
  } else {
    look_within(offset_s);
  }
  put_back(*network_, *idle_, *start_, false, state_);
  find_node_voltages();
}

/// Also where no current can come: a stretch knows nothing of what lies idle, but a meter may be
/// laid on there.
void Probe::find_node_voltages() {
  if (plan_ == nullptr || plan_->key() != Plan::key_of(state_))
    plan_ = std::make_unique<const Plan>(*network_, state_);
  plan_->node_voltages_in(state_, node_v_);
}

void Probe::look_within(double offset_s) {
  if (integrator_ == nullptr) {
    integrator_ =
        std::make_unique<Integrator>(*stretch_->network, stretch_->inputs, *stretch_->start);
  }
  integrator_->advance_stretch(offset_s);
  state_ = integrator_->state_at(offset_s);
}

void Probe::look_at_hum(double rested_s) {
  const double into_s = std::fmod(rested_s, network_->half_period_s);
  Integrator run(*stretch_->network, stretch_->inputs, *stretch_->end);
  run.advance(into_s);
  state_ = run.state_at(into_s);
}

bool Probe::rests() const {
  return stretch_->settled && !stretch_->hums && offset_s_ >= stretch_->end_s;
}

bool Probe::hums() const { return stretch_->hums && offset_s_ >= stretch_->end_s; }

double Probe::coil_current_a(std::size_t coil) const {
  const CoilState& s = state_.coils[coil];
  return circuit::coil_current_a(network_->coils[coil].magnet, s.linkage_wb, s.gap_m, s.held_a);
}

double Probe::source_current_a(std::size_t source) const {
  const Source& s = network_->sources[source];
  const double emf = emf_v(s, state_.mains_s, network_->half_period_s);
  return (emf - volts(s.plus, s.minus)) / s.resistance_ohm;
}

double Probe::coil_volts(std::size_t coil) const {
  return volts(network_->coils[coil].a, network_->coils[coil].b);
}

double Probe::contact_current_a(std::size_t contact) const {
  const Contact& c = network_->contacts[contact];
  return circuit::contact_current_a(c, state_.contacts[contact], volts(c.a, c.b));
}

double Probe::field_energy_j() const {
  double sum = 0;
  for (std::size_t j = 0; j < state_.coils.size(); ++j) {
    sum += circuit::field_energy_j(network_->coils[j].magnet, state_.coils[j].linkage_wb,
                                   state_.coils[j].gap_m);
  }
  return sum;
}

double Probe::volts(Node a, Node b) const {
  return node_v_[static_cast<std::size_t>(a)] - node_v_[static_cast<std::size_t>(b)];
}

}  // namespace sixty::circuit
