#pragma once

#include <optional>
#include <vector>

#include "sim/base/math.hpp"
#include "sim/run/session.hpp"

namespace sixty::instruments {

/// Timer with a microphone on the case, and a look at the arc's scale.
struct BeatReading {
  std::int64_t beats = 0;
  double tick_s = 0, tock_s = 0;  ///< means of every other interval
  double beat_error_s = 0;        ///< half their difference
  double beats_per_hour = 0;      ///< that the rate is told against
  double rate_s_per_day = 0, rate_uncertainty = 0;
  double interval_uncertainty_s = 0;
  std::optional<double> arc_rad;  ///< semi-arc, to a twentieth of a degree
};

/// Hears the steps that a part takes by itself. Instants are told to a tenth of a millisecond, by a
/// crystal that is right to 1 ppm; common practice, no source.
class BeatTimer final : public TraceSink {
 public:
  static constexpr double kResolution_s = 1e-4;
  static constexpr double kCrystal = 1e-6;
  static constexpr double kArcStep_rad = 0.05 * kPi / 180;

  BeatTimer(const Installation& installation, PartId part);
  /// Whether the part has anything to be heard so.
  bool any_steps() const { return !steps_.empty(); }
  void record(const TraceRecord& record) override;
  /// `beats_per_hour`: 0 for the whole minute's number that comes nearest.
  /// Errors: nothing while fewer than three beats were heard.
  std::optional<BeatReading> reading(double beats_per_hour) const;

 private:
  double told_s(std::size_t k) const;

  PartId part_;
  std::vector<std::uint16_t> steps_;
  std::vector<SimTime> at_;
};

/// The part's semi-arc as it is read off its scale; nothing where it has none.
std::optional<double> read_arc(Session& session, PartId part);

}  // namespace sixty::instruments
