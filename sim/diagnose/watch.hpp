#pragma once

#include <memory>
#include <vector>

#include "sim/diagnose/sign.hpp"
#include "sim/run/session.hpp"

namespace sixty::diagnose {

/// A sign at one part of an installation.
struct SignAt {
  PartId part = 0;
  const Sign* sign = nullptr;
};

/// Every sign of every part, in order of the parts. The book must outlive it.
std::vector<SignAt> signs_of(const Installation& installation, const SignBook& book);

constexpr SimTime kHalfDay = 12 * kHour;

/// When an installation is watched: from its start on, in half days, and some minutes closely.
struct WatchPlan {
  SimTime until = 3 * kDay;
  std::vector<SimTime> minutes;  ///< where each of them begins, in order
  /// Spans that signs are told of: the whole, then each half day.
  std::size_t spans() const { return 1 + static_cast<std::size_t>(until / (kHalfDay)); }
  /// The half day that an instant lies in, as a number of span. Range: 0 <= at < until.
  static std::size_t half_day(SimTime at) { return 1 + static_cast<std::size_t>(at / (kHalfDay)); }
};

/// Chooses the minutes to be watched closely from how a sound installation runs: an ordinary one,
/// and such that everything that acts only now and then does so in one of them.
WatchPlan plan_watch(const std::shared_ptr<const Installation>& sound, SimTime until);

/// What was there to be noticed: one number for each sign in each span, spans after each other; NaN
/// where there was nothing that had one (the length of a ring that did not come).
struct Sighting {
  std::vector<float> numbers;
  bool failed = false;  ///< the run could not go on; what was seen until then counts
};

/// Runs an installation through the watch. Order: the session stands at its start.
Sighting watch(Session& session, const std::vector<SignAt>& signs, const WatchPlan& plan);

}  // namespace sixty::diagnose
