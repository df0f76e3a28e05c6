#pragma once

#include <optional>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::gui {

/// When something begins that is worth a look: an armature sets out or arrives, a contact is
/// worked, a wire melts, a hand acts. What goes on for a while, as ringing does, begins once.
/// Units: ns, in order. The session stands where it stood.
std::vector<SimTime> moments_in(Session& session, SimTime from, SimTime to);
/// The first of them behind an instant, or the last before it, within a week.
std::optional<SimTime> moment_after(Session& session, SimTime after);
std::optional<SimTime> moment_before(Session& session, SimTime before);

/// How fast time is to go in a stretch of it, so that it slows by itself round its moments.
class Pace {
 public:
  Pace() = default;
  /// The whole stretch takes `wall_s`; without moments no more than `quiet_s`.
  Pace(std::vector<SimTime> moments, SimTime from, SimTime to, double wall_s, double quiet_s);
  SimTime from() const { return from_; }
  SimTime to() const { return to_; }
  /// Seconds of the scene to one of the wall. Range: from <= t < to.
  double at(SimTime t) const;
  /// How long the way from one instant to another takes. Units: s of the wall.
  double wall_s(SimTime a, SimTime b) const;

 private:
  double distance_s(SimTime t) const;
  SimTime from_ = 0, to_ = 0;
  std::vector<SimTime> moments_;
  double scale_ = 1;
};

/// Time that runs fast through quiet and slows by itself round what happens, so that a minute in
/// which anything does takes about ten seconds. Its pace is known a minute at a time.
class StretchedTime {
 public:
  /// Where it has come to from `t` on after so long. The session stands where it stood.
  /// Units: s of the wall.
  SimTime after(Session& session, SimTime t, double wall_s);
  /// What is known of the pace is no longer so.
  void forget() { pace_ = {}; }

 private:
  Pace pace_;
};

}  // namespace sixty::gui
