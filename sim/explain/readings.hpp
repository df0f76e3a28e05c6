#pragma once

#include <vector>

#include "sim/run/session.hpp"

namespace sixty::explain {

/// A reading of a part that is another than in a sound run.
struct OtherReading {
  PartId part = 0;
  std::size_t reading = 0;
  SimTime first = 0;           ///< when it was so first, as often as one looked
  double ours = 0, sound = 0;  ///< then
  SimTime before = 0;          ///< when it was looked at before, and was the same
  double share() const;        ///< of the larger, by which they differ
};

/// Looks at all readings of two runs now and then, more rarely as they go on.
class ReadingWatch {
 public:
  /// Order: both stand at the same instant, in order of time.
  void look(Session& ours, Session& sound);
  /// Those that differed by more than a hundredth, and by more than is next to nothing beside the
  /// scene's largest of that unit; in the order in which they began to, the larger
  /// share first.
  std::vector<OtherReading> take();

 private:
  void note(const std::vector<OtherReading>& seen, const Installation& scene);

  SimTime next_ = 0, looked_at_ = 0;
  std::vector<OtherReading> others_;
};

}  // namespace sixty::explain
