// Handling events: the parts' turn, then the network's.
#include <fmt/format.h>

#include <algorithm>

#include "sim/base/rng.hpp"
#include "sim/run/world.hpp"

namespace sixty {
namespace {

constexpr std::uint32_t kNetwork = UINT32_MAX;  // target of the network's own events
constexpr int kMostAtOneInstant = 10'000;

bool steps_by_itself(const PartInstance& part) {
  const std::vector<EventDecl>& events = part.kind->declaration.events;
  return std::any_of(events.begin(), events.end(), [](const EventDecl& e) { return e.step; });
}

// The parts that have a share in a link, for every link.
std::vector<std::vector<PartId>> links_of(const std::vector<PartInstance>& parts) {
  std::vector<std::vector<PartId>> links;
  for (PartId p = 0; p < parts.size(); ++p) {
    for (const auto& takers : parts[p].takers) {
      links.push_back({p});
      for (const auto& [taker, number] : takers) links.back().push_back(taker);
    }
  }
  return links;
}

void add_if_new(std::vector<PartId>& list, PartId part) {
  if (std::find(list.begin(), list.end(), part) == list.end()) list.push_back(part);
}

}  // namespace

std::uint64_t WorldData::state_hash() const {
  std::uint64_t h = mix(calendar.state_hash(), static_cast<std::uint64_t>(now));
  h = hash_bytes(arena.data(), arena.size(), h);
  h = mix(h, circuit::state_hash(network));
  return mix(mix(h, handled), journal.state_hash());
}

Engine::Engine(std::shared_ptr<const Installation> installation, const Session::Options& options)
    : installation_(std::move(installation)), options_(options), memo_(options.reuse_transients) {
  std::string error;
  start_ = parse_calendar_time(installation_->start, error).value_or(CalendarTime{});
  data_.arena.assign(installation_->state_bytes, std::byte{0});
  find_movers();
}

void Engine::find_movers() {
  const std::vector<PartInstance>& parts = installation_->parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    if (steps_by_itself(parts[p])) stepping_.push_back(p);
  }
  shown_until_.assign(stepping_.size(), data_.now);
  movers_.resize(parts.size());
  for (const std::vector<PartId>& sharers : links_of(parts)) {
    for (const PartId mover : sharers) {
      if (!steps_by_itself(parts[mover])) continue;
      for (const PartId other : sharers) {
        if (other != mover) add_if_new(movers_[other], mover);
      }
    }
  }
}

void Engine::catch_up_for(PartId part) {
  for (const PartId mover : movers_[part]) {
    installation_->parts[mover].part->catch_up(data_.now, states());
  }
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
    installation_->parts[p].part->start(*this);
  }
  put_network_event();
  follow_changes();
}

void Engine::forget_views() {
  sums_at_ = kNever;
  seen_at_ = kNever;
  instant_ = -1;
  at_instant_ = 0;
  shown_until_.assign(stepping_.size(), data_.now);
}

void Engine::set_sink(TraceSink* sink) {
  sink_ = sink;
  shown_until_.assign(stepping_.size(), data_.now);
  if (full_trace() && feed_paths_ == nullptr)
    feed_paths_ = std::make_unique<const FeedPaths>(*installation_);
}

void Engine::guard_instant() {
  if (data_.now != instant_) {
    instant_ = data_.now;
    at_instant_ = 0;
  }
  if (++at_instant_ <= kMostAtOneInstant) return;
  const std::string who =
      current_.target == kNetwork ? "the network" : installation_->parts[current_.target].name;
  throw RunFailure("more than 10,000 events at " + clock_text(data_.now, 9) + ": " + who +
                   " and what it drives keep setting each other off without time passing");
}

void Engine::step() {
  current_ = data_.calendar.pop();
  data_.now = current_.at;
  guard_instant();
  ++data_.handled;
  notes_ = 0;
  seen_at_ = kNever;
  if (current_.target == kNetwork) {
    handle_network(current_);
  } else {
    handle(current_);
  }
  follow_changes();
  if (sink_ != nullptr && data_.calendar.next_time() > data_.now) end_instant();
}

void Engine::handle(const Event& event) {
  part_ = event.target;
  acted_ = true;
  catch_up_for(part_);
  installation_->parts[part_].part->on_event(event, *this);
  if (sink_ != nullptr) record(event, part_, nullptr);
}

void Engine::handle_network(const Event& event) {
  circuit::Happening happening;
  bool happened = false;
  follow_network([&] { happened = circuit::take(data_.network, event.id, memo_, happening); });
  put_network_event();
  if (!happened) {
    --data_.handled;
    return;
  }
  current_.cause = happening.cause;
  current_.kind =
      static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(happening.located.what));
  if (happening.located.owner < 0) return;
  part_ = static_cast<PartId>(happening.located.owner);
  acted_ = happening.located.what != circuit::What::kHeld;
  catch_up_for(part_);
  installation_->parts[part_].part->on_located(happening.located, *this);
  if (sink_ != nullptr) record(current_, part_, &happening.located);
}

void Engine::put_network_event() {
  const SimTime at = circuit::next_time(data_.network);
  if (at == kNever) {
    data_.calendar.clear_standing();
    return;
  }
  Event e;
  e.at = at;
  e.target = kNetwork;
  e.phase = Phase::kArmature;
  e.cause = current_.id;
  data_.calendar.set_standing(e);
}

void Engine::follow_changes() {
  // What the network still has to tell of this instant comes first, lest it be lost by the cut.
  if (!data_.network.changed || circuit::next_time(data_.network) <= data_.now) return;
  follow_network([&] { circuit::recut(data_.network, data_.now, changed_by_, memo_); });
  put_network_event();
}

void Engine::schedule_action(const Action& action) {
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
  circuit::ContactInput& in = data_.network.inputs.contacts[static_cast<std::size_t>(contact)];
  if ((in.closed != 0) == closed) return;
  in.closed = closed ? 1 : 0;
  if (closed) {
    in.closed_ohm = ohm;
    in.closing_speed_m_per_s = speed_m_per_s;
  }
  data_.network.changed = true;
  changed_by_ = current_.id;
}

void Engine::set_next_ohm(int contact, double ohm) {
  data_.network.inputs.contacts[static_cast<std::size_t>(contact)].closed_ohm = ohm;
}

void Engine::set_extra_load(int coil, double newton) {
  double& load = data_.network.inputs.coil_extra_load_n[static_cast<std::size_t>(coil)];
  if (load == newton) return;
  load = newton;
  data_.network.changed = true;
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
