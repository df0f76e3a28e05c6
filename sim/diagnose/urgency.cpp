#include "sim/diagnose/urgency.hpp"

#include <algorithm>
#include <set>

namespace sixty::diagnose {
namespace {

// How much nearer a part is than any other of the installation (judgement).
constexpr double kNamedSo = 10, kInItsCircuit = 5, kDrivesIt = 3;

void raise(double& near, double to) { near = std::max(near, to); }

std::set<PartId> named_in(const Library& library, const std::vector<Observation>& observations) {
  std::set<PartId> named;
  for (const std::size_t o : complaints(observations)) {
    for (const std::size_t sign : observations[o].which) named.insert(library.signs[sign].part);
  }
  return named;
}

/// Whether a part gives something to one of these, or moves it.
bool drives_any(const PartInstance& part, const std::set<PartId>& of) {
  for (const auto* all : {&part.listeners, &part.takers}) {
    for (const auto& some : *all) {
      const auto is_one = [&](const auto& taker) { return of.count(taker.first) != 0; };
      if (std::any_of(some.begin(), some.end(), is_one)) return true;
    }
  }
  return false;
}

}  // namespace

std::vector<double> urgency_of(const Library& library,
                               const std::vector<Observation>& observations) {
  const std::vector<PartInstance>& parts = library.installation->parts;
  const std::set<PartId> named = named_in(library, observations);
  std::vector<double> near(parts.size(), 1);
  for (const PartId part : named) {
    raise(near[part], kNamedSo);
    for (const PartId other : library.circuits[part]) raise(near[other], kInItsCircuit);
  }
  for (PartId part = 0; part < parts.size(); ++part) {
    if (drives_any(parts[part], named)) raise(near[part], kDrivesIt);
  }
  std::vector<double> urgency;
  for (std::size_t s = 0; s < library.suspects.size(); ++s)
    urgency.push_back(library.prior[s] * near[library.suspects[s].part]);
  return urgency;
}

}  // namespace sixty::diagnose
