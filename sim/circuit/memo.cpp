#include "sim/circuit/memo.hpp"

#include <algorithm>
#include <bit>

namespace sixty::circuit {
namespace {

/// Room for what has been met; it is all forgotten and computed again when the room is used up.
constexpr std::size_t kMostBytes = 48u << 20;

std::size_t bytes_of(const State& s) {
  return sizeof s + s.coils.size() * sizeof(CoilState) + s.contacts.size() * sizeof(ContactState) +
         s.capacitor_v.size() * sizeof(double) + s.diode_on.size();
}

std::size_t bytes_of(const Stretch& s) {
  return sizeof s + s.events.size() * sizeof(Located) +
         s.inputs.contacts.size() * sizeof(ContactInput) + s.inputs.coil_extra_load_n.size() * 8 +
         s.driven_anew.size() + s.ledger.spark_j.size() * 8 + 200;
}

std::uint64_t command_hash(const Inputs& in, std::uint64_t h) {
  for (const ContactInput& c : in.contacts) h = mix(h, c.closed);
  return hash_bytes(in.coil_extra_load_n.data(), in.coil_extra_load_n.size() * sizeof(double), h);
}

std::uint64_t closings_hash(const Inputs& in, const std::vector<std::uint8_t>& consulted) {
  std::uint64_t h = 5;
  for (std::size_t k = 0; k < consulted.size(); ++k) {
    const ContactInput& c = in.contacts[k];
    if ((consulted[k] & Integrator::kFilmRead) != 0) h = mix(h, std::bit_cast<std::uint64_t>(c.closed_ohm));
    if ((consulted[k] & Integrator::kSpeedRead) != 0) {
      h = mix(h, std::bit_cast<std::uint64_t>(c.closing_speed_m_per_s));
    }
  }
  return h;
}

/// The inputs agree in all that the stretch has made use of.
bool same(const Stretch& s, const Inputs& in) {
  if (s.inputs.coil_extra_load_n != in.coil_extra_load_n) return false;
  for (std::size_t k = 0; k < in.contacts.size(); ++k) {
    const ContactInput& a = s.inputs.contacts[k];
    const ContactInput& b = in.contacts[k];
    if (a.closed != b.closed) return false;
    if ((s.consulted[k] & Integrator::kFilmRead) != 0 && a.closed_ohm != b.closed_ohm) return false;
    if ((s.consulted[k] & Integrator::kSpeedRead) != 0 &&
        a.closing_speed_m_per_s != b.closing_speed_m_per_s) {
      return false;
    }
  }
  return true;
}

std::vector<double> steady_currents(const Integrator& run, const Network& network) {
  const Ledger one = run.ledger_at(run.time_s() + 1);
  std::vector<double> currents;
  for (std::size_t k = 0; k < network.sources.size(); ++k) {
    currents.push_back(one.charge_as[k] - run.ledger().charge_as[k]);
  }
  return currents;
}

std::shared_ptr<Stretch> compute(const std::shared_ptr<const Network>& network,
                                 const Inputs& inputs, const std::shared_ptr<const State>& start) {
  Integrator run(*network, inputs, *start);
  run.advance_stretch();
  auto s = std::make_shared<Stretch>();
  s->network = network;
  s->start = start;
  s->inputs = inputs;
  s->events = run.events();
  s->settled = run.settled();
  s->end_s = run.time_s();
  s->ledger = run.ledger();
  s->driven_anew = run.driven_anew();
  s->consulted = run.consulted();
  if (s->settled) s->steady_a = steady_currents(run, *network);
  s->end = std::make_shared<const State>(run.state_on_grid());
  return s;
}

}  // namespace

void Memo::make_room() {
  if (bytes_ < kMostBytes) return;
  stretches_.clear();
  cuts_.clear();
  states_.clear();
  bytes_ = 0;
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

std::shared_ptr<const Stretch> Memo::stretch(const std::shared_ptr<const Network>& network,
                                             const Inputs& inputs,
                                             const std::shared_ptr<const State>& start) {
  if (!reuse_) {
    ++computed_;
    return compute(network, inputs, start);
  }
  make_room();
  const std::uint64_t hash = command_hash(inputs, reinterpret_cast<std::uintptr_t>(start.get()));
  std::vector<Family>& families = stretches_[hash];
  for (const Family& f : families) {
    const auto found = f.by_closings.find(closings_hash(inputs, f.consulted));
    if (found == f.by_closings.end()) continue;
    for (const auto& known : found->second) {
      if (known->start == start && known->network == network && same(*known, inputs)) return known;
    }
  }
  ++computed_;
  const std::shared_ptr<Stretch> made = compute(network, inputs, start);
  bytes_ += bytes_of(*made);
  made->end = intern(*made->end);
  auto family = std::find_if(families.begin(), families.end(),
                             [&](const Family& f) { return f.consulted == made->consulted; });
  if (family == families.end()) family = families.insert(family, {made->consulted, {}});
  family->by_closings[closings_hash(inputs, made->consulted)].push_back(made);
  return made;
}

Cut Memo::cut(const std::shared_ptr<const Stretch>& stretch, SimTime offset, std::size_t happened) {
  const SimTime grid = offset / kMicrosecond * kMicrosecond;
  double at_s = to_seconds(grid);
  if (happened > 0) at_s = std::max(at_s, stretch->events[happened - 1].t_s);
  if (stretch->settled && at_s >= stretch->end_s) {
    Cut cut{stretch->end, stretch->ledger};
    for (std::size_t k = 0; k < stretch->steady_a.size(); ++k) {
      cut.ledger.charge_as[k] += stretch->steady_a[k] * (at_s - stretch->end_s);
    }
    return cut;
  }
  const std::uint64_t hash =
      hash_bytes(&at_s, sizeof at_s, reinterpret_cast<std::uintptr_t>(stretch.get()));
  if (reuse_) {
    for (const CutEntry& known : cuts_[hash]) {
      if (known.stretch == stretch && known.at_s == at_s) return known.cut;
    }
  }
  Integrator run(*stretch->network, stretch->inputs, *stretch->start);
  run.advance_stretch(at_s);
  const State state = run.state_at(at_s);
  const Cut cut{intern(state), run.ledger_at(at_s)};
  if (reuse_) {
    bytes_ += sizeof(CutEntry) + 64 + cut.ledger.spark_j.size() * 8;
    cuts_[hash].push_back({stretch, at_s, cut});
  }
  return cut;
}

}  // namespace sixty::circuit
