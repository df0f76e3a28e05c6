#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/explain/difference.hpp"
#include "tests/faults/undoing.hpp"

namespace sixty {

/// What a chain ends at: the first deed that differs or, without one, a reading at an instant.
struct Effect {
  PartId part = 0;
  std::string_view deed;
  bool acted = true;
  std::size_t reading = 0;
  SimTime at = 0;
  double healthy = 0;
};

/// Of a comparison whose chain begins with `told`.
Effect effect_of(const explain::Comparison& comparison, const explain::Link& told,
                 const Installation& scene);

/// With what a link tells undone in a second run, the effect is another: links tell causes, and not
/// what merely goes along.
class Undoings {
 public:
  /// `end`: as far as anybody has looked. `plain`: the installation that effect and links tell of;
  /// it outlives this.
  Undoings(FaultyScene scene, Effect effect, SimTime end, const Installation& plain);

  /// Whether it vanishes, comes at another time or with another value.
  struct Outcome {
    bool changed = false;
    std::string tried;  ///< how it was undone, the way that was enough last
  };
  Outcome undo(explain::Link link);

 private:
  /// When the deed was done, and what is read at the end.
  struct Seen {
    std::vector<SimTime> times;
    double reading = 0;
  };

  PartId there(PartId p) const;
  Seen look_at(Session& run) const;
  bool is_other(const Seen& now) const;

  FaultyScene scene_;
  std::shared_ptr<const Installation> faulty_;
  Session sound_;
  const Installation& plain_;
  Effect effect_;
  SimTime end_ = 0;
  Seen as_it_was_;
};

}  // namespace sixty
