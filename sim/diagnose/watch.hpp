#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "sim/diagnose/sign.hpp"
#include "sim/diagnose/visit.hpp"
#include "sim/run/session.hpp"

namespace sixty::diagnose {

constexpr std::size_t kNoSign = static_cast<std::size_t>(-1);

/// A sign at one part of an installation.
struct SignAt {
  PartId part = 0;
  const Sign* sign = nullptr;
  std::size_t unless = kNoSign;  ///< of the installation: with it this one means nothing
};

/// Every sign of every part, in order of the parts. The book must outlive it.
std::vector<SignAt> signs_of(const Installation& installation, const SignBook& book);

constexpr SimTime kHalfDay = 12 * kHour;
constexpr int kSunday = 7;  ///< ISO 8601: a watch begins on it
constexpr SimTime kShortestWatch = kDay, kLongestWatch = 14 * kDay;

/// Whether an installation can be watched for so long: from 1 to 14 days, in half days. Errors:
/// not, and what is wrong with it in `mistake`, but for what was written.
bool can_be_watched(SimTime until, Diagnostic& mistake);

/// When an installation is watched: from its start on, in half days, and then at a visit.
struct WatchPlan {
  SimTime until = 3 * kDay;
  Visit visit;  ///< begins at `until`
  /// More than that does not go on for an hour: what rings on and on is stopped by whoever hears
  /// it, and the watch ends.
  std::uint64_t most_events_an_hour = UINT64_MAX;
  std::size_t transients = 0;  ///< that a sound run computes: how long one takes, on any machine
  /// Called in each hour of a run, by whichever thread does it; what it throws gives the run up.
  std::function<void()> each_hour;
  /// Spans that signs are told of: the whole, then each half day.
  std::size_t spans() const { return 1 + static_cast<std::size_t>(until / (kHalfDay)); }
  /// The half day that an instant lies in, as a number of span. Range: 0 <= at < until.
  static std::size_t half_day(SimTime at) { return 1 + static_cast<std::size_t>(at / (kHalfDay)); }
};

/// Finds how much goes on in a sound installation, and bears somewhat more.
void plan_watch(const std::shared_ptr<const Installation>& sound, WatchPlan& plan);

/// What was there to be noticed: one number for each sign in each span, spans after each other; NaN
/// where there was nothing that had one (the length of a ring that did not come).
struct Sighting {
  std::vector<float> numbers;
  bool failed = false;  ///< the run did not go on to the end; what was seen until then counts
};

/// Runs an installation through the watch, from where the session stands: what came before was not
/// seen.
Sighting watch(Session& session, const std::vector<SignAt>& signs, const WatchPlan& plan);

}  // namespace sixty::diagnose
