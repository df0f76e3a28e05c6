#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/explain/chain.hpp"
#include "tests/faults/undoing.hpp"

namespace sixty {

/// A scene with a fault, held against a sound one.
struct Held {
  FaultyScene scene;
  std::shared_ptr<const Installation> faulty;
  SimTime end = 0;  ///< as far as anybody has looked
  explain::Comparison comparison;
  std::vector<explain::Link> chain;  ///< behind the first difference; none where there is none
};
/// `span`: a duration from the start. Errors: fails the test.
Held held_against_sound(const FaultyScene& scene, const std::string& span);

/// What a chain ends at: the first deed that differs or, without one, a reading at an instant.
struct Effect {
  PartId part = 0;
  std::string_view deed;
  bool acted = true;
  std::size_t reading = 0;
  SimTime at = 0;
  double healthy = 0;
};

/// With what a link tells undone in a second run, the effect is another: links tell causes, and not
/// what merely goes along.
class Undoings {
 public:
  /// Of its chain's effect. Order: `held` has a chain, and outlives this.
  explicit Undoings(const Held& held);

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

  const Held& held_;
  std::shared_ptr<const Installation> faulty_;  ///< on the bench, as the sound one
  Session sound_;
  Effect effect_;
  SimTime end_ = 0;
  Seen as_it_was_;
};

}  // namespace sixty
