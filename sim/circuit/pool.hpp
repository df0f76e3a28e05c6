#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <vector>

#include "sim/circuit/stretch.hpp"

namespace sixty::circuit {

/// Stretches that several memos have in common, whose runs may go on side by side, each in a thread
/// of its own. A stretch is a pure function of what it begins with, so whoever takes one from here
/// gets what it would have computed: only the time until then hangs on how threads are scheduled.
class Pool {
 public:
  struct Beginning {
    const Network& network;
    const State& start;
    const Inputs& inputs;
  };
  using Compute = std::function<std::shared_ptr<const Stretch>()>;
  /// Something useful that takes no longer than a stretch; false when there is nothing to do.
  using Meanwhile = std::function<bool()>;

  /// The stretch from there, computed if nobody has done so yet. As long as another thread is at
  /// one from the same start, `meanwhile` is done.
  std::shared_ptr<const Stretch> find(const Beginning& from, const Compute& compute,
                                      const Meanwhile& meanwhile);
  /// The same, but nullptr as long as another thread is at it.
  std::shared_ptr<const Stretch> find_if_free(const Beginning& from, const Compute& compute);

 private:
  /// All that have been met from one state under the same commands: by what they have read of the
  /// inputs they may yet differ.
  struct Known {
    std::vector<std::shared_ptr<const Stretch>> stretches;
    bool at_it = false;  ///< a thread computes one
  };
  std::shared_ptr<Known> known(const Beginning& from);
  std::shared_ptr<const Stretch> compute_for(Known& known, const Compute& compute,
                                             std::unique_lock<std::mutex>& lock);

  std::mutex mutex_;
  std::condition_variable done_;
  std::size_t bytes_ = 0;
  std::map<std::uint64_t, std::shared_ptr<Known>> known_;  ///< by network, start, commands
};

}  // namespace sixty::circuit
