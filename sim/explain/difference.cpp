#include "sim/explain/difference.hpp"

#include <algorithm>
#include <cstdlib>
#include <future>

namespace sixty::explain {
namespace {

/// Until when both run on by themselves before their deeds are held against each other: the first
/// hour every ten minutes, as readings are looked at. The longer, the less one waits for the other.
SimTime next_meeting(SimTime now) { return now + (now < kHour ? 10 * kMinute : kHour); }

bool same_start(const Deed& a, const Deed& b) {
  return a.acted == b.acted && std::abs(a.at - b.at) < kSame;
}

bool same_end(const Deed& a, const Deed& b) { return std::abs(a.last - b.last) < 2 * kSame; }

/// Both began, and one went on: the difference is there where the other ended.
Difference of_length(const Deed& ours, const Deed& theirs) {
  Difference d{ours, ours.last < theirs.last, true};
  d.deed.at = std::min(ours.last, theirs.last) + kSame;
  return d;
}

/// Deeds of one kind of one part that have found no counterpart yet, in order of time.
struct Unmatched {
  std::vector<Deed> ours, theirs;
};

/// Takes out what both did, and what only one did and lies before `until`: later, its counterpart
/// may yet come.
void hold_against(Unmatched& deeds, SimTime until, std::vector<Difference>& differences) {
  Unmatched kept;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < deeds.ours.size() || j < deeds.theirs.size()) {
    const bool both = i < deeds.ours.size() && j < deeds.theirs.size();
    if (both && same_start(deeds.ours[i], deeds.theirs[j])) {
      if (!same_end(deeds.ours[i], deeds.theirs[j]))
        differences.push_back(of_length(deeds.ours[i], deeds.theirs[j]));
      ++i;
      ++j;
      continue;
    }
    const bool is_ours =
        j == deeds.theirs.size() || (both && deeds.ours[i].at <= deeds.theirs[j].at);
    const Deed& deed = is_ours ? deeds.ours[i++] : deeds.theirs[j++];
    if (deed.at < until) {
      differences.push_back({deed, !is_ours, false});
    } else {
      (is_ours ? kept.ours : kept.theirs).push_back(deed);
    }
  }
  deeds = std::move(kept);
}

/// All deeds of both runs, by part and kind.
class Matcher {
 public:
  void add(const std::vector<Deed>& ours, const std::vector<Deed>& theirs) {
    for (const Deed& d : ours) deeds_[{d.part, d.event_kind}].ours.push_back(d);
    for (const Deed& d : theirs) deeds_[{d.part, d.event_kind}].theirs.push_back(d);
  }
  std::vector<Difference> take(SimTime until) {
    std::vector<Difference> all;
    for (auto& [key, deeds] : deeds_) hold_against(deeds, until, all);
    std::stable_sort(all.begin(), all.end(), [](const Difference& a, const Difference& b) {
      return a.deed.at < b.deed.at;
    });
    return all;
  }

 private:
  std::map<std::pair<PartId, std::uint16_t>, Unmatched> deeds_;
};

void enter(const Difference& d, Comparison& comparison) {
  if (d.deed.by_hand) {
    if (!d.missing) comparison.hands.push_back(d.deed);
    return;
  }
  if (!comparison.first) comparison.first = d;
  Tally& tally = comparison.tallies[{d.deed.part, d.deed.kind}];
  ++(d.missing ? tally.missing : tally.extra);
  tally.first = std::min(tally.first, d.deed.at);
}

/// Side by side: neither knows of the other. Errors: as Session::run_until().
void run_both(Session& looked_at, Session& sound, SimTime end) {
  std::future<void> other = std::async(std::launch::async, [&] { sound.run_until(end); });
  looked_at.run_until(end);
  other.get();
}

}  // namespace

Session::Options session_options() {
  Session::Options options;
  options.pool = std::make_shared<circuit::Pool>();
  return options;
}

void run_both(Session& looked_at, Session& sound, SimTime until, const HasCome& has_come) {
  while (looked_at.now() < until) {
    const SimTime end = std::min(looked_at.now() + kHour, until);
    run_both(looked_at, sound, end);
    if (has_come) has_come(end);
  }
}

Comparison compare(Session& looked_at, Session& sound, SimTime until, bool only_first,
                   const HasCome& has_come) {
  Comparison comparison;
  DeedWatch ours, theirs;
  Matcher matcher;
  ReadingWatch readings;
  looked_at.set_sink(&ours);
  sound.set_sink(&theirs);
  for (SimTime end = 0; end < until && !(only_first && comparison.first);) {
    end = std::min(next_meeting(end), until);
    run_both(looked_at, sound, end);
    if (has_come) has_come(end);
    readings.look(looked_at, sound);
    const bool at_end = end == until;
    matcher.add(ours.take(at_end ? kNever : end), theirs.take(at_end ? kNever : end));
    for (const Difference& d : matcher.take(at_end ? kNever : end - 3 * kSecond))
      enter(d, comparison);
  }
  comparison.readings = readings.take();
  looked_at.set_sink(nullptr);
  sound.set_sink(nullptr);
  return comparison;
}

}  // namespace sixty::explain
