#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "sim/explain/link.hpp"
#include "sim/run/session.hpp"

namespace sixty {

/// A scene with one fault and what hands do, as on the command line.
struct FaultyScene {
  std::string name, fault;
  std::vector<std::string> set, hands;
};

/// The scene with a supply on the bench beside it, which nothing hangs on. Errors: fails the test.
std::shared_ptr<const Installation> on_the_bench(const FaultyScene& scene);

/// Is shown a run in which something is undone, and how; says whether that was enough.
using UndoneRun = std::function<bool(const std::string& how, Session& run)>;

/// Runs of a scene that stands on the bench in which what a link tells is undone, and no more than
/// can be helped, the plainest first: its value is put back, the hand kept away, a jumper laid or a
/// wire taken off, the coil fed from the bench, the deed done by hand, and last the part made a
/// sound one for the moment. Returns whether one of them was enough.
bool undo(const explain::Link& link, const FaultyScene& scene,
          const std::shared_ptr<const Installation>& faulty, Session& sound,
          const UndoneRun& is_enough);

}  // namespace sixty
