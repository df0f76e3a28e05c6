#include "sim/exhibit/follower.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace sixty::exhibit {
namespace {

constexpr double kLeastMoved_s = 2;  // less is a slow machine, or a clock kept right
constexpr double kMostHurry = 0.2;   // of true speed, to make good what is off
constexpr double kWithin_s = 2;      // it is to be made good

/// How many full minutes begin behind the one instant and not behind the other.
std::int64_t minutes_between(const CalendarTime& a, const CalendarTime& b) {
  const auto minute = [](const CalendarTime& t) {
    return t.day * (kDay / kMinute) + t.ns_of_day / kMinute;
  };
  return std::abs(minute(b) - minute(a));
}

}  // namespace

SimTime between(const CalendarTime& a, const CalendarTime& b) {
  return (b.day - a.day) * kDay + b.ns_of_day - a.ns_of_day;
}

SimTime Follower::place(const CalendarTime& shown) const {
  const SimTime since = between(start_, shown) % kWeek;
  return since < 0 ? since + kWeek : since;
}

Follower::Order Follower::follow(const CalendarTime& shown, SimTime run) {
  const SimTime to = place(shown);
  SimTime off = (to - run) % kWeek;
  if (off > kWeek / 2) off -= kWeek;
  if (off < -kWeek / 2) off += kWeek;
  if (last_) {
    const SimTime gone = between(*last_, shown);
    if (std::fabs(to_seconds(gone)) > kLeastMoved_s * rate_) {
      moved_ = {gone, minutes_between(*last_, shown)};
      if (gone < -kWasWrong) rung_.reset();
    }
  }
  last_ = shown;
  hushed_ = rung_ && between(*rung_, shown) < 0;
  if (!hushed_) rung_ = shown;
  const double off_s = to_seconds(off) / rate_;  // of the wall
  if (std::fabs(off_s) > to_seconds(kFar) || run >= kWeek) return {to, rate_};
  if (std::fabs(off_s) < to_seconds(kClose)) return {std::nullopt, rate_};
  const double hurry = std::clamp(off_s / kWithin_s, -kMostHurry, kMostHurry);
  return {std::nullopt, rate_ * (1 + hurry)};
}

std::optional<Follower::Moved> Follower::take_moved() {
  return std::exchange(moved_, std::nullopt);
}

}  // namespace sixty::exhibit
