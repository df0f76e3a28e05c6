#pragma once

#include <vector>

#include "sim/run/session.hpp"

namespace sixty::gui {

/// One sound of a part.
struct Heard {
  PartId part = 0;
  std::size_t voice = 0;  ///< which of the part's voices
  double strength = 0;    ///< amplitude, 0 .. 2
  double after_s = 0;     ///< of the wall, since the run went on
};

/// What was heard while the run went on for a moment.
struct Hearing {
  double lasts_s = 0;  ///< of the wall
  std::vector<Heard> heard;
};

/// How many sounds a second of the wall are let through at most at a speed, and how loud.
double most_heard(double speed);
double loudness_at(double speed);

/// Listens to a session while it goes on. The faster it goes, the less is let through: the loudest
/// of each part, and softer; where a moment of the wall is long in the scene, only the end of it is
/// listened to, so that hearing never slows a run down.
class Ear final : public TraceSink {
 public:
  explicit Ear(const Installation& installation);

  /// Runs the session on up to `until`, as Session::run_until does, and listens. `lasts_s`: how
  /// much of the wall that stands for; 0: a single step. Range: speed > 0.
  bool run(Session& session, SimTime until, double speed, double lasts_s,
           const Session::StopHere& stop_here);
  /// What was heard in the last run.
  const Hearing& hearing() const { return hearing_; }

  void record(const TraceRecord& record) override;
  bool full() const override { return false; }
  bool steps() const override { return true; }

 private:
  void keep_loudest(double speed);

  std::vector<std::vector<Voice>> voices_;  ///< of each part
  Hearing hearing_;
  SimTime from_ = 0;
  double speed_ = 1;
  double allowed_ = 0;  ///< sounds that may still be let through
};

}  // namespace sixty::gui
