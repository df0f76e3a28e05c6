#include "sim/run/faults.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "sim/base/hash.hpp"
#include "sim/base/math.hpp"

namespace sixty {
namespace {

using Kind = Course::Kind;

constexpr std::int64_t kGrowthSteps = 24;  // each is another installation, so they are few

SimTime exponential(double draw, double mean_ns) {
  return std::max<SimTime>(std::llround(-det_log(1 - draw) * mean_ns), 1);
}

void grow(const Course& course, SimTime now, Faults::Put& put) {
  const SimTime step = std::max<SimTime>(course.span / kGrowthSteps, 1);
  const std::int64_t done = std::min((now - put.since) / step, kGrowthSteps);
  put.level = static_cast<double>(done) / static_cast<double>(kGrowthSteps);
  put.changes_at = done < kGrowthSteps ? put.since + (done + 1) * step : kNever;
}

// On and off by turns, each lasting by chance: so the share of the time in force is `amount`, and
// what is left of a turn does not depend on how long it has lasted.
void flicker(const Course& course, const Outlook& outlook, Faults::Put& put) {
  const bool first = put.draws == 0;
  const double draw = outlook.draw(*put.what, put.draws++);
  if (first) {
    put.level = draw < course.amount ? 1 : 0;
  } else {
    put.level = put.level > 0 ? 0 : 1;
  }
  const auto span = static_cast<double>(course.span);
  const double mean_ns = put.level > 0 ? span : span * (1 - course.amount) / course.amount;
  put.changes_at = outlook.now() + exponential(outlook.draw(*put.what, put.draws++), mean_ns);
}

void feel_knocks(const Course& course, const Outlook& outlook, Faults::Put& put) {
  const std::optional<Surroundings> air = outlook.air();
  const std::int64_t knocks = air ? air->knocks : 0;
  if (knocks != put.knocks) {
    put.knocks = knocks;
    put.level = 1;
    put.changes_at = outlook.now() + course.span;
  } else if (put.changes_at <= outlook.now()) {
    put.level = 0;
    put.changes_at = kNever;
  }
}

void keep_hours(const Course& course, const Outlook& outlook, Faults::Put& put) {
  const SimTime time = outlook.time_of_day();
  const auto till = [&](SimTime t) { return (t - time + kDay - 1) % kDay + 1; };
  const SimTime since_from = (time - course.from + kDay) % kDay;
  put.level = since_from < (course.to - course.from + kDay) % kDay ? 1 : 0;
  put.changes_at = outlook.now() + std::min(till(course.from), till(course.to));
}

/// What has come under load goes when next to nothing flows any more: else a fault that itself
/// lessens the current would come and go without end.
constexpr double kLetsGoAt = 0.1;

/// It stays for so long at least: a coil's current goes on flowing for a moment after its way has
/// opened, and would bring it back in the same instant.
constexpr SimTime kHoldsFor = 100 * kMillisecond;

bool holds(const Course& course, const Outlook& outlook, PartId part, bool before) {
  if (course.kind == Kind::kLoad)
    return outlook.load_a(part) > course.amount * (before ? kLetsGoAt : 1);
  const std::optional<Surroundings> air = outlook.air();
  if (!air) return false;
  if (course.kind == Kind::kBelow) return air->temperature_k < course.amount;
  if (course.kind == Kind::kAbove) return air->temperature_k > course.amount;
  return air->humidity > course.amount;
}

void feel_load(const Course& course, const Outlook& outlook, Faults::Put& put) {
  const bool before = put.level > 0;
  if (before && put.changes_at != kNever && put.changes_at > outlook.now()) return;
  const bool after = holds(course, outlook, put.what->part, before);
  put.level = after ? 1 : 0;
  put.changes_at = after && !before ? outlook.now() + kHoldsFor : kNever;
}

bool looks_on(Kind kind) {
  return kind == Kind::kKnocks || kind == Kind::kBelow || kind == Kind::kAbove ||
         kind == Kind::kDamp || kind == Kind::kLoad;
}

void follow_one(const Outlook& outlook, Faults::Put& put) {
  const Course& course = put.what->course;
  const bool due = put.changes_at <= outlook.now();
  switch (course.kind) {
    case Kind::kSteady:
      put.level = 1;
      put.changes_at = kNever;
      break;
    case Kind::kGrowing:
      if (due) grow(course, outlook.now(), put);
      break;
    case Kind::kRandom:
      if (due) flicker(course, outlook, put);
      break;
    case Kind::kKnocks:
      feel_knocks(course, outlook, put);
      break;
    case Kind::kHours:
      if (due) keep_hours(course, outlook, put);
      break;
    case Kind::kLoad:
      feel_load(course, outlook, put);
      break;
    default:
      put.level = holds(course, outlook, put.what->part, put.level > 0) ? 1 : 0;
      put.changes_at = kNever;
      break;
  }
}

bool has(const std::vector<std::size_t>& commands, std::size_t command) {
  return std::find(commands.begin(), commands.end(), command) != commands.end();
}

}  // namespace

void Faults::put(std::shared_ptr<const Injection> what, const Outlook& outlook) {
  Put put;
  put.since = put.changes_at = outlook.now();
  const std::optional<Surroundings> air = outlook.air();
  put.knocks = air ? air->knocks : 0;
  if (what->course.kind == Kind::kKnocks) put.changes_at = kNever;
  put.what = std::move(what);
  follow_one(outlook, put);
  for (Put& there : put_) {
    const bool same =
        there.what->fault->name == put.what->fault->name && there.what->part == put.what->part;
    if (!same) continue;
    there = std::move(put);
    return;
  }
  put_.push_back(std::move(put));
}

void Faults::clear(const Fault& fault, PartId part) {
  put_.erase(std::remove_if(put_.begin(), put_.end(),
                            [&](const Put& p) {
                              return p.what->fault->name == fault.name && p.what->part == part;
                            }),
             put_.end());
}

bool Faults::tend(PartId part, std::size_t command, SimTime now) {
  const std::size_t before = put_.size();
  put_.erase(std::remove_if(put_.begin(), put_.end(),
                            [&](const Put& p) {
                              return p.what->part == part && has(p.what->fault->cured_by, command);
                            }),
             put_.end());
  bool tended = put_.size() != before;
  for (Put& p : put_) {
    if (p.what->part != part || !has(p.what->fault->eased_by, command)) continue;
    p.since = p.changes_at = now;
    p.level = 0;
    tended = true;
  }
  return tended;
}

SimTime Faults::next_change() const {
  SimTime next = kNever;
  for (const Put& p : put_) next = std::min(next, p.changes_at);
  return next;
}

bool Faults::watches() const {
  return std::any_of(put_.begin(), put_.end(),
                     [](const Put& p) { return looks_on(p.what->course.kind); });
}

bool Faults::follow(const Outlook& outlook) {
  bool changed = false;
  for (Put& p : put_) {
    const double before = p.level;
    follow_one(outlook, p);
    changed = changed || p.level != before;
  }
  return changed;
}

std::uint64_t Faults::state_hash() const {
  std::uint64_t h = put_.size();
  for (const Put& p : put_) {
    h = mix(mix(h, hash_text(p.what->fault->name)), p.what->part);
    h = mix(mix(h, static_cast<std::uint64_t>(p.since)), static_cast<std::uint64_t>(p.changes_at));
    h = mix(mix(h, std::bit_cast<std::uint64_t>(p.severity())), p.draws);
  }
  return h;
}

}  // namespace sixty
