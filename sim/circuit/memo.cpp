#include "sim/circuit/memo.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace sixty::circuit {
namespace {

/// Room for what has been met; it is all forgotten and computed again when the room is used up.
constexpr std::size_t kMostBytes = 128u << 20;

std::size_t bytes_of(const Idle& i) {
  const std::size_t numbers =
      i.contacts.size() + i.coils.size() + i.resistors.size() + i.diodes.size();
  return sizeof i + numbers * sizeof(std::size_t);
}

/// An address that is ready to be mixed with another one. Two bare ones must not meet: they differ
/// in few bits, and many pairs would have the same difference.
std::uint64_t address(const void* p) { return mix(1, reinterpret_cast<std::uintptr_t>(p)); }

/// Of a stretch, what was set aside for it, and what it is followed by.
std::uint64_t key_of(const Asked& asked) {
  const Met& met = asked.met;
  const std::uint64_t from = mix(address(met.stretch.get()), address(met.start.get()));
  return mix(mix(mix(from, address(met.idle.get())), address(asked.network.get())), asked.mark);
}
constexpr std::uint64_t kAtEnd = 1;

std::uint64_t closings_key(const Inputs& in, const Reads& reads, std::uint64_t h) {
  for (const Read& r : reads) {
    const ContactInput& c = in.contacts[r.contact];
    h = mix(h, r.contact);
    if ((r.what & Integrator::kFilmRead) != 0)
      h = mix(h, std::bit_cast<std::uint64_t>(c.closed_ohm));
    if ((r.what & Integrator::kSpeedRead) != 0) {
      h = mix(h, std::bit_cast<std::uint64_t>(c.closing_speed_m_per_s));
    }
  }
  return h;
}

/// A humming network at a time after a zero of the mains, where it was `zero`. Range: less than
/// half a period.
State hum_at(const Network& network, const Inputs& inputs, const State& zero, double into_s,
             const std::shared_ptr<Responses>& responses) {
  Integrator run(network, inputs, zero, responses);
  run.advance(into_s);
  return run.state_at(into_s);
}

bool has_rectified(const Network& network) {
  return std::any_of(network.sources.begin(), network.sources.end(),
                     [](const Source& s) { return s.rectified; });
}

}  // namespace

void Memo::make_room() {
  if (found_.bytes < kMostBytes) return;
  found_ = for_good_ != nullptr ? *for_good_ : Found{};
  looks_.clear();
  known_.clear();
  latest_ = nullptr;
}

void Memo::keep_for_good() {
  if (found_.bytes > kMostBytes / 2) return;
  for_good_ = std::make_shared<const Found>(found_);
}

void Memo::forget_the_rest() {
  if (for_good_ != nullptr) found_ = *for_good_;
}

std::shared_ptr<const Network> Memo::intern(std::shared_ptr<const Network> network) {
  if (!reuse_) return network;
  std::shared_ptr<const Network>& known = found_.networks[network->hash()];
  if (known == nullptr) {
    found_.bytes += bytes_of(*network);
    known = std::move(network);
  }
  return known;
}

const std::shared_ptr<Responses>& Memo::responses(const std::shared_ptr<const Network>& network) {
  if (latest_ == network.get()) return latest_responses_;
  constexpr std::size_t kMostKnown = 64;
  if (known_.size() >= kMostKnown) known_.clear();
  Known& known = known_[network.get()];
  if (known.network == nullptr) known = {network, std::make_shared<Responses>(*network)};
  latest_ = network.get();
  latest_responses_ = known.responses;
  return latest_responses_;
}

std::shared_ptr<const State> Memo::intern(State state) {
  if (!reuse_) return std::make_shared<const State>(std::move(state));
  auto& bucket = found_.states[state.hash()];
  for (const auto& known : bucket) {
    if (known->same(state)) return known;
  }
  found_.bytes += bytes_of(state) + 64;
  bucket.push_back(std::make_shared<const State>(std::move(state)));
  return bucket.back();
}

const Memo::Bare& Memo::without_idle(const std::shared_ptr<const Network>& network,
                                     const Inputs& inputs,
                                     const std::shared_ptr<const State>& start) {
  const std::uint64_t key =
      mix(mix(address(network.get()), address(start.get())), inputs.commands_hash());
  if (reuse_) {
    const auto found = found_.bare.find(key);
    if (found != found_.bare.end()) return found->second;
  }
  Bare& bare = reuse_ ? found_.bare[key] : unkept_;
  bare.asked = start;
  bare.network = network;
  bare.start = start;
  bare.key = key;
  auto idle = std::make_shared<Idle>(find_idle(*network, inputs, *start));
  idle->of = network;
  if (!idle->empty()) {
    State state = *start;
    Inputs rest = inputs;
    set_aside(*idle, state);
    set_aside(*idle, rest);
    bare.network = rest_of(network, *idle);
    bare.start = intern(std::move(state));
    bare.key =
        mix(mix(address(bare.network.get()), address(bare.start.get())), rest.commands_hash());
  }
  bare.idle = std::move(idle);
  if (!reuse_) return bare;
  std::shared_ptr<std::vector<Reads>>& ways = found_.reads[bare.key];
  if (ways == nullptr) ways = std::make_shared<std::vector<Reads>>();
  bare.ways = ways;
  found_.bytes += sizeof(Bare) + bytes_of(*bare.idle) + 64;
  return bare;
}

/// Known also without reuse: it is no transient, and its responses are built but once.
std::shared_ptr<const Network> Memo::rest_of(const std::shared_ptr<const Network>& network,
                                             const Idle& idle) {
  Rest& known = found_.rests[mix(address(network.get()), idle.hash())];
  if (known.rest == nullptr) {
    auto rest = std::make_shared<const Network>(without(*network, idle));
    if (!reuse_) found_.bytes += bytes_of(*rest);  // else counted where it is interned
    known = {network, intern(std::move(rest))};
  }
  return known.rest;
}

std::shared_ptr<const State> Memo::whole(const Met& met, const std::shared_ptr<const State>& bare,
                                         bool settled) {
  if (met.idle->empty()) return bare;
  const std::uint64_t key = mix(mix(address(bare.get()), address(met.start.get())),
                                mix(address(met.idle.get()), settled));
  if (reuse_) {
    const auto found = found_.wholes.find(key);
    if (found != found_.wholes.end()) return found->second.state;
  }
  State state = *bare;
  put_back(*met.idle->of, *met.idle, *met.start, settled, state);
  std::shared_ptr<const State> made = intern(std::move(state));
  if (reuse_) {
    found_.bytes += sizeof(Whole) + 64;
    found_.wholes[key] = {bare, met.start, made, met.idle};
  }
  return made;
}

Met Memo::meet(const std::shared_ptr<const Network>& network, const Inputs& inputs,
               const std::shared_ptr<const State>& start) {
  make_room();
  return meet_here(network, inputs, start);
}

Met Memo::meet_here(const std::shared_ptr<const Network>& network, const Inputs& inputs,
                    const std::shared_ptr<const State>& start) {
  const Bare& bare = without_idle(network, inputs, start);
  return {stretch(bare, inputs), start, bare.idle};
}

Met Memo::go_on(const Asked& asked) {
  const Met& met = asked.met;
  const std::uint64_t key = mix(key_of(asked), kAtEnd);
  if (reuse_) {
    const auto found = found_.onward.find(key);
    if (found != found_.onward.end()) return found->second.onward.met;
  }
  if (ring_) ++ring_->depth;
  const Met next =
      meet(asked.network, asked.inputs, whole(met, met.stretch->end, met.stretch->settled));
  if (reuse_) follow(key, met, {{}, next});
  return next;
}

Onward Memo::go_on(const Asked& asked, SimTime began, SimTime offset, std::size_t happened) {
  const Place place = place_of(*asked.met.stretch, began, offset, happened);
  const std::uint64_t at = std::bit_cast<std::uint64_t>(place.at_s);
  const std::uint64_t rests = place.settled ? 1 + (place.steady_s > 0 ? 1 : 0) : 0;
  const std::uint64_t key = mix(mix(key_of(asked), at), place.phase * 3 + rests);
  if (reuse_) {
    const auto found = found_.onward.find(key);
    if (found != found_.onward.end()) {
      Onward onward = found->second.onward;
      onward.cut.steady_s = place.steady_s;
      return onward;
    }
  }
  Onward onward;
  onward.cut = cut_at(asked.met, place);
  note_ring(asked, place);
  onward.met = meet(asked.network, asked.inputs, onward.cut.state);
  if (reuse_) follow(key, asked.met, onward);
  return onward;
}

void Memo::follow(std::uint64_t key, const Met& from, const Onward& onward) {
  found_.bytes += sizeof(Followed) + 64;
  found_.onward[key] = {from, onward};
}

Cut Memo::cut(const Met& met, SimTime began, SimTime offset, std::size_t happened) {
  return cut_at(met, place_of(*met.stretch, began, offset, happened));
}

Cut Memo::sums(const Met& met, SimTime began, SimTime offset, std::size_t happened) {
  const Stretch& s = *met.stretch;
  const Place place = place_of(s, began, offset, happened);
  if (place.settled) return {nullptr, s.ledger, place.steady_s};
  const std::uint64_t key = mix(address(&s), std::bit_cast<std::uint64_t>(place.at_s));
  if (const auto found = found_.cuts.find(key); found != found_.cuts.end())
    return {nullptr, found->second.cut.ledger, 0};
  if (const auto found = looks_.find(key); found != looks_.end()) return found->second.cut;
  Integrator run(*s.network, s.inputs, *s.start, responses(s.network));
  run.advance_stretch(place.at_s);
  const Cut cut{nullptr, std::make_shared<const Ledger>(run.ledger_at(place.at_s)), 0};
  if (!reuse_) return cut;
  if (looks_.size() >= kMostLooks) looks_.clear();
  looks_[key] = {met.stretch, cut};
  return cut;
}

Memo::Kept Memo::kept() const {
  Kept kept{found_.stretches.size(), found_.cuts.size(), 0, looks_.size()};
  for (const auto& [key, states] : found_.states) kept.states += states.size();
  return kept;
}

Cut Memo::cut_at(const Met& met, const Place& place) {
  Cut cut;
  if (place.settled) {
    cut = {phased(met.stretch, place.phase), met.stretch->ledger, place.steady_s};
  } else {
    cut = bare_cut(met.stretch, place.at_s);
  }
  cut.state = whole(met, cut.state, place.settled && place.steady_s > 0);
  return cut;
}

std::shared_ptr<Stretch> Memo::compute_bare(const Bare& bare, const Inputs& inputs) {
  ++computed_;
  Inputs rest = inputs;
  set_aside(*bare.idle, rest);
  return compute_stretch(bare.network, rest, bare.start, responses(bare.network));
}

std::shared_ptr<const Stretch> Memo::stretch(const Bare& bare, const Inputs& inputs) {
  if (!reuse_) return compute_bare(bare, inputs);
  if (auto known = known_stretch(bare, inputs)) return known;
  return keep(bare, inputs,
              pool_ != nullptr ? from_pool(bare, inputs, true) : compute_bare(bare, inputs));
}

std::shared_ptr<const Stretch> Memo::known_stretch(const Bare& bare, const Inputs& inputs) const {
  for (const Reads& reads : *bare.ways) {
    const auto found = found_.stretches.find(closings_key(inputs, reads, bare.key));
    if (found != found_.stretches.end()) return found->second;
  }
  return nullptr;
}

std::shared_ptr<const Stretch> Memo::keep(const Bare& bare, const Inputs& inputs,
                                          std::shared_ptr<Stretch> made) {
  found_.bytes += bytes_of(*made);
  made->end = intern(*made->end);
  std::vector<Reads>& ways = *bare.ways;
  if (std::find(ways.begin(), ways.end(), made->reads) == ways.end()) ways.push_back(made->reads);
  found_.stretches[closings_key(inputs, made->reads, bare.key)] = made;
  return made;
}

Memo::Place Memo::place_of(const Stretch& stretch, SimTime began, SimTime offset,
                           std::size_t happened) {
  const SimTime spacing = stretch.strikes ? 100 * kMicrosecond : kMicrosecond;
  const SimTime grid = offset / spacing * spacing;
  Place place;
  place.at_s = to_seconds(grid);
  if (happened > 0) place.at_s = std::max(place.at_s, stretch.events[happened - 1].t_s);
  if (!stretch.settled || place.at_s < stretch.end_s) return place;
  place.settled = true;
  place.steady_s = place.at_s - stretch.end_s;
  place.at_s = stretch.end_s;
  if (!has_rectified(*stretch.network)) return place;
  // The phase that the mains have then: since a hum's own end, or by the time of day.
  const double since_s = stretch.hums ? place.steady_s : to_seconds(began + grid);
  const double periods = since_s / stretch.network->half_period_s;
  place.phase =
      static_cast<std::uint64_t>((periods - std::floor(periods)) * static_cast<double>(kPhases));
  return place;
}

Cut Memo::bare_cut(const std::shared_ptr<const Stretch>& stretch, double at_s) {
  const std::uint64_t key = mix(address(stretch.get()), std::bit_cast<std::uint64_t>(at_s));
  if (reuse_) {
    const auto found = found_.cuts.find(key);
    if (found != found_.cuts.end()) return found->second.cut;
  }
  Integrator run(*stretch->network, stretch->inputs, *stretch->start, responses(stretch->network));
  run.advance_stretch(at_s);
  const State state = run.state_at(at_s);
  const Cut cut{intern(state), std::make_shared<const Ledger>(run.ledger_at(at_s)), 0};
  if (reuse_) {
    found_.bytes += sizeof(CutEntry) + 64 + cut.ledger->spark_j.size() * 8;
    found_.cuts[key] = {stretch, cut};
  }
  return cut;
}

/// The state after a settled stretch's end, in a phase of the mains.
std::shared_ptr<const State> Memo::phased(const std::shared_ptr<const Stretch>& stretch,
                                          std::uint64_t phase) {
  if (phase == 0) return stretch->end;
  const std::uint64_t key = mix(mix(address(stretch.get()), phase), kPhases);
  if (reuse_) {
    const auto found = found_.cuts.find(key);
    if (found != found_.cuts.end()) return found->second.cut.state;
  }
  const Network& network = *stretch->network;
  const double into_s =
      static_cast<double>(phase) / static_cast<double>(kPhases) * network.half_period_s;
  State state = *stretch->end;
  if (stretch->hums) {
    state = hum_at(network, stretch->inputs, state, into_s, responses(stretch->network));
  } else {
    state.mains_s = into_s;
  }
  std::shared_ptr<const State> found = intern(std::move(state));
  if (reuse_) {
    found_.bytes += sizeof(CutEntry) + 64;
    found_.cuts[key] = {stretch, {found, nullptr, 0}};
  }
  return found;
}

}  // namespace sixty::circuit
