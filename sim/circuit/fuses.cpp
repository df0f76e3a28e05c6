#include "sim/circuit/fuses.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::circuit {
namespace {

/// Heat after a time, `from` at its start, that tends to `aim`.
double tending(double from, double aim, double time_s, const Fuse& fuse) {
  return from == aim ? aim : aim + (from - aim) * det_exp(-time_s / fuse.time_constant_s);
}

}  // namespace

void Fuses::expect(const Stretch& stretch, SimTime began, const Inputs& inputs) {
  melts_at_ = kNever;
  const std::vector<Fuse>& fuses = stretch.network->fuses;
  for (std::size_t k = 0; k < fuses.size(); ++k) {
    const bool whole = inputs.contacts[static_cast<std::size_t>(fuses[k].contact)].closed != 0;
    if (whole && melted_[k] != 0) {
      melted_[k] = 0;
      heat_[k] = 0;
    }
    if (melted_[k] != 0) continue;
    const double after_s = melting_time_s(stretch, k);
    if (after_s < 0 || after_s > to_seconds(kNever / 4)) continue;
    const SimTime at = began + from_seconds(after_s);
    if (at >= melts_at_) continue;
    melts_at_ = at;
    next_ = k;
  }
}

/// Since the stretch began; negative if it does not melt.
double Fuses::melting_time_s(const Stretch& stretch, std::size_t k) const {
  const Fuse& fuse = stretch.network->fuses[k];
  if (heat_[k] + stretch.ledger->fuse_most[k] >= 1) {
    const double within_s = within_stretch_s(stretch, k);
    if (within_s >= 0) return within_s;
  }
  const double aim = stretch.steady_heat[k];
  if (!stretch.settled || aim <= 1) return -1;
  const double then = heat_[k] * stretch.ledger->fuse_keep[k] + stretch.ledger->fuse_heat[k];
  return stretch.end_s + fuse.time_constant_s * det_log((aim - then) / (aim - 1));
}

/// Goes through the stretch again and halves the step in which the heat is enough.
double Fuses::within_stretch_s(const Stretch& stretch, std::size_t k) const {
  const Fuse& fuse = stretch.network->fuses[k];
  Integrator run(*stretch.network, stretch.inputs, *stretch.start);
  const auto hot_at = [&](double t) {
    return tending(heat_[k], 0, t, fuse) + run.ledger_at(t).fuse_heat[k] >= 1;
  };
  double before = 0;
  while (before < stretch.end_s && !run.settled()) {
    run.advance_stretch(std::nextafter(before, stretch.end_s));
    const double after = std::min(run.time_s(), stretch.end_s);
    if (after <= before) return -1;
    if (!hot_at(after)) {
      before = after;
      continue;
    }
    double low = before;
    double high = after;
    while (high - low > 1e-9) {
      const double middle = (low + high) / 2;
      (hot_at(middle) ? high : low) = middle;
    }
    return high;
  }
  return -1;
}

void Fuses::follow(const Ledger& ledger) {
  for (std::size_t k = 0; k < heat_.size(); ++k) {
    heat_[k] = heat_[k] * ledger.fuse_keep[k] + ledger.fuse_heat[k];
  }
}

void Fuses::follow(const Stretch& stretch, const Cut& cut) {
  follow(*cut.ledger);
  for (std::size_t k = 0; k < heat_.size() && cut.steady_s > 0; ++k) {
    heat_[k] = tending(heat_[k], stretch.steady_heat[k], cut.steady_s, stretch.network->fuses[k]);
  }
}

std::uint64_t Fuses::hash(std::uint64_t h) const {
  h = hash_bytes(heat_.data(), heat_.size() * sizeof(double), h);
  return hash_bytes(melted_.data(), melted_.size(), h);
}

Located Fuses::melt(const Network& network, SimTime began) {
  Located e;
  e.what = What::kMelts;
  e.offset_ns = melts_at_ - began;
  e.t_s = to_seconds(e.offset_ns);
  e.element = network.fuses[next_].contact;
  e.owner = network.contacts[static_cast<std::size_t>(e.element)].owner;
  e.cause = kCauseIsCut;
  melted_[next_] = 1;
  melts_at_ = kNever;
  return e;
}

}  // namespace sixty::circuit
