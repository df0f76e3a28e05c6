#include "sim/diagnose/urgency.hpp"

#include <algorithm>
#include <set>

namespace sixty::diagnose {
namespace {

// How much nearer a part is than any other of the installation (judgement).
constexpr double kNamed = 10, kInItsCircuit = 5, kDrivesIt = 3;

void raise(double& near, double to) { near = std::max(near, to); }

}  // namespace

std::vector<double> urgency_of(const Library& library,
                               const std::vector<Observation>& observations) {
  const std::vector<PartInstance>& parts = library.installation->parts;
  std::set<PartId> named;
  for (const std::size_t o : complaints(observations)) {
    for (const std::size_t sign : observations[o].which) named.insert(library.signs[sign].part);
  }
  std::vector<double> near(parts.size(), 1);
  for (const PartId part : named) {
    raise(near[part], kNamed);
    for (const PartId other : library.circuits[part]) raise(near[other], kInItsCircuit);
  }
  for (PartId part = 0; part < parts.size(); ++part) {
    for (const auto* all : {&parts[part].listeners, &parts[part].takers}) {
      for (const auto& some : *all) {
        for (const auto& [other, input] : some) {
          if (named.count(other) != 0) raise(near[part], kDrivesIt);
        }
      }
    }
  }
  std::vector<double> urgency;
  for (std::size_t s = 0; s < library.suspects.size(); ++s)
    urgency.push_back(library.prior[s] * near[library.suspects[s].part]);
  return urgency;
}

}  // namespace sixty::diagnose
