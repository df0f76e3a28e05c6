#pragma once

#include <memory>
#include <unordered_map>
#include <vector>

#include "sim/base/time.hpp"
#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {

/// What happens in a network from one state under unchanging inputs until all is at rest, or until
/// so many things have happened that the list is cut. Immutable, shared by all who meet it again.
struct Stretch {
  std::shared_ptr<const Network> network;
  std::shared_ptr<const State> start;
  Inputs inputs;
  std::vector<Located> events;
  bool settled = false;
  double end_s = 0;
  std::shared_ptr<const State> end;
  Ledger ledger;                 ///< from the start to end_s
  std::vector<double> steady_a;  ///< from each source after the end, when settled
  std::vector<std::uint8_t> driven_anew;
  std::vector<std::uint8_t> consulted;  ///< contacts whose closing inputs were read
};

/// Where a stretch was left because something changed from outside.
struct Cut {
  std::shared_ptr<const State> state;
  Ledger ledger;
};

/// Finds stretches and cuts, or computes them. Reusing one that was met before gives the same bytes
/// as computing it again, since both are pure functions; `reuse` off computes always.
/// Cuts lie on a grid of one microsecond from the stretch's start (the last one before the change,
/// but not before what has happened already): that is the model's definition of when an outside
/// change reaches the network, and what lets equal minutes be found again.
class Memo {
 public:
  explicit Memo(bool reuse = true) : reuse_(reuse) {}
  std::shared_ptr<const Stretch> stretch(const std::shared_ptr<const Network>& network,
                                         const Inputs& inputs,
                                         const std::shared_ptr<const State>& start);
  /// `happened`: how many of the stretch's events are past.
  Cut cut(const std::shared_ptr<const Stretch>& stretch, SimTime offset, std::size_t happened);
  std::size_t computed() const { return computed_; }

 private:
  struct CutEntry {
    std::shared_ptr<const Stretch> stretch;
    double at_s = 0;
    Cut cut;
  };
  std::shared_ptr<const State> intern(State state);
  void make_room();

  bool reuse_;
  std::size_t computed_ = 0;
  std::size_t bytes_ = 0;
  /// Stretches from one state under one set of commands. What the inputs say of closings counts
  /// only for the contacts that did close, so they are kept by which ones those were.
  struct Family {
    std::vector<std::uint8_t> consulted;
    std::unordered_map<std::uint64_t, std::vector<std::shared_ptr<const Stretch>>> by_closings;
  };
  std::unordered_map<std::uint64_t, std::vector<Family>> stretches_;
  std::unordered_map<std::uint64_t, std::vector<CutEntry>> cuts_;
  std::unordered_map<std::uint64_t, std::vector<std::shared_ptr<const State>>> states_;
};

}  // namespace sixty::circuit
