#pragma once

#include <functional>
#include <memory>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "sim/circuit/runtime.hpp"
#include "sim/scene/installation.hpp"

namespace sixty {

/// One line of a trace.
struct TraceRecord {
  Event event;
  PartId part = 0;                            ///< whose event it is
  std::string_view kind;                      ///< name of the event
  bool acted = true;                          ///< false: an opportunity that failed
  const circuit::Located* located = nullptr;  ///< electrical or armature happening, if it is one
  std::span<const Condition> conditions;      ///< full trace only
};

/// Receives what happens, in order. Must not change anything.
class TraceSink {
 public:
  virtual ~TraceSink() = default;
  virtual void record(const TraceRecord& record) = 0;
  /// All that happens at `at` has been recorded, and the network has followed.
  virtual void settled(SimTime at) { (void)at; }
  /// Wants trace-only events and conditions too.
  virtual bool full() const { return true; }
  /// Wants the steps that parts take by themselves.
  virtual bool steps() const { return full(); }
};

/// A running installation: goes forward, back, and to any moment, always with the same result for
/// the same scene, seed and actions.
class Session {
 public:
  struct Options {
    bool reuse_transients = true;
    /// Transients in common with other sessions, which may run in threads of their own; nullptr for
    /// none. Nothing else than the time that it takes hangs on it.
    std::shared_ptr<circuit::Pool> pool = nullptr;
    bool queue_each_step = false;  ///< parts queue what they could step in a loop (for tests)
    /// Room for the moments that are saved to go back to. It is full after a week or so, and they
    /// lie some hours apart then, which are run again in milliseconds.
    std::size_t keyframe_bytes = 2u << 20;
  };
  using StopHere = std::function<bool()>;
  explicit Session(std::shared_ptr<const Installation> installation);
  Session(std::shared_ptr<const Installation> installation, Options options);
  ~Session();

  SimTime now() const;
  /// Runs on through all events up to and including `until`. Errors: throws RunFailure when parts
  /// loop at one instant.
  void run_until(SimTime until);
  /// The same, and asks before each instant whether to stop there, but not within a transient that
  /// nothing else falls into: it lasts some milliseconds.
  /// Returns false if so: now() is then the last instant that has been run, which is complete, and
  /// running on is as if nothing had been asked.
  bool run_until(SimTime until, const StopHere& stop_here);
  /// Forward or back, to -1 at the least, before anything has happened: nearest saved state, then
  /// replay of the actions. Bit-identical to a straight run.
  void seek(SimTime time);
  /// The same, stopped on the way as run_until() may be. Returns whether it is there.
  bool seek(SimTime time, const StopHere& stop_here);
  /// An action now or later, kept in the log; one earlier than now is refused (seek first).
  bool act(Action action);
  /// All actions, the scene's own among them, in order of time.
  const std::vector<Action>& log() const;
  /// Takes another log in place of its own. Returns the instant from which on the run is another,
  /// kNever if it is the same; a run that is past it goes back to just before.
  SimTime replace_log(std::vector<Action> log);

  /// Full state, for coming back to; taking one costs microseconds.
  struct Snapshot;
  std::shared_ptr<const Snapshot> save() const;
  void restore(const std::shared_ptr<const Snapshot>& snapshot);
  /// Deep hash of all state.
  std::uint64_t state_hash() const;

  void set_sink(TraceSink* sink);
  double read(PartId part, std::size_t reading);
  /// Adds what a part looks like now. Units: `at` in those of the drawing.
  void draw(PartId part, const Pose& at, Figure& figure);
  Report report();
  const Installation& installation() const;
  /// The installation with the values that it has now.
  const Installation& build() const;
  /// The network as it is now. Good until the session goes on.
  struct CircuitNow {
    const circuit::Network& network;
    const circuit::Probe& probe;
  };
  CircuitNow circuit() const;
  /// When something can next happen: until then the network goes its way, or rests. kNever if
  /// nothing is to come.
  SimTime next_change() const;
  /// Events handled since the start (trace-only ones are not counted).
  std::uint64_t events() const;
  std::size_t transients_computed() const;
  /// What has been computed so far will be found again, whatever is forgotten.
  void keep_transients();
  /// Forgets those since, and what faults made of the installation: the next run computes as much
  /// as if it were the only one.
  void forget_later_transients();
  /// Saved moments to go back to, however long it has run.
  std::size_t keyframes() const;

 private:
  class World;
  std::unique_ptr<World> world_;
};

/// A run that cannot go on: place and reason in what().
class RunFailure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace sixty
