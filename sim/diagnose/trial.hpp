#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {

/// A fault that is the matter in a trial.
struct Truth {
  std::size_t suspect = 0;
  Manner manner;
  std::vector<float> departures;  ///< of it alone
};

/// A case whose fault is known, to try a diagnosis on.
struct Trial {
  std::vector<Truth> truths;      ///< one, or two
  std::vector<float> departures;  ///< of all signs in all spans
};

struct TrialPlan {
  std::size_t cases = 100;
  std::uint64_t seed = 1000;
  /// What the cases' installations are built under; the library always is under the model's own.
  Assumptions assumptions;
  /// Least tolerance of their parts, if it is another than the assumptions have.
  std::optional<double> vary;
  bool pairs = false;  ///< two faults at once, of which each shows something
  std::size_t threads = 0;
};

/// Random cases: a fault by its prior, its place, a severity at which something shows, in other
/// specimens of the installation than the library's. The same for any number of threads. Order: the
/// library knows what is usual.
std::vector<Trial> trials_of(const Library& library, const LibraryPlan& made, const TrialPlan& plan,
                             const Registry& registry, const OnProgress& told);

}  // namespace sixty::diagnose
