#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "sim/circuit/state.hpp"
#include "sim/run/faults.hpp"
#include "sim/run/feed_paths.hpp"

namespace sixty {

/// What an installation's parts set before anything has happened.
struct Beginning {
  std::vector<std::byte> arena;
  std::shared_ptr<const circuit::Network> network;
  circuit::Inputs inputs;
};

/// An installation with the values that the faults in force have made of it, and the meters that
/// are laid on.
struct Build {
  std::shared_ptr<const Installation> installation;
  Beginning beginning;
  std::vector<ChangedValue> changed;               ///< in order of part and value
  mutable std::unique_ptr<const FeedPaths> paths;  ///< made when first asked for
};

/// The builds that a run has come by, each made once: a fault that comes and goes finds its
/// transients again.
class Builds {
 public:
  using Begin = std::function<Beginning(const std::shared_ptr<const Installation>&)>;
  Builds(std::shared_ptr<const Installation> sound, Begin begin);
  const std::shared_ptr<const Build>& sound() const { return sound_; }
  /// Errors: throws RunFailure where what the faults ask for together cannot be built.
  std::shared_ptr<const Build> with(const Faults& faults, const Hookups& hookups);
  /// All but the sound one.
  void forget() { known_.clear(); }

 private:
  std::shared_ptr<const Build> sound_;
  Begin begin_;
  std::map<std::string, std::shared_ptr<const Build>> known_;
};

/// Values that faults make of an installation's.
std::vector<ChangedValue> changed_values(const Installation& sound, const Faults& faults);

}  // namespace sixty
