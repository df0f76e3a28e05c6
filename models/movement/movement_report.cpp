// What the clock says of itself: readings and report. Nothing here changes it.
#include <fmt/format.h>

#include <cmath>

#include "models/movement/movement.hpp"
#include "sim/base/math.hpp"

namespace sixty::models {
namespace {

constexpr double kDaySeconds = 86400;
constexpr SimTime kBeatShown = kSecond;  // what a step of the wheel adds to the dial
// Half a minute wrong, a clock shows another minute, and impulses come in the wrong one.
constexpr double kWrongSeconds = 30;

std::string fast_or_slow(double error_s) {
  return fmt::format("{:.2f} s {}", std::fabs(error_s), error_s < 0 ? "slow" : "fast");
}

std::string gaining_or_losing(double rate) {
  return fmt::format("{} {:.2f} s a day", rate < 0 ? "losing" : "gaining", std::fabs(rate));
}

}  // namespace

double Movement::energy_now(const MovementState& s, SimTime now) const {
  if (s.going != Going::kTooSmall || now <= s.now.dead_ns) return s.now.energy_j;
  const double swings = static_cast<double>(now - s.now.dead_ns) / s.beat.half_ns;
  return s.now.energy_j * det_pow(s.beat.keep, swings);
}

// Drop on one side to the drop on the other: the half period with what the push delays, lengthened
// or shortened by how much farther behind the dead point the second drop lies.
double Movement::interval_s(const MovementState& s, const Torques& t, double energy_j,
                            std::int64_t side) const {
  const Beat& b = s.beat;
  Swing now = s.now;
  now.energy_j = energy_j;
  return half_period_ns(b, t, now) * 1e-9 + drop_delay_s(b, 1 - side, energy_j) -
         drop_delay_s(b, side, energy_j);
}

// Against what clocks on the wall show, which may have gone forward or back.
double Movement::shown_error_s(const MovementState& s, const Reader& r) const {
  const SimTime shift = r.civil_shift(r.now());
  if (s.going == Going::kBeats) {
    return to_seconds(shown(s) + kBeatShown - next_drop(s.beat, s.now) - shift);
  }
  return to_seconds(shown(s) - r.now() - shift);
}

double Movement::measured_rate(const MovementState& s, SimTime now) const {
  const SimTime until = s.going == Going::kBeats ? s.now.dead_ns : now;
  const SimTime passed = until - s.first_dead_ns;
  if (passed <= 0) return 0;
  const SimTime shown = (s.now.beats - s.first_beats) * kBeatShown;
  return static_cast<double>(shown - passed) / static_cast<double>(passed) * kDaySeconds;
}

double Movement::rate_now(const MovementState& s, const Torques& t) const {
  return kDaySeconds * (static_cast<double>(kBeatShown) / half_period_ns(s.beat, t, s.now) - 1);
}

double Movement::read(std::size_t reading, const Reader& r) const {
  const MovementState& s = r.state(state_);
  const Torques t = torques(s, r);
  const double energy = energy_now(s, r.now());
  switch (reading) {
    case kArc:
      return semi_arc_rad(s.beat, energy);
    case kRate:
      return s.going == Going::kBeats ? rate_now(s, t) : -kDaySeconds;
    case kTick:
      return interval_s(s, t, energy, 0);
    case kTock:
      return interval_s(s, t, energy, 1);
    case kBeatError:
      return std::fabs(interval_s(s, t, energy, 0) - interval_s(s, t, energy, 1)) / 2;
    case kShownError:
      return shown_error_s(s, r);
    case kEscapeTorque:
      return t.per_step_nm * s.now.wound;
    case kPosition:
      return static_cast<double>(s.now.beats);
    case kPendulumAngle:
      return pendulum_rad(s, r);
    case kWheelAngle:
      return wheel_rad(s, r);
    default:
      return s.temperature_k;
  }
}

void Movement::report(Report& report, const Reader& r) const {
  const MovementState& s = r.state(state_);
  const double energy = energy_now(s, r.now());
  Row row;
  row.put("rate_s_per_day", measured_rate(s, r.now()), "s/day");
  row.put("semi_arc_deg", semi_arc_rad(s.beat, energy) / kDegree, "deg");
  row.put("beat_error_ms", read(kBeatError, r) * 1e3, "ms");
  if (s.still_since == kNever) {
    row.nothing("stopped_at");
  } else {
    row.text("stopped_at", r.clock_text(s.still_since, 0));
  }
  row.text("shows", r.dial_text(shown(s), 0));
  row.put("error_s", shown_error_s(s, r), "s");
  MovementState until_now = s;
  goes_again(r, until_now);
  report.missed(name_ + ": the hands stood", until_now.stood.text(r));
  if (report.one_of("master", "masters", name_, row)) report.object("").count("beats", s.now.beats);
  say(report, r);
}

void Movement::say(Report& report, const Reader& r) const {
  const MovementState& s = r.state(state_);
  const double energy = energy_now(s, r.now());
  const double error = shown_error_s(s, r);
  const std::string shows = r.dial_text(shown(s), 0);
  if (s.going == Going::kBeats) {
    const std::string since =
        s.first_beats == 0 ? "over the run" : "since " + r.clock_text(s.first_dead_ns, 0);
    report.say(kTimeKeptHeading,
               fmt::format("{}: shows {}, {}; {} {}.", name_, shows, fast_or_slow(error),
                           gaining_or_losing(measured_rate(s, r.now())), since));
    if (std::fabs(error) >= kWrongSeconds) {
      report.warn(fmt::format("{}: shows {}, {}.", name_, shows, fast_or_slow(error)));
    }
    report.say(kTimeKeptHeading,
               fmt::format("{}: semi-arc {:.2f} deg, tick {:.1f} ms, tock {:.1f} ms.", name_,
                           semi_arc_rad(s.beat, energy) / kDegree, read(kTick, r) * 1e3,
                           read(kTock, r) * 1e3));
    return;
  }
  const char* why = s.going == Going::kStands ? "the wheel does not overcome the drag on its arbor"
                    : s.going == Going::kTooSmall ? "the swing lets no tooth escape"
                                                  : "the pendulum is not swinging";
  const std::string sentence =
      fmt::format("{}: hands stand at {} since {}: {}; semi-arc {:.2f} deg.", name_, shows,
                  r.clock_text(s.still_since, 0), why, semi_arc_rad(s.beat, energy) / kDegree);
  report.say(kTimeKeptHeading, sentence);
  report.warn(sentence);
}

}  // namespace sixty::models
