#include "gui/bench/moments.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/explain/deeds.hpp"

namespace sixty::gui {
namespace {

constexpr std::array kSpans{kSecond, 10 * kSecond, kMinute, 10 * kMinute, kHour, kDay, kWeek};
constexpr double kNear_s = 0.15;  // so far from a moment time begins to slow
// Pace at a moment, and away from all of them, before the whole is fitted to its time.
constexpr double kSlowest = 0.02, kFastest = 60;
// How long the stretch takes for a minute in which something happens, and for any other.
constexpr double kMinute_s = 10, kQuiet_s = 2;
constexpr int kPieces = 24;  // of a picture's time, in each of which the pace stays

}  // namespace

std::vector<SimTime> moments_in(Session& session, SimTime from, SimTime to) {
  // What goes on from before the span begins nothing there.
  const SimTime lead = std::max<SimTime>(from - explain::kSame, 0);
  std::vector<SimTime> moments;
  for (const explain::Deed& deed : explain::deeds_in(session, lead, to)) {
    if (deed.at >= from) moments.push_back(deed.at);
  }
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

std::optional<SimTime> moment_after(Session& session, SimTime after) {
  SimTime from = after + 1;
  for (const SimTime span : kSpans) {
    const std::vector<SimTime> moments = moments_in(session, from, after + span);
    if (!moments.empty()) return moments.front();
    from = after + span;
  }
  return std::nullopt;
}

std::optional<SimTime> moment_before(Session& session, SimTime before) {
  for (const SimTime span : kSpans) {
    const SimTime from = std::max<SimTime>(before - span, 0);
    const std::vector<SimTime> moments = moments_in(session, from, before - 1);
    if (!moments.empty()) return moments.back();
    if (from == 0) break;
  }
  return std::nullopt;
}

Pace::Pace(std::vector<SimTime> moments, SimTime from, SimTime to, double wall, double quiet_s)
    : from_(from), to_(to), moments_(std::move(moments)) {
  if (moments_.empty())
    scale_ = to_seconds(to_ - from_) / quiet_s;
  else
    scale_ = wall_s(from_, to_) / wall;
}

double Pace::distance_s(SimTime t) const {
  const auto after = std::lower_bound(moments_.begin(), moments_.end(), t);
  SimTime nearest = kNever;
  if (after != moments_.end()) nearest = *after - t;
  if (after != moments_.begin()) nearest = std::min(nearest, t - *std::prev(after));
  return to_seconds(nearest);
}

double Pace::at(SimTime t) const {
  if (moments_.empty()) return scale_;
  return scale_ * std::clamp(distance_s(t) / kNear_s, kSlowest, kFastest);
}

/// Between two moments the pace grows with the distance from the nearer one; its inverse is
/// summed in closed form.
double Pace::wall_s(SimTime a, SimTime b) const {
  if (moments_.empty()) return to_seconds(b - a) / scale_;
  const auto from_moment = [&](double distance) {
    const double slow = kSlowest * kNear_s, fast = kFastest * kNear_s;
    double sum = std::min(distance, slow) / kSlowest;
    if (distance > slow) sum += kNear_s * std::log(std::min(distance, fast) / slow);
    if (distance > fast) sum += (distance - fast) / kFastest;
    return sum;
  };
  double sum = 0;
  // Over each piece in which the same moment is the nearest and lies to one side.
  std::vector<SimTime> cuts{a, b};
  for (std::size_t k = 0; k < moments_.size(); ++k) {
    cuts.push_back(moments_[k]);
    if (k > 0) cuts.push_back(moments_[k - 1] + (moments_[k] - moments_[k - 1]) / 2);
  }
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t k = 1; k < cuts.size(); ++k) {
    const SimTime low = std::clamp(cuts[k - 1], a, b), high = std::clamp(cuts[k], a, b);
    if (high > low) sum += std::fabs(from_moment(distance_s(high)) - from_moment(distance_s(low)));
  }
  return sum / scale_;
}

SimTime StretchedTime::after(Session& session, SimTime t, double wall_s) {
  for (int k = 0; k < kPieces; ++k) {
    if (t < pace_.from() || t >= pace_.to()) {
      const SimTime from = t / kMinute * kMinute;
      pace_ = Pace(moments_in(session, from, from + kMinute), from, from + kMinute, kMinute_s,
                   kQuiet_s);
    }
    t += std::max<SimTime>(std::llround(wall_s / kPieces * pace_.at(t) * 1e9), 1);
  }
  return t;
}

}  // namespace sixty::gui
