#include "sim/run/session.hpp"

#include <algorithm>
#include <map>

#include "sim/run/world.hpp"

namespace sixty {
namespace {

constexpr SimTime kFirstKeyframeSpacing = kHour;
constexpr SimTime kBeforeStart = -1;  // what happens at 0 has not happened yet

}  // namespace

struct Session::Snapshot {
  WorldData data;
};

/// A session's engine with its log of actions and its saved moments.
class Session::World {
 public:
  World(std::shared_ptr<const Installation> made, Options chosen)
      : installation(std::move(made)),
        options(std::move(chosen)),
        engine(installation, options),
        log(installation->script) {
    engine.begin();
    engine.data().now = kBeforeStart;
    keep_keyframe();
  }

  bool run_until(SimTime until, const StopHere& stop_here) {
    while (engine.data().now < until) {
      const SimTime stop = std::min(until, next_keyframe);
      if (!run_events(stop, stop_here)) return false;
      engine.data().now = stop;
      if (stop == next_keyframe) keep_keyframe();
    }
    return true;
  }

  bool seek(SimTime time, const StopHere& stop_here = nullptr) {
    const auto later = std::upper_bound(
        keyframes.begin(), keyframes.end(), time,
        [](SimTime t, const std::shared_ptr<const Snapshot>& k) { return t < k->data.now; });
    const Snapshot& nearest = **std::prev(later);
    if (time < engine.data().now || nearest.data.now > engine.data().now) adopt(nearest);
    return run_until(time, stop_here);
  }

  SimTime replace_log(std::vector<Action> other) {
    const auto [mine, theirs] = std::mismatch(log.begin(), log.end(), other.begin(), other.end());
    const SimTime from = std::min(mine == log.end() ? kNever : mine->at,
                                  theirs == other.end() ? kNever : theirs->at);
    if (from == kNever) return kNever;
    while (keyframes.size() > 1 && keyframes.back()->data.now >= from) keyframes.pop_back();
    const bool is_past = engine.data().now >= from;
    if (is_past) seek(from - 1);
    log = std::move(other);
    adopt(Snapshot{engine.data()});
    return from;
  }

  void adopt(const Snapshot& snapshot) {
    engine.data() = snapshot.data;
    engine.forget_views();
    next_action = static_cast<std::size_t>(
        std::upper_bound(log.begin(), log.end(), engine.data().now,
                         [](SimTime t, const Action& a) { return t < a.at; }) -
        log.begin());
    next_keyframe = following_keyframe();
  }

  bool act(Action action) {
    if (action.at < engine.data().now) return false;
    // The present instant is over; an action "now" comes right behind it, also when replayed.
    if (action.at == engine.data().now) ++action.at;
    const auto place = std::upper_bound(log.begin(), log.end(), action.at,
                                        [](SimTime t, const Action& a) { return t < a.at; });
    log.insert(place, action);
    while (keyframes.size() > 1 && keyframes.back()->data.now >= action.at) keyframes.pop_back();
    next_keyframe = following_keyframe();
    return true;
  }

  SimTime next_change() const {
    const SimTime acts = next_action < log.size() ? log[next_action].at : kNever;
    return std::min({engine.data().calendar.next_time(), engine.next_course(), acts});
  }

  std::size_t saved_moments() const { return keyframes.size(); }

  std::shared_ptr<const Installation> installation;
  Options options;
  Engine engine;
  std::vector<Action> log;

 private:
  bool run_events(SimTime stop, const StopHere& stop_here) {
    const Calendar& calendar = engine.data().calendar;
    for (;;) {
      const SimTime next = calendar.next_time();
      const SimTime course = engine.next_course();
      if (next_action < log.size() && log[next_action].at <= std::min({next, stop, course})) {
        engine.show_steps(std::min(log[next_action].at - 1, stop));
        engine.act(log[next_action++]);
        continue;
      }
      if (course <= std::min(next, stop)) {
        engine.show_steps(course - 1);
        engine.follow_courses(course);
        continue;
      }
      if (next > engine.data().now && stop_here && stop_here()) return false;
      engine.show_steps(std::min(next - 1, stop));
      if (next > stop) return true;
      const SimTime acted = next_action < log.size() ? log[next_action].at - 1 : stop;
      engine.step(std::min({stop, acted, course - 1}));
    }
  }

  SimTime following_keyframe() const {
    const SimTime now = engine.data().now;
    const SimTime last = keyframes.empty() ? 0 : keyframes.back()->data.now;
    return std::max(last, now / spacing * spacing) + spacing;
  }

  void keep_keyframe() {
    keyframes.push_back(std::make_shared<const Snapshot>(Snapshot{engine.data()}));
    const std::size_t each = sizeof(WorldData) + engine.data().arena.size() + 4096;
    if (keyframes.size() * each > options.keyframe_bytes && keyframes.size() > 8) {
      // Every second one goes but the first, from before the start: there is always one to go back
      // to. Those that stay lie at multiples of the new spacing.
      spacing *= 2;
      const SimTime grid = spacing;
      keyframes.erase(std::remove_if(std::next(keyframes.begin()), keyframes.end(),
                                     [grid](const auto& k) { return k->data.now % grid != 0; }),
                      keyframes.end());
    }
    next_keyframe = following_keyframe();
  }

  std::vector<std::shared_ptr<const Snapshot>> keyframes;
  SimTime spacing = kFirstKeyframeSpacing;
  SimTime next_keyframe = 0;
  std::size_t next_action = 0;
};

Session::Session(std::shared_ptr<const Installation> installation)
    : Session(std::move(installation), Options{}) {}
Session::Session(std::shared_ptr<const Installation> installation, Options options)
    : world_(std::make_unique<World>(std::move(installation), std::move(options))) {}
Session::~Session() = default;

SimTime Session::now() const { return std::max<SimTime>(0, world_->engine.data().now); }
void Session::run_until(SimTime until) { world_->run_until(until, nullptr); }
bool Session::run_until(SimTime until, const StopHere& stop_here) {
  return world_->run_until(until, stop_here);
}
void Session::seek(SimTime time) { seek(time, nullptr); }
bool Session::seek(SimTime time, const StopHere& stop_here) {
  return world_->seek(std::max(time, kBeforeStart), stop_here);
}
bool Session::act(Action action) { return world_->act(std::move(action)); }
const std::vector<Action>& Session::log() const { return world_->log; }
SimTime Session::replace_log(std::vector<Action> log) {
  return world_->replace_log(std::move(log));
}

std::shared_ptr<const Session::Snapshot> Session::save() const {
  return std::make_shared<const Snapshot>(Snapshot{world_->engine.data()});
}

void Session::restore(const std::shared_ptr<const Snapshot>& snapshot) { world_->adopt(*snapshot); }

std::uint64_t Session::state_hash() const { return world_->engine.data().state_hash(); }
void Session::set_sink(TraceSink* sink) { world_->engine.set_sink(sink); }
double Session::read(PartId part, std::size_t reading) {
  return world_->engine.reading(part, reading);
}

void Session::draw(PartId part, const Pose& at, Figure& figure) {
  world_->engine.draw_figure(part, at, figure);
}

Report Session::report() {
  Report report;
  std::map<std::string, std::string> room_of;
  const std::vector<PartInstance>& parts = world_->installation->parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    world_->engine.report(p, report);
    if (!parts[p].room.empty()) room_of[parts[p].name] = parts[p].room;
  }
  report.tell_rooms(room_of);
  return report;
}

const Installation& Session::installation() const { return *world_->installation; }
const Installation& Session::build() const { return *world_->engine.data().build->installation; }

Session::CircuitNow Session::circuit() const {
  return {*world_->engine.data().network.network, world_->engine.look()};
}

SimTime Session::next_change() const { return world_->next_change(); }

std::uint64_t Session::events() const { return world_->engine.data().handled; }
std::size_t Session::transients_computed() const { return world_->engine.memo().computed(); }
void Session::keep_transients() { world_->engine.memo().keep_for_good(); }
void Session::forget_later_transients() {
  world_->engine.memo().forget_the_rest();
  world_->engine.builds().forget();
}
std::size_t Session::keyframes() const { return world_->saved_moments(); }

}  // namespace sixty
