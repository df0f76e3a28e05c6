// Handling events: the parts' turn, then the network's.
#include <fmt/format.h>

#include <algorithm>

#include "sim/base/rng.hpp"
#include "sim/run/world.hpp"
#include "sim/scene/hookup.hpp"

namespace sixty {
namespace {

constexpr std::uint32_t kNetwork = UINT32_MAX;  // target of the network's own events
constexpr int kMostAtOneInstant = 10'000;

bool steps_by_itself(const PartInstance& part) {
  const std::vector<EventDecl>& events = part.kind->declaration.events;
  return std::any_of(events.begin(), events.end(), [](const EventDecl& e) { return e.step; });
}

}  // namespace

std::uint64_t WorldData::state_hash() const {
  std::uint64_t h = mix(calendar.state_hash(), static_cast<std::uint64_t>(now));
  h = hash_bytes(arena.data(), arena.size(), h);
  h = mix(h, circuit::state_hash(network));
  h = mix(mix(h, handled), journal.state_hash());
  for (const auto& hookup : hookups) h = mix(h, hash_text(key_of(*hookup)));
  return faults.empty() ? h : mix(h, faults.state_hash());
}

Engine::Engine(std::shared_ptr<const Installation> installation, const Session::Options& options)
    : installation_(std::move(installation)),
      options_(options),
      builds_(installation_,
              [options](const auto& build) { return Engine(build, options).beginning(); }),
      memo_(options.reuse_transients, options.pool) {
  data_.arena.assign(installation_->state_bytes, std::byte{0});
  data_.build = builds_.sound();
  take_parts();
  air_ = find_air();
  const std::vector<PartInstance>& parts = installation_->parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    steps_.push_back(steps_by_itself(parts[p]) ? 1 : 0);
    if (steps_.back() != 0) stepping_.push_back(p);
  }
  shown_until_.assign(stepping_.size(), data_.now);
}

/// Before a part's turn: what steps by itself comes up to the present. In its own turn it does so
/// itself, and what it foresees may be otherwise after it.
void Engine::catch_up() {
  if (data_.now > caught_up_until_) {
    caught_up_until_ = kNever;
    for (const PartId p : stepping_) {
      if (p == part_) continue;
      const SimTime until = parts_[p]->catch_up(data_.now, states());
      caught_up_until_ = std::min(caught_up_until_, until);
    }
  }
  if (steps_[part_] != 0) caught_up_until_ = kNotCaughtUp;
}

/// Does what may have to follow a transient. Errors: RunFailure, when it comes to no end.
template <class Deed>
void Engine::follow_network(const Deed& deed) {
  try {
    deed();
  } catch (const circuit::IntegrationFailure& e) {
    fail(e);
  }
}

void Engine::fail(const circuit::IntegrationFailure& e) const {
  const std::string who =
      e.owner < 0 ? "the circuit" : installation_->parts[static_cast<PartId>(e.owner)].name;
  throw RunFailure(fmt::format(
      "{}: {} s into a transient nothing comes to an end any more ({}): a hundred thousand steps "
      "passed without an event; look for a value there that makes it tremble, such as no friction",
      clock_text(data_.now, 9), e.t_s, who));
}

void Engine::begin() {
  follow_network([&] { data_.network = circuit::begin_network(installation_->network, 0, memo_); });
  for (PartId p = 0; p < installation_->parts.size(); ++p) {
    part_ = p;
    parts_[p]->start(*this);
  }
  if (outlining_) return;
  data_.calendar.set_standing(kNetwork, Phase::kArmature);
  put_network_event();
  follow_changes();
}

void Engine::forget_views() {
  take_parts();
  caught_up_until_ = kNotCaughtUp;
  sums_at_ = kNever;
  seen_at_ = kNever;
  instant_ = -1;
  at_instant_ = 0;
  shown_until_.assign(stepping_.size(), data_.now);
}

void Engine::set_sink(TraceSink* sink) {
  sink_ = sink;
  shown_until_.assign(stepping_.size(), data_.now);
}

void Engine::begin_event() {
  data_.now = current_.at;
  at_instant_ = data_.now == instant_ ? at_instant_ + 1 : 0;
  instant_ = data_.now;
  if (at_instant_ >= kMostAtOneInstant) fail_at_one_instant();
  ++data_.handled;
  notes_ = 0;
  seen_at_ = kNever;
}

void Engine::fail_at_one_instant() const {
  const std::string who =
      current_.target == kNetwork ? "the network" : installation_->parts[current_.target].name;
  throw RunFailure("more than 10,000 events at " + clock_text(data_.now, 9) + ": " + who +
                   " and what it drives keep setting each other off without time passing");
}

void Engine::step(SimTime until) {
  current_ = data_.calendar.pop();
  begin_event();
  if (current_.target == kNetwork) {
    handle_network(until);
  } else {
    handle(current_);
  }
  watch_courses();
  follow_changes();
  if (sink_ != nullptr && data_.calendar.next_time() > data_.now) end_instant();
}

void Engine::handle(const Event& event) {
  part_ = event.target;
  acted_ = true;
  catch_up();
  if (event.kind == kRebuilt) {
    tell_rebuilt(event);
    return;
  }
  parts_[part_]->on_event(event, *this);
  if (sink_ != nullptr) record(event, part_, nullptr);
}

/// As long as nobody looks on and nothing else comes first, one after the other: most of what
/// happens in an installation happens so.
void Engine::handle_network(SimTime until) {
  circuit::Happening happening;
  for (;;) {
    bool happened = false;
    follow_network([&] { happened = circuit::take(data_.network, current_.id, memo_, happening); });
    put_network_event();
    if (!happened) {
      --data_.handled;
      return;
    }
    tell_owner(happening);
    if (sink_ != nullptr || data_.network.changed || !data_.calendar.standing_is_next()) return;
    if (!data_.faults.empty()) return;
    const Event& next = data_.calendar.next();
    if (next.at > until) return;
    current_.at = next.at;
    current_.id = next.id;
    begin_event();
  }
}

void Engine::tell_owner(const circuit::Happening& happening) {
  const circuit::Located& located = *happening.located;
  current_.cause = happening.cause;
  current_.kind =
      static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(located.what));
  if (located.owner < 0) return;
  part_ = static_cast<PartId>(located.owner);
  acted_ = located.what != circuit::What::kHeld;
  catch_up();
  parts_[part_]->on_located(located, *this);
  if (sink_ != nullptr) record(current_, part_, &located);
}

void Engine::put_network_event() {
  const SimTime at = data_.network.next_at;
  if (at == kNever) {
    data_.calendar.clear_standing();
    return;
  }
  data_.calendar.move_standing(at, current_.id);
}

void Engine::follow_changes() {
  // What the network still has to tell of this instant comes first, lest it be lost by the cut.
  if (!data_.network.changed || data_.network.next_at <= data_.now) return;
  follow_network([&] { circuit::recut(data_.network, data_.now, changed_by_, memo_); });
  put_network_event();
}

void Engine::act(const Action& action) {
  if (action.fault != nullptr) {
    put_fault(action);
    return;
  }
  if (action.hookup != nullptr) {
    put_meter(action);
    return;
  }
  if (data_.faults.tend(action.part, action.command, action.at)) {
    data_.now = std::max(action.at, data_.now);
    data_.faults.follow(*this);
    change_build();
  }
  Event e;
  e.at = std::max(action.at, data_.now);
  e.target = action.part;
  e.kind = static_cast<std::uint16_t>(kCommandBase + action.command);
  e.phase = Phase::kCommand;
  e.value = action.value;
  data_.calendar.schedule(e);
}

EventHandle Engine::schedule(SimTime at, std::uint16_t kind, Phase phase, std::int64_t number,
                             double value) {
  if (outlining_) return {};
  Event e;
  e.at = at;
  e.cause = current_.id;
  e.target = part_;
  e.kind = kind;
  e.phase = phase;
  e.number = number;
  e.value = value;
  return data_.calendar.schedule(e);
}

void Engine::send(PartId part, std::uint16_t kind, Phase phase, double value) {
  if (outlining_) return;
  Event e;
  e.at = data_.now;
  e.cause = current_.id;
  e.target = part;
  e.kind = kind;
  e.phase = phase;
  e.value = value;
  data_.calendar.schedule(e);
}

void Engine::emit(std::size_t output, double value) {
  for (const auto& [part, input] : installation_->parts[part_].listeners[output]) {
    send(part, static_cast<std::uint16_t>(kSignalBase + input), Phase::kObserve, value);
  }
}

void Engine::link_changed(std::size_t offered) {
  for (const auto& [part, link] : installation_->parts[part_].takers[offered]) {
    send(part, static_cast<std::uint16_t>(kLinkChangedBase + link), Phase::kMotion, 0);
  }
}

void Engine::set_contact(int contact, bool closed, double ohm, double speed_m_per_s) {
  const auto k = static_cast<std::size_t>(contact);
  circuit::ContactInput in = data_.network.inputs.contacts[k];
  if ((in.closed != 0) == closed) return;
  in.closed = closed ? 1 : 0;
  if (closed) {
    in.closed_ohm = ohm;
    in.closing_speed_m_per_s = speed_m_per_s;
  }
  circuit::set_contact(data_.network, k, in);
  changed_by_ = current_.id;
}

void Engine::set_next_ohm(int contact, double ohm) {
  const auto k = static_cast<std::size_t>(contact);
  circuit::ContactInput in = data_.network.inputs.contacts[k];
  in.closed_ohm = ohm;
  circuit::set_contact(data_.network, k, in);
}

void Engine::set_extra_load(int coil, double newton) {
  const auto j = static_cast<std::size_t>(coil);
  if (data_.network.inputs.coil_extra_load_n[j] == newton) return;
  circuit::set_load(data_.network, j, newton);
  changed_by_ = current_.id;
}

circuit::Network& Engine::edit_network() {
  changed_by_ = current_.id;
  return circuit::edit(data_.network);
}

circuit::Source& Engine::change_source(int source) {
  return edit_network().sources[static_cast<std::size_t>(source)];
}

circuit::Resistor& Engine::change_resistor(int resistor) {
  return edit_network().resistors[static_cast<std::size_t>(resistor)];
}

circuit::Capacitor& Engine::change_capacitor(int capacitor) {
  return edit_network().capacitors[static_cast<std::size_t>(capacitor)];
}

circuit::Coil& Engine::change_coil(int coil) {
  return edit_network().coils[static_cast<std::size_t>(coil)];
}

circuit::Contact& Engine::change_contact(int contact) {
  return edit_network().contacts[static_cast<std::size_t>(contact)];
}

double Engine::draw(std::uint32_t stream, std::uint64_t number) {
  return uniform_draw(installation_->seed, installation_->parts[part_].path_hash, stream, number);
}

void Engine::journal(std::uint16_t kind, std::int64_t number, double value) {
  data_.journal.add({data_.now, part_, kind, number, value});
}

}  // namespace sixty
