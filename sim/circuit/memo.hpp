#pragma once

#include <array>
#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include "sim/base/time.hpp"
#include "sim/circuit/idle.hpp"
#include "sim/circuit/pool.hpp"
#include "sim/circuit/stretch.hpp"

namespace sixty::circuit {

/// A stretch as it is met: it was computed without what lies idle.
struct Met {
  std::shared_ptr<const Stretch> stretch;
  std::shared_ptr<const State> start;
  std::shared_ptr<const Idle> idle;
};

/// Where a stretch was left because something changed from outside. `ledger` counts from its start
/// to there or, once it has settled, to its end: then its steady currents flow for `steady_s` more.
struct Cut {
  std::shared_ptr<const State> state;
  std::shared_ptr<const Ledger> ledger;
  double steady_s = 0;
};

/// How a network goes on from a cut.
struct Onward {
  Cut cut;
  Met met;
};

/// What lies behind a stretch: under which inputs. `mark` is another one for other inputs.
struct Asked {
  const std::shared_ptr<const Network>& network;
  const Inputs& inputs;
  std::uint64_t mark;
  const Met& met;
};

/// Finds stretches and cuts, or computes them. Reusing one that was met before gives the same bytes
/// as computing it again, since both are pure functions; `reuse` off computes always. What lies
/// idle is no part of them: a stretch that was met in one network is found again in another that
/// differs from it elsewhere, as a sound installation from one with a fault. Cuts lie on a grid of
/// one microsecond from the stretch's start, of a tenth of a millisecond while something strikes
/// (the last one before the change, but not before what has happened already): that is the model's
/// definition of when an outside change reaches the network, and what lets equal minutes and the
/// ends of equal rings be found again. Likewise the mains are met in one of four phases of each
/// half period by what changes a network at rest or in hum.
class Memo {
 public:
  /// `pool`: has stretches in common with other memos, nullptr for none. Without reuse it is left
  /// alone.
  explicit Memo(bool reuse = true, std::shared_ptr<Pool> pool = nullptr)
      : reuse_(reuse), pool_(std::move(pool)) {}
  Met meet(const std::shared_ptr<const Network>& network, const Inputs& inputs,
           const std::shared_ptr<const State>& start);
  /// The stretch behind the end of one, and behind a cut(): found in one step if it was met before.
  Met go_on(const Asked& asked);
  Onward go_on(const Asked& asked, SimTime began, SimTime offset, std::size_t happened);
  /// The same network for equal values, so that what was met in it before is met again.
  std::shared_ptr<const Network> intern(std::shared_ptr<const Network> network);
  /// `happened`: how many of the stretch's events are past.
  Cut cut(const Met& met, SimTime began, SimTime offset, std::size_t happened);
  /// The same without the state, for looking at a run that goes on. Whoever looks comes at ever
  /// other instants, so only the latest are kept.
  Cut sums(const Met& met, SimTime began, SimTime offset, std::size_t happened);
  std::size_t computed() const { return computed_; }
  /// Keeps for good what has been met so far, if it takes no more than half of the room.
  void keep_for_good();
  /// Forgets what has been met since: the next run meets no more than the last one did, so what it
  /// computes is the same whichever runs went before. Nothing, where nothing is kept for good.
  void forget_the_rest();
  /// What is kept: of the run, which comes by the same again and again, and of looks at it.
  struct Kept {
    std::size_t stretches = 0, cuts = 0, states = 0, looks = 0;
    bool operator==(const Kept&) const = default;
  };
  Kept kept() const;
  static constexpr std::size_t kMostLooks = 64;
  /// Phases of the mains that a change from outside can meet, of each half period.
  static constexpr std::uint64_t kPhases = 4;

 private:
  struct CutEntry {
    std::shared_ptr<const Stretch> stretch;  // keeps its address its own
    Cut cut;
  };
  /// What a stretch begins with once all that lies idle is set aside.
  struct Bare {
    std::shared_ptr<const State> asked;      // these keep their addresses their own
    std::shared_ptr<const Network> network;  ///< of what does not lie idle
    std::shared_ptr<const State> start;
    std::shared_ptr<const Idle> idle;
    std::uint64_t key = 0;                     ///< of network, start and what is commanded of it
    std::shared_ptr<std::vector<Reads>> ways;  ///< under that key, nullptr without reuse
  };
  /// Good until room is made.
  const Bare& without_idle(const std::shared_ptr<const Network>& network, const Inputs& inputs,
                           const std::shared_ptr<const State>& start);
  std::shared_ptr<const State> whole(const Met& met, const std::shared_ptr<const State>& bare,
                                     bool settled);
  std::shared_ptr<const Network> rest_of(const std::shared_ptr<const Network>& network,
                                         const Idle& idle);
  /// `inputs`: as they were asked with; what lies idle is read of none of them.
  std::shared_ptr<const Stretch> stretch(const Bare& bare, const Inputs& inputs);
  std::shared_ptr<Stretch> compute_bare(const Bare& bare, const Inputs& inputs);
  std::shared_ptr<const Stretch> known_stretch(const Bare& bare, const Inputs& inputs) const;
  std::shared_ptr<const Stretch> keep(const Bare& bare, const Inputs& inputs,
                                      std::shared_ptr<Stretch> made);
  std::shared_ptr<Stretch> from_pool(const Bare& bare, const Inputs& inputs, bool waits);
  Met meet_here(const std::shared_ptr<const Network>& network, const Inputs& inputs,
                const std::shared_ptr<const State>& start);
  Cut bare_cut(const std::shared_ptr<const Stretch>& stretch, double at_s);
  std::shared_ptr<const State> intern(State state);
  const std::shared_ptr<Responses>& responses(const std::shared_ptr<const Network>& network);
  std::shared_ptr<const State> phased(const std::shared_ptr<const Stretch>& stretch,
                                      std::uint64_t phase);
  /// Where a stretch is cut: what its state there depends on.
  struct Place {
    double at_s = 0;          ///< no later than its end, once it has settled
    double steady_s = 0;      ///< since then
    std::uint64_t phase = 0;  ///< of the mains, of what has settled
    bool settled = false;
  };
  static Place place_of(const Stretch& stretch, SimTime began, SimTime offset,
                        std::size_t happened);
  Cut cut_at(const Met& met, const Place& place);
  void follow(std::uint64_t key, const Met& from, const Onward& onward);
  void make_room();

  /// What began when something changed in a network that had settled, and was met at one phase of
  /// the mains: it will be met at the others too.
  struct Ring {
    std::shared_ptr<const Network> network;
    Inputs inputs;
    Met before;
    Place place;            ///< where it was left
    std::size_t depth = 0;  ///< stretches since, met or asked for
    struct Phase {
      std::optional<Met> met;  ///< how far it has been computed
      std::size_t depth = 0;
    };
    std::array<Phase, kPhases> phases;
  };
  void note_ring(const Asked& asked, const Place& place);
  bool work_ahead();
  bool work_ahead(Ring::Phase& phase, std::uint64_t number);

  bool reuse_;
  std::shared_ptr<Pool> pool_;
  std::optional<Ring> ring_;  ///< the latest, where there is a pool
  /// Of the networks met lately; what it holds lives as long as its network.
  struct Known {
    std::shared_ptr<const Network> network;
    std::shared_ptr<Responses> responses;
  };
  std::unordered_map<const Network*, Known> known_;
  const Network* latest_ = nullptr;
  std::shared_ptr<Responses> latest_responses_;
  struct Rest {
    std::shared_ptr<const Network> of, rest;  // the first keeps its address its own
  };
  struct Followed {
    Met from;  // keeps addresses their own
    Onward onward;
  };
  struct Whole {
    std::shared_ptr<const State> bare, before, state;
    std::shared_ptr<const Idle> idle;
  };
  /// What has been met.
  struct Found {
    std::size_t bytes = 0;
    std::unordered_map<std::uint64_t, std::shared_ptr<const Network>> networks;
    /// By a network and what lies idle of it.
    std::unordered_map<std::uint64_t, Rest> rests;
    /// By network, start and commands: which inputs of closings the stretches from there have read,
    /// one list for each way in which it went. By that and by what they read: the stretch. Keys are
    /// trusted: among a million of 64 bits, two are equal with a chance of 3e-8.
    std::unordered_map<std::uint64_t, std::shared_ptr<std::vector<Reads>>> reads;
    std::unordered_map<std::uint64_t, std::shared_ptr<const Stretch>> stretches;
    std::unordered_map<std::uint64_t, CutEntry> cuts;
    std::unordered_map<std::uint64_t, Bare> bare;
    /// By stretch, start, what lies idle, place of the cut, network and inputs.
    std::unordered_map<std::uint64_t, Followed> onward;
    /// By a bare state, what lies idle and the start that it was set aside from.
    std::unordered_map<std::uint64_t, Whole> wholes;
    std::unordered_map<std::uint64_t, std::vector<std::shared_ptr<const State>>> states;
  };
  Found found_;
  std::shared_ptr<const Found> for_good_;
  std::size_t computed_ = 0;
  std::unordered_map<std::uint64_t, CutEntry> looks_;  ///< cuts without a state
  Bare unkept_;                                        ///< the last one, without reuse
};

}  // namespace sixty::circuit
