#include "sim/circuit/memo.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace sixty::circuit {
namespace {

/// Room for what has been met; it is all forgotten and computed again when the room is used up.
constexpr std::size_t kMostBytes = 128u << 20;

std::size_t bytes_of(const State& s) {
  return sizeof s + s.coils.size() * sizeof(CoilState) + s.contacts.size() * sizeof(ContactState) +
         s.capacitor_v.size() * sizeof(double) + s.diode_on.size();
}

std::size_t bytes_of(const Network& n) {
  std::size_t bytes = sizeof n + n.sources.size() * sizeof(Source) +
                      n.resistors.size() * sizeof(Resistor) +
                      n.capacitors.size() * sizeof(Capacitor) + n.diodes.size() * sizeof(Diode) +
                      n.contacts.size() * sizeof(Contact) + n.coils.size() * sizeof(Coil);
  for (const Coil& c : n.coils) bytes += c.marks.size() * sizeof(Mark);
  return bytes;
}

std::size_t bytes_of(const Stretch& s) {
  return sizeof s + s.events.size() * sizeof(Located) +
         s.inputs.contacts.size() * sizeof(ContactInput) + s.inputs.coil_extra_load_n.size() * 8 +
         s.driven_anew.size() + s.ledger->spark_j.size() * 8 + s.reads.size() * sizeof(Read) + 300;
}

/// An address that is ready to be mixed with another one. Two bare ones must not meet: they differ
/// in few bits, and many pairs would have the same difference.
std::uint64_t address(const void* p) { return mix(1, reinterpret_cast<std::uintptr_t>(p)); }

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

Reads reads_of(const Integrator& run) {
  Reads reads;
  for (std::size_t k = 0; k < run.consulted().size(); ++k) {
    if (run.consulted()[k] != 0)
      reads.push_back({static_cast<std::uint16_t>(k), run.consulted()[k]});
  }
  return reads;
}

/// Phases of the mains that a change from outside can meet, of each half period.
constexpr int kPhases = 4;

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

/// Most volts that were there at a coil when something happened to it: it may start just while the
/// contact that feeds it bounces.
double most_v(const std::vector<Located>& events, const Located& start) {
  double most = 0;
  for (const Located& e : events) {
    const bool at_coil = e.what == What::kStarts || e.what == What::kSeats ||
                         e.what == What::kLeaves || e.what == What::kReturns;
    if (at_coil && e.element == start.element) most = std::max(most, std::fabs(e.volts));
  }
  return most;
}

/// What each armature that starts gets in the end.
void tell_what_arrives(const Network& network, const State& end, bool settled,
                       std::vector<Located>& events) {
  for (Located& e : events) {
    if (e.what != What::kStarts) continue;
    const auto j = static_cast<std::size_t>(e.element);
    const Coil& c = network.coils[j];
    const CoilState& s = end.coils[j];
    e.arrives_v = settled ? std::fabs(e.volts) : most_v(events, e);
    if (!settled || s.rest != Rest::kSeated) continue;
    const double steady_a = coil_current_a(c.magnet, s.linkage_wb, s.gap_m, s.held_a);
    e.arrives_v = std::fabs(steady_a) * c.resistance_ohm;
  }
}

std::shared_ptr<Stretch> compute(const std::shared_ptr<const Network>& network,
                                 const Inputs& inputs, const std::shared_ptr<const State>& start,
                                 const std::shared_ptr<Responses>& responses) {
  Integrator run(*network, inputs, *start, responses);
  auto s = std::make_shared<Stretch>();
  try {
    run.advance_stretch();
  } catch (const IntegrationFailure& e) {
    s->failure = e;
  }
  s->network = network;
  s->start = start;
  s->inputs = inputs;
  s->events = run.events();
  s->settled = run.settled();
  s->strikes = run.strikes();
  s->hums = run.hums();
  s->end_s = run.time_s();
  s->end_ns = from_seconds(s->end_s);
  s->ledger = std::make_shared<const Ledger>(run.ledger());
  s->driven_anew = run.driven_anew();
  s->reads = reads_of(run);
  const Ledger flow = run.steady_second();
  if (s->settled) s->steady_a = flow.charge_as;
  for (std::size_t k = 0; k < network->fuses.size(); ++k) {
    s->steady_heat.push_back(flow.fuse_heat[k] * network->fuses[k].time_constant_s);
  }
  s->end = std::make_shared<const State>(run.state_on_grid());
  tell_what_arrives(*network, *s->end, s->settled, s->events);
  return s;
}

}  // namespace

void Memo::make_room() {
  if (bytes_ < kMostBytes) return;
  reads_.clear();
  stretches_.clear();
  cuts_.clear();
  bare_.clear();
  wholes_.clear();
  states_.clear();
  networks_.clear();
  known_.clear();
  latest_ = nullptr;
  bytes_ = 0;
}

std::shared_ptr<const Network> Memo::intern(std::shared_ptr<const Network> network) {
  if (!reuse_) return network;
  std::shared_ptr<const Network>& known = networks_[network->hash()];
  if (known == nullptr) {
    bytes_ += bytes_of(*network);
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
  auto& bucket = states_[state.hash()];
  for (const auto& known : bucket) {
    if (known->same(state)) return known;
  }
  bytes_ += bytes_of(state) + 64;
  bucket.push_back(std::make_shared<const State>(std::move(state)));
  return bucket.back();
}

const Memo::Bare& Memo::without_idle(const std::shared_ptr<const Network>& network,
                                     const Inputs& inputs, std::uint64_t commands,
                                     const std::shared_ptr<const State>& start) {
  const std::uint64_t key = mix(mix(address(network.get()), address(start.get())), commands);
  if (reuse_) {
    const auto found = bare_.find(key);
    if (found != bare_.end()) return found->second;
  }
  Bare& bare = reuse_ ? bare_[key] : unkept_;
  bare.network = network;
  bare.asked = start;
  auto idle = std::make_shared<Idle>(find_idle(*network, inputs, *start));
  bare.start = start;
  bare.key = key;
  if (!idle->empty()) {
    State state = *start;
    Inputs rest = inputs;
    set_aside(*network, *idle, state, rest);
    bare.start = intern(std::move(state));
    bare.key = mix(mix(address(network.get()), address(bare.start.get())), rest.commands_hash());
  }
  bare.idle = std::move(idle);
  if (!reuse_) return bare;
  bare.ways = &reads_[bare.key];
  bytes_ += sizeof(Bare) + sizeof(Idle) + 64 +
            (bare.idle->contacts.size() + bare.idle->coils.size()) * sizeof(std::size_t);
  return bare;
}

std::shared_ptr<const State> Memo::whole(const Met& met, const std::shared_ptr<const State>& bare,
                                         bool settled) {
  if (met.idle->empty()) return bare;
  const std::uint64_t key = mix(mix(address(bare.get()), address(met.start.get())),
                                mix(address(met.idle.get()), settled));
  if (reuse_) {
    const auto found = wholes_.find(key);
    if (found != wholes_.end()) return found->second.state;
  }
  State state = *bare;
  put_back(*met.stretch->network, *met.idle, *met.start, settled, state);
  std::shared_ptr<const State> made = intern(std::move(state));
  if (reuse_) {
    bytes_ += sizeof(Whole) + 64;
    wholes_[key] = {bare, met.start, made, met.idle};
  }
  return made;
}

Met Memo::meet(const std::shared_ptr<const Network>& network, const Inputs& inputs,
               std::uint64_t commands, const std::shared_ptr<const State>& start) {
  make_room();
  const Bare& bare = without_idle(network, inputs, commands, start);
  return {stretch(bare, inputs), start, bare.idle};
}

std::shared_ptr<const State> Memo::end_of(const Met& met) {
  return whole(met, met.stretch->end, met.stretch->settled);
}

Cut Memo::cut(const Met& met, SimTime began, SimTime offset, std::size_t happened) {
  Cut cut = bare_cut(met.stretch, began, offset, happened);
  const bool rests = met.stretch->settled && cut.steady_s > 0;
  cut.state = whole(met, cut.state, rests);
  return cut;
}

std::shared_ptr<Stretch> Memo::compute_bare(const Bare& bare, const Inputs& inputs) {
  ++computed_;
  Inputs rest = inputs;
  for (const std::size_t k : bare.idle->contacts) rest.contacts[k].closed = 0;
  return compute(bare.network, rest, bare.start, responses(bare.network));
}

std::shared_ptr<const Stretch> Memo::stretch(const Bare& bare, const Inputs& inputs) {
  if (!reuse_) return compute_bare(bare, inputs);
  for (const Reads& reads : *bare.ways) {
    const auto found = stretches_.find(closings_key(inputs, reads, bare.key));
    if (found != stretches_.end()) return found->second;
  }
  const std::shared_ptr<Stretch> made = compute_bare(bare, inputs);
  bytes_ += bytes_of(*made);
  made->end = intern(*made->end);
  std::vector<Reads>& ways = *bare.ways;
  if (std::find(ways.begin(), ways.end(), made->reads) == ways.end()) ways.push_back(made->reads);
  stretches_[closings_key(inputs, made->reads, bare.key)] = made;
  return made;
}

Cut Memo::bare_cut(const std::shared_ptr<const Stretch>& stretch, SimTime began, SimTime offset,
                   std::size_t happened) {
  const SimTime spacing = stretch->strikes ? 100 * kMicrosecond : kMicrosecond;
  const SimTime grid = offset / spacing * spacing;
  double at_s = to_seconds(grid);
  if (happened > 0) at_s = std::max(at_s, stretch->events[happened - 1].t_s);
  if (stretch->settled && at_s >= stretch->end_s) {
    const double rested_s = at_s - stretch->end_s;
    return {phased(stretch, to_seconds(began + grid), rested_s), stretch->ledger, rested_s};
  }
  const std::uint64_t key = mix(address(stretch.get()), std::bit_cast<std::uint64_t>(at_s));
  if (reuse_) {
    const auto found = cuts_.find(key);
    if (found != cuts_.end()) return found->second.cut;
  }
  Integrator run(*stretch->network, stretch->inputs, *stretch->start, responses(stretch->network));
  run.advance_stretch(at_s);
  const State state = run.state_at(at_s);
  const Cut cut{intern(state), std::make_shared<const Ledger>(run.ledger_at(at_s)), 0};
  if (reuse_) {
    bytes_ += sizeof(CutEntry) + 64 + cut.ledger->spark_j.size() * 8;
    cuts_[key] = {stretch, cut};
  }
  return cut;
}

/// The state after a settled stretch's end, in the phase that the mains have then.
std::shared_ptr<const State> Memo::phased(const std::shared_ptr<const Stretch>& stretch,
                                          double now_s, double rested_s) {
  const Network& network = *stretch->network;
  if (!has_rectified(network)) return stretch->end;
  const double half_s = network.half_period_s;
  const double periods = (stretch->hums ? rested_s : now_s) / half_s;
  const auto phase = static_cast<std::uint64_t>((periods - std::floor(periods)) * kPhases);
  if (phase == 0) return stretch->end;
  const std::uint64_t key = mix(mix(address(stretch.get()), phase), kPhases);
  if (reuse_) {
    const auto found = cuts_.find(key);
    if (found != cuts_.end()) return found->second.cut.state;
  }
  const double into_s = static_cast<double>(phase) / kPhases * half_s;
  State state = *stretch->end;
  if (stretch->hums) {
    state = hum_at(network, stretch->inputs, state, into_s, responses(stretch->network));
  } else {
    state.mains_s = into_s;
  }
  std::shared_ptr<const State> found = intern(std::move(state));
  if (reuse_) {
    bytes_ += sizeof(CutEntry) + 64;
    cuts_[key] = {stretch, {found, nullptr, 0}};
  }
  return found;
}

}  // namespace sixty::circuit
