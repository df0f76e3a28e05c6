// Memos that have stretches in common: what one computes the others wait for, and meanwhile compute
// what will be asked for later.
#include "sim/circuit/memo.hpp"

#include <algorithm>

namespace sixty::circuit {

/// One's own copy of a stretch that anybody may have computed, or nullptr if another thread is at
/// it and nobody `waits`.
std::shared_ptr<Stretch> Memo::from_pool(const Bare& bare, const Inputs& inputs, bool waits) {
  Inputs rest = inputs;
  set_aside(*bare.idle, rest);
  const Pool::Beginning from{*bare.network, *bare.start, rest};
  const auto compute = [&] { return compute_bare(bare, inputs); };
  const auto found = waits ? pool_->find(from, compute, [this] { return work_ahead(); })
                           : pool_->find_if_free(from, compute);
  if (found == nullptr) return nullptr;
  auto own = std::make_shared<Stretch>(*found);
  own->network = bare.network;
  own->start = bare.start;
  return own;
}

/// Also forgets the one before.
void Memo::note_ring(const Asked& asked, const Place& place) {
  ring_.reset();
  if (pool_ == nullptr || !place.settled) return;
  const bool alternates = std::any_of(asked.network->sources.begin(), asked.network->sources.end(),
                                      [](const Source& s) { return s.rectified; });
  if (!alternates) return;
  ring_ = Ring{asked.network, asked.inputs, asked.met, place, 1, {}};
  ring_->phases[place.phase].depth = SIZE_MAX;  // the run itself goes there
}

/// Computes a stretch of the ring as it is at another phase of the mains, no more of them than have
/// been asked for at this one. False: there is nothing to be done.
bool Memo::work_ahead() {
  if (!ring_) return false;
  for (std::uint64_t k = 1; k < kPhases; ++k) {
    const std::uint64_t number = (ring_->place.phase + k) % kPhases;
    Ring::Phase& phase = ring_->phases[number];
    while (phase.depth < ring_->depth) {
      if (work_ahead(phase, number)) return true;
    }
  }
  return false;
}

/// Goes on by one stretch. True if it had to be computed.
bool Memo::work_ahead(Ring::Phase& phase, std::uint64_t number) {
  std::shared_ptr<const State> start;
  if (!phase.met) {
    Place place = ring_->place;
    place.phase = number;
    start = cut_at(ring_->before, place).state;
  } else if (phase.met->stretch->settled) {
    phase.depth = SIZE_MAX;  // it is at its end
    return false;
  } else {
    start = whole(*phase.met, phase.met->stretch->end, false);
  }
  const Bare& bare = without_idle(ring_->network, ring_->inputs, start);
  std::shared_ptr<const Stretch> stretch = known_stretch(bare, ring_->inputs);
  const bool was_known = stretch != nullptr;
  if (!was_known) {
    auto made = from_pool(bare, ring_->inputs, false);
    if (made == nullptr) {
      phase.depth = SIZE_MAX;  // another thread is on that way
      return false;
    }
    stretch = keep(bare, ring_->inputs, std::move(made));
  }
  phase.met = Met{stretch, start, bare.idle};
  ++phase.depth;
  return !was_known;
}

}  // namespace sixty::circuit
