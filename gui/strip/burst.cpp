#include "gui/strip/burst.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr std::array kSpans{2 * kSecond, kMinute + 5 * kSecond, kHour};
constexpr SimTime kSoonAfter = kMillisecond;   // an event shows in a current that rises
constexpr SimTime kAtOnce = 2 * kMillisecond;  // as a contact that bounces
constexpr double kShare = 0.03;                // of the largest value: less is no change
constexpr SimTime kLook = kMillisecond;        // apart, while it is seen whether a value changes
constexpr double kShareOfLook = 0.005;         // of the largest value: in that time no change
constexpr SimTime kQuiet = 5 * kMillisecond;   // without a change: it has come to rest
// A coil is through with a change by then; what goes on for longer is the ripple of its feed. What
// moves has all the time that a burst may last.
constexpr SimTime kLongestChange = 120 * kMillisecond;
constexpr SimTime kTail = 15 * kMillisecond;  // behind the end, at least
constexpr std::array kLengths{20 * kMillisecond,  50 * kMillisecond,  100 * kMillisecond,
                              200 * kMillisecond, 500 * kMillisecond, kSecond,
                              2 * kSecond};
constexpr SimTime kLastOfLong = 500 * kMillisecond, kStepOfLong = 100 * kMillisecond;

/// What may belong to a burst.
struct Stir {
  SimTime at = 0;
  PartId by = 0;
  std::string kind;
  bool own = false;   ///< of the lane's part
  double change = 0;  ///< of the lane's value
};

class Listener final : public TraceSink {
 public:
  explicit Listener(PartId part) : part_(part) {}
  bool full() const override { return false; }
  void record(const TraceRecord& record) override {
    const bool own = record.part == part_;
    if (own) heard_.push_back({record.event.at, std::string(record.kind)});
    stir_ = {record.event.at, record.part, std::string(record.kind), own || stir_.own, 0};
    any_ = true;
  }
  /// What has been recorded since, as one; nothing: nothing has.
  std::optional<Stir> take() {
    if (!any_) return std::nullopt;
    const Stir taken = stir_;
    stir_ = {};
    any_ = false;
    return taken;
  }
  const std::vector<Burst::Event>& heard() const { return heard_; }

 private:
  PartId part_;
  Stir stir_;
  bool any_ = false;
  std::vector<Burst::Event> heard_;
};

/// All that stirs a lane in a while, and what its part did.
struct Stirs {
  std::vector<Stir> all;
  std::vector<Burst::Event> own;
};

class Search {
 public:
  Search(Session& session, const LaneOf& lane) : session_(session), lane_(lane) {}

  Stirs between(SimTime from, SimTime to) {
    Listener listener(lane_.part);
    Stirs stirs;
    double largest = 0, at_rest = 0;  // before all that goes on at once
    SimTime last = from - kAtOnce;
    std::size_t first = 0;  // of what does
    session_.seek(from);
    session_.set_sink(&listener);
    while (session_.now() < to) {
      const SimTime next = session_.next_change();
      session_.run_until(std::min(next == kNever ? to : next - 1, to));
      const double before = value_of(session_, lane_);
      largest = std::max(largest, std::fabs(before));
      if (session_.now() >= to || next > to) break;
      session_.run_until(next);
      std::optional<Stir> stir = listener.take();
      if (!stir) continue;
      const SimTime after = session_.next_change();
      session_.run_until(std::min({next + kSoonAfter, after - 1, to}));
      const double value = value_of(session_, lane_);
      largest = std::max(largest, std::fabs(value));
      stir->change = std::fabs(value - before);
      if (next - last >= kAtOnce) {
        first = stirs.all.size();
        at_rest = before;
      }
      last = next;
      stirs.all.push_back(std::move(*stir));
      // What it adds up to begins with the first of them.
      Stir& begins = stirs.all[first];
      begins.change = std::max(begins.change, std::fabs(value - at_rest));
    }
    session_.set_sink(nullptr);
    std::erase_if(stirs.all, [&](const Stir& s) { return !s.own && s.change <= kShare * largest; });
    stirs.own = listener.heard();
    return stirs;
  }

 private:
  Session& session_;
  const LaneOf& lane_;
};

/// Tells of each look whether one of some lanes has changed since the one before.
class Changes {
 public:
  Changes(Session& session, std::span<const LaneOf> lanes)
      : session_(session), lanes_(lanes), last_(lanes.size()), largest_(lanes.size()) {
    for (std::size_t k = 0; k < lanes_.size(); ++k) last_[k] = value_of(session_, lanes_[k]);
  }
  /// `since`: the last event. Range: at least one look a millisecond.
  bool look(SimTime since) {
    bool changed = false;
    for (std::size_t k = 0; k < lanes_.size(); ++k) {
      const double value = value_of(session_, lanes_[k]);
      largest_[k] = std::max({largest_[k], std::fabs(value), std::fabs(last_[k])});
      const bool by_much = std::fabs(value - last_[k]) > kShareOfLook * largest_[k];
      const bool moves = reading_of(session_.installation(), lanes_[k]).unit == "m";
      if (by_much && since <= (moves ? kLongest : kLongestChange)) changed = true;
      last_[k] = value;
    }
    return changed;
  }

 private:
  Session& session_;
  std::span<const LaneOf> lanes_;
  std::vector<double> last_, largest_;
};

/// Until when any of the lanes goes on changing behind an event, as far as `now`.
SimTime end_of_change(Session& session, std::span<const LaneOf> lanes, SimTime event, SimTime now) {
  session.seek(event);
  Changes changes(session, lanes);
  SimTime changed = event;
  for (SimTime at = event; at < now && at - changed < kQuiet;) {
    at = std::min(at + kLook, now);
    session.run_until(at);
    if (changes.look(at - event)) changed = at;
  }
  // If it has not been at rest for long enough, it may not be over.
  return now - changed < kQuiet ? now : changed;
}

/// The last of them that no pause divides.
Burst last_of(const Stirs& stirs) {
  std::size_t first = stirs.all.size() - 1;
  while (first > 0 && stirs.all[first].at - stirs.all[first - 1].at <= kPause) --first;
  const Stir& begins = stirs.all[first];
  Burst burst{begins.at, stirs.all.back().at, begins.by, begins.kind, {}};
  for (const Burst::Event& event : stirs.own) {
    if (event.at >= burst.begins) burst.events.push_back(event);
  }
  return burst;
}

}  // namespace

std::optional<Burst> burst_before(Session& session, std::span<const LaneOf> lanes, SimTime now) {
  const std::shared_ptr<const Session::Snapshot> moment = session.save();
  std::optional<Burst> found;
  for (const SimTime span : kSpans) {
    const SimTime from = std::max<SimTime>(now - span, 0);
    const Stirs stirs = Search(session, lanes.front()).between(from, now);
    if (!stirs.all.empty()) found = last_of(stirs);
    // One that may have begun before is looked for farther back.
    if (from == 0 || (found && found->begins - from > kPause)) break;
  }
  if (found) found->ends = end_of_change(session, lanes, found->ends, now);
  session.restore(moment);
  return found;
}

Stretched window_of(const Burst& burst, SimTime now) {
  const SimTime lasts = std::min(burst.ends, now) - burst.begins;
  if (lasts > kLongest)
    return {(burst.ends - 4 * kLastOfLong / 5) / kStepOfLong * kStepOfLong, kLastOfLong};
  const SimTime shown = std::min(now - burst.begins, lasts + std::max(lasts / 2, kTail));
  SimTime length = kLengths.back();
  for (const SimTime one : kLengths) {
    if (4 * one / 5 < shown) continue;
    length = one;
    break;
  }
  return {burst.begins - length / 10, length};
}

}  // namespace sixty::gui
