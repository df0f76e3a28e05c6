#include "sim/instruments/beat_timer.hpp"

#include <algorithm>
#include <cmath>

#include "sim/instruments/uncertainty.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::instruments {
namespace {

constexpr double kSecondsOfHour = 3600, kSecondsOfDay = 86400;

}  // namespace

BeatTimer::BeatTimer(const Installation& installation, PartId part) : part_(part) {
  for (const EventDecl& e : installation.parts[part].kind->declaration.events) {
    if (e.step) steps_.push_back(e.kind);
  }
}

void BeatTimer::record(const TraceRecord& record) {
  if (record.part != part_ || !record.acted || record.located != nullptr) return;
  if (std::find(steps_.begin(), steps_.end(), record.event.kind) != steps_.end())
    at_.push_back(record.event.at);
}

/// Since the first beat, as the timer tells it.
double BeatTimer::told_s(std::size_t k) const {
  return to_step(to_seconds(at_[k] - at_[0]), kResolution_s);
}

std::optional<BeatReading> BeatTimer::reading(double beats_per_hour) const {
  if (at_.size() < 3) return std::nullopt;
  BeatReading r;
  r.beats = static_cast<std::int64_t>(at_.size());
  double sum[2] = {0, 0};
  std::int64_t count[2] = {0, 0};
  for (std::size_t k = 1; k < at_.size(); ++k) {
    sum[k % 2] += told_s(k) - told_s(k - 1);
    ++count[k % 2];
  }
  r.tick_s = sum[1] / static_cast<double>(count[1]);
  r.tock_s = sum[0] / static_cast<double>(count[0]);
  r.beat_error_s = std::fabs(r.tick_s - r.tock_s) / 2;
  // An even number of intervals, lest a clock out of beat seem to gain or lose.
  const std::size_t even = (at_.size() - 1) / 2 * 2;
  const double span_s = told_s(even) - told_s(0);
  const double per_hour = static_cast<double>(even) * kSecondsOfHour / span_s;
  r.beats_per_hour = beats_per_hour > 0 ? beats_per_hour : to_step(per_hour, 60);
  r.rate_s_per_day = (per_hour / r.beats_per_hour - 1) * kSecondsOfDay;
  const double of_span = kResolution_s / 2 / span_s;
  r.rate_uncertainty = expanded_uncertainty({of_span, of_span, kCrystal}) * kSecondsOfDay;
  // Equal beats are rounded alike, so the mean of many is no better than one of them.
  r.interval_uncertainty_s = expanded_uncertainty({kResolution_s / 2, kResolution_s / 2});
  return r;
}

std::optional<double> read_arc(Session& session, PartId part) {
  const std::vector<NamedDecl>& readings =
      session.installation().parts[part].kind->declaration.readings;
  const std::size_t arc = index_of(readings, kArcReading);
  if (arc == readings.size()) return std::nullopt;
  return to_step(session.read(part, arc), BeatTimer::kArcStep_rad);
}

}  // namespace sixty::instruments
