// Faults and meters come and go: another build takes the place of the one that runs.
#include <algorithm>
#include <cmath>
#include <cstring>

#include "sim/base/rng.hpp"
#include "sim/circuit/rework.hpp"
#include "sim/run/world.hpp"
#include "sim/scene/hookup.hpp"

namespace sixty {
namespace {

constexpr std::uint32_t kCourseStream = 0x0fa17;

/// Words of the state that the two builds begin with differently become the new one's: a word is a
/// value of its own, since states are made of such.
void take_over(const std::vector<std::byte>& before, const std::vector<std::byte>& after,
               std::vector<std::byte>& live) {
  constexpr std::size_t kWord = 8;
  for (std::size_t at = 0; at + kWord <= live.size(); at += kWord) {
    if (std::memcmp(&before[at], &after[at], kWord) != 0) std::memcpy(&live[at], &after[at], kWord);
  }
}

/// Resistors that a part had are the first of those that it has.
std::vector<std::pair<std::size_t, std::size_t>> paired(const Installation& before,
                                                        const Installation& after) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (PartId p = 0; p < before.parts.size(); ++p) {
    const std::vector<int>& was = before.parts[p].resistors;
    const std::vector<int>& is = after.parts[p].resistors;
    for (std::size_t k = 0; k < std::min(was.size(), is.size()); ++k)
      pairs.emplace_back(static_cast<std::size_t>(was[k]), static_cast<std::size_t>(is[k]));
  }
  return pairs;
}

template <class T>
const T& other_or(const T& before, const T& after, const T& live) {
  return before == after ? live : after;
}

}  // namespace

SimTime Engine::time_of_day() const {
  const SimTime time = week_offset() + data_.now + civil_shift(data_.now);
  return (time % kDay + kDay) % kDay;
}

StateSlot<Surroundings> Engine::find_air() const {
  const auto offer = installation_->find_offer(Surroundings::kKind);
  if (!offer) return {};
  return {installation_->parts[offer->first].offered_offset[offer->second]};
}

std::optional<Surroundings> Engine::air() const {
  if (!air_.valid()) return std::nullopt;
  return Reader::state(air_);
}

double Engine::load_a(PartId p) const {
  const PartInstance& part = data_.build->installation->parts[p];
  double most = 0;
  for (const int j : part.coils) most = std::max(most, std::fabs(coil_current_a(j)));
  for (const int k : part.contacts) most = std::max(most, std::fabs(contact_current_a(k)));
  for (const int s : part.sources) most = std::max(most, std::fabs(source_current_a(s)));
  for (const int r : part.resistors) {
    const circuit::Resistor& resistor =
        data_.network.network->resistors[static_cast<std::size_t>(r)];
    most =
        std::max(most, std::fabs(volts_between(resistor.a, resistor.b)) / resistor.resistance_ohm);
  }
  return most;
}

double Engine::draw(const Injection& put, std::uint64_t number) const {
  const std::uint64_t key =
      mix(installation_->parts[put.part].path_hash, hash_text(put.fault->name));
  return uniform_draw(installation_->seed, key, kCourseStream, number);
}

void Engine::take_parts() {
  parts_.clear();
  for (const PartInstance& part : data_.build->installation->parts)
    parts_.push_back(part.part.get());
}

const FeedPaths& Engine::feed_paths() const {
  const Build& build = *data_.build;
  if (build.paths == nullptr) build.paths = std::make_unique<const FeedPaths>(*build.installation);
  return *build.paths;
}

Beginning Engine::beginning() {
  outlining_ = true;
  begin();
  const circuit::NetworkData& n = data_.network;
  return {data_.arena, n.edited != nullptr ? n.edited : n.network, n.inputs};
}

void Engine::put_fault(const Action& action) {
  data_.now = std::max(action.at, data_.now);
  if (action.clears) {
    data_.faults.clear(*action.fault->fault, action.part);
  } else {
    data_.faults.put(action.fault, *this);
  }
  change_build();
}

void Engine::put_meter(const Action& action) {
  data_.now = std::max(action.at, data_.now);
  const auto there = std::find(data_.hookups.begin(), data_.hookups.end(), action.hookup);
  if (there != data_.hookups.end()) data_.hookups.erase(there);
  if (!action.clears) data_.hookups.push_back(action.hookup);
  change_build();
  tell(action.hookup->a.part, kRebuilt, 0);  // so that the network follows, and by an event
}

void Engine::follow_courses(SimTime now) {
  data_.now = now;
  if (data_.faults.follow(*this)) change_build();
}

void Engine::watch_courses() {
  if (data_.faults.watches() && data_.faults.follow(*this)) change_build();
}

void Engine::change_build() {
  const std::shared_ptr<const Build> before =
      data_.build->beginning.network != nullptr ? data_.build : builds_.with({}, {});
  const std::shared_ptr<const Build> after = builds_.with(data_.faults, data_.hookups);
  tell_acts();
  if (before == after) return;
  for (const PartId p : stepping_) parts_[p]->catch_up(data_.now, states());
  take_over(before->beginning.arena, after->beginning.arena, data_.arena);
  rework_network(*before, *after);
  data_.build = after;
  take_parts();
  caught_up_until_ = kNotCaughtUp;
  sums_at_ = kNever;
  seen_at_ = kNever;
  const EventId first = data_.calendar.last_id() + 1;
  for (PartId p = 0; p < parts_.size(); ++p) {
    const auto is_of = [p](const ChangedValue& c) { return c.part == p; };
    const bool changed = steps_[p] != 0 ||
                         std::any_of(before->changed.begin(), before->changed.end(), is_of) ||
                         std::any_of(after->changed.begin(), after->changed.end(), is_of);
    if (changed) tell(p, kRebuilt, 0);
  }
  changed_by_ = first;
}

void Engine::rework_network(const Build& before, const Build& after) {
  circuit::NetworkData& n = data_.network;
  const circuit::Network& live = n.edited != nullptr ? *n.edited : *n.network;
  circuit::Network network =
      circuit::reworked({*before.beginning.network, *after.beginning.network, live,
                         paired(*before.installation, *after.installation)});
  for (std::size_t k = 0; k < n.inputs.contacts.size(); ++k) {
    const circuit::ContactInput input =
        other_or(before.beginning.inputs.contacts[k], after.beginning.inputs.contacts[k],
                 n.inputs.contacts[k]);
    circuit::set_contact(n, k, input);
  }
  for (std::size_t j = 0; j < n.inputs.coil_extra_load_n.size(); ++j) {
    circuit::set_load(
        n, j,
        other_or(before.beginning.inputs.coil_extra_load_n[j],
                 after.beginning.inputs.coil_extra_load_n[j], n.inputs.coil_extra_load_n[j]));
  }
  circuit::edit(n) = std::move(network);
}

/// What hands did as a fault came, and what undoes it as it goes.
void Engine::tell_acts() {
  std::vector<ActsDone> done;
  for (const Faults::Put& put : data_.faults.all()) {
    if (put.level > 0 && !put.what->fault->acts.empty()) done.push_back({put.what, put.level});
  }
  const auto in = [](const std::vector<ActsDone>& list, const ActsDone& one) {
    return std::any_of(list.begin(), list.end(),
                       [&](const ActsDone& other) { return other.what == one.what; });
  };
  for (const ActsDone& one : data_.acts_done) {
    if (!in(done, one)) give(one.what->fault->undone_by, *one.what, one.level);
  }
  for (const ActsDone& one : done) {
    if (!in(data_.acts_done, one)) give(one.what->fault->acts, *one.what, one.level);
  }
  data_.acts_done = std::move(done);
}

void Engine::give(const std::vector<FaultAct>& acts, const Injection& put, double level) {
  const double severity = level * put.severity;
  for (const FaultAct& act : acts) {
    const auto& argument = put.fault->kind->declaration.commands[act.command].argument;
    const double value = argument ? given_value(*argument, act, severity) : 0;
    const double times = act.least_times + (act.most_times - act.least_times) * severity;
    for (std::int64_t k = 0; k < std::llround(times); ++k)
      tell(put.part, static_cast<std::uint16_t>(kCommandBase + act.command), value);
  }
}

void Engine::tell(PartId part, std::uint16_t kind, double value) {
  Event e;
  e.at = data_.now;
  e.target = part;
  e.kind = kind;
  e.phase = Phase::kCommand;
  e.value = value;
  data_.calendar.schedule(e);
}

/// Its values are others: it looks about again, and foresees anew. No trace of it: what follows is
/// all that anybody can see.
void Engine::tell_rebuilt(const Event& event) {
  const std::vector<LinkDecl>& taken = installation_->parts[part_].kind->declaration.taken;
  parts_[part_]->on_rebuilt(*this);
  for (std::size_t k = 0; k < taken.size(); ++k) {
    if (!takes(part_, k)) continue;
    Event look = event;
    look.kind = static_cast<std::uint16_t>(kLinkChangedBase + k);
    parts_[part_]->on_event(look, *this);
  }
}

bool Engine::takes(PartId p, std::size_t link) const {
  for (const PartInstance& part : installation_->parts) {
    for (const auto& takers : part.takers) {
      if (std::find(takers.begin(), takers.end(), std::make_pair(p, link)) != takers.end())
        return true;
    }
  }
  return false;
}

}  // namespace sixty
