#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "sim/base/time.hpp"
#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {

/// A contact whose film or closing speed was read from the inputs.
struct Read {
  std::uint16_t contact = 0;
  std::uint16_t what = 0;  ///< Integrator::Consulted
  bool operator==(const Read&) const = default;
};

using Reads = std::vector<Read>;

/// What happens in a network from one state under unchanging inputs until all is at rest, or until
/// so many things have happened that the list is cut. Immutable, shared by all who meet it again.
struct Stretch {
  std::shared_ptr<const Network> network;  ///< without what lies idle
  std::shared_ptr<const State> start;
  Inputs inputs;
  std::vector<Located> events;
  bool settled = false;
  bool strikes = false;  ///< an interrupter goes on and on in it
  bool hums = false;     ///< it has settled in hum, and the end is at a zero of the mains
  double end_s = 0;
  SimTime end_ns = 0;  ///< the same, nearest nanosecond
  std::shared_ptr<const State> end;
  std::shared_ptr<const Ledger> ledger;       ///< from the start to end_s
  std::vector<double> steady_a;               ///< from each source after the end, when settled
  std::vector<double> steady_heat;            ///< where each fuse's heat tends after the end
  std::optional<IntegrationFailure> failure;  ///< the end is where it could not be followed further
  std::vector<std::uint16_t> driven_anew;     ///< coils whose voltage the cut before it changed
  std::vector<std::uint32_t> sets_moving;     ///< events in which an armature starts or leaves
  Reads reads;  ///< what was made use of, of what the inputs say of closings
};

std::size_t bytes_of(const State& state);
std::size_t bytes_of(const Network& network);
std::size_t bytes_of(const Stretch& stretch);

/// Computes one. `responses`: of that network.
std::shared_ptr<Stretch> compute_stretch(const std::shared_ptr<const Network>& network,
                                         const Inputs& inputs,
                                         const std::shared_ptr<const State>& start,
                                         const std::shared_ptr<Responses>& responses);

}  // namespace sixty::circuit
