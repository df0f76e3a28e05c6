#include "gui/bench/runner.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace sixty::gui {
namespace {

using Clock = std::chrono::steady_clock;

constexpr double kTravelSlice_s = 0.05;
constexpr double kSlice_s = 0.012;     // of the wall, between two pictures
constexpr double kMostAtOnce_s = 0.1;  // of the wall, made good after a stall
constexpr SimTime kLookBack[] = {10 * kMillisecond, kSecond, kMinute, kHour, kDay, kWeek};

double seconds_since(Clock::time_point then) {
  return std::chrono::duration<double>(Clock::now() - then).count();
}

std::vector<double> readings_of(Session& session, PartId part) {
  std::vector<double> values;
  const std::size_t count = session.installation().parts[part].kind->declaration.readings.size();
  for (std::size_t k = 0; k < count; ++k) values.push_back(session.read(part, k));
  return values;
}

std::vector<double> values_of(Session& session, const std::vector<LaneOf>& lanes) {
  std::vector<double> values;
  for (const LaneOf& lane : lanes) values.push_back(value_of(session, lane));
  return values;
}

}  // namespace

Runner::Runner(const std::shared_ptr<const Installation>& installation, SimTime at,
               std::shared_ptr<const Installation> sound, const std::vector<Action>& actions,
               double patience_s)
    : session_(installation),
      stage_(*installation),
      sound_(std::move(sound)),
      ear_(*installation),
      captions_(*installation) {
  std::vector<Action> log = session_.log();
  log.insert(log.end(), actions.begin(), actions.end());
  std::stable_sort(log.begin(), log.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  session_.replace_log(std::move(log));
  const Clock::time_point begun = Clock::now();
  const bool arrived = session_.seek(at, [&] { return seconds_since(begun) > patience_s; });
  take_log(session_.now());
  publish();
  if (!arrived) {
    heads_for_ = at;
    asked_.push_back({Ask::What::kJump, at, {}, {}});
    ++asks_;
  }
  thread_ = std::thread([this] { loop(); });
}

Runner::~Runner() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Runner::set_speed(double speed) {
  const std::lock_guard lock(mutex_);
  speed_ = speed;
}

void Runner::set_running(bool running) {
  {
    const std::lock_guard lock(mutex_);
    running_ = running;
  }
  changed_.notify_all();
}

void Runner::play_on(std::shared_ptr<Sound> player) {
  const std::lock_guard lock(mutex_);
  player_ = std::move(player);
}

void Runner::write_captions(bool on) {
  if (captioned_.exchange(on) != on) captions_.clear();
}

void Runner::watch(PartId part) {
  const std::lock_guard lock(mutex_);
  if (watched_ == part) return;
  watched_ = part;
  // So that a picture with them comes even while it stands still.
  asked_.push_back({Ask::What::kLook, 0, {}});
  ++asks_;
  changed_.notify_all();
}

void Runner::ask(Ask ask) {
  {
    const std::lock_guard lock(mutex_);
    asked_.push_back(std::move(ask));
    ++asks_;
  }
  changed_.notify_all();
}

void Runner::jump(SimTime to) { ask({Ask::What::kJump, std::max<SimTime>(to, 0), {}}); }
void Runner::halt() { ask({Ask::What::kHalt, 0, {}}); }
void Runner::step(bool forward) { ask({forward ? Ask::What::kForward : Ask::What::kBack, 0, {}}); }
void Runner::act(Action action) { ask({Ask::What::kAct, 0, std::move(action)}); }

void Runner::step_to_moment(bool forward) {
  ask({forward ? Ask::What::kNextMoment : Ask::What::kLastMoment, 0, {}});
}
void Runner::undo() { ask({Ask::What::kUndo, 0, {}}); }

std::uint64_t Runner::begin(std::vector<Action> log, SimTime at) {
  ask({Ask::What::kBegin, std::max<SimTime>(at, 0), {}, std::move(log)});
  return ++begins_;
}

void Runner::set_stretch(bool on) {
  const std::lock_guard lock(mutex_);
  stretch_ = on;
}

void Runner::set_twin(bool on) {
  {
    const std::lock_guard lock(mutex_);
    twins_ = on && sound_ != nullptr;
  }
  ask({Ask::What::kLook, 0, {}});
}

void Runner::set_lanes(std::vector<LaneOf> lanes) {
  {
    const std::lock_guard lock(mutex_);
    if (lanes_ == lanes) return;
    lanes_ = std::move(lanes);
  }
  ask({Ask::What::kLook, 0, {}});
}

Runner::Seen Runner::seen() const {
  return {picture_, running_, speed_, behind_,      failure_, stretch_,
          twins_,   reach_,   log_,   made_.size(), took_ms_, heads_for_};
}

Runner::Seen Runner::see() {
  const std::lock_guard lock(mutex_);
  return seen();
}

Runner::Seen Runner::see_all() {
  std::unique_lock lock(mutex_);
  const std::uint64_t until = asks_;
  changed_.wait(lock, [&] { return done_ >= until; });
  return seen();
}

void Runner::loop() {
  Clock::time_point last = Clock::now();
  std::unique_lock lock(mutex_);
  while (!ends_) {
    if (asked_.empty() && (!running_ || !failure_.empty())) {
      changed_.wait(lock);
      last = Clock::now();
      continue;
    }
    const std::deque<Ask> asked = std::exchange(asked_, {});
    const bool running = running_ && failure_.empty();
    const double speed = stretch_ ? 0 : speed_;
    lock.unlock();
    std::string failure;
    bool kept = true;
    const Clock::time_point begun = Clock::now();
    try {
      for (const Ask& one : asked) do_asked(one);
      const double wall_s = std::min(seconds_since(last), kMostAtOnce_s);
      last = Clock::now();
      if (running) kept = go_on(wall_s, speed);
    } catch (const RunFailure& stopped) {
      failure = stopped.what();
    }
    const double took_ms = seconds_since(begun) * 1e3;
    publish();
    lock.lock();
    took_ms_ = took_ms;
    failure_ = failure;
    behind_ = !kept;
    done_ += asked.size();
    changed_.notify_all();
    const double left_s = kSlice_s - seconds_since(last);
    if (running && left_s > 0 && asked_.empty())
      changed_.wait_for(lock, std::chrono::duration<double>(left_s));
  }
}

/// Returns whether it got so far as it was to. `speed`: 0 stands for the stretch's own.
bool Runner::go_on(double wall_s, double speed) {
  const SimTime until =
      speed == 0 ? stretch_time_.after(session_, session_.now(), wall_s)
                 : session_.now() + std::max<SimTime>(std::llround(wall_s * speed * 1e9), 1);
  const Clock::time_point begun = Clock::now();
  // The stretch has a speed of its own.
  const double true_speed = wall_s > 0 ? to_seconds(until - session_.now()) / wall_s : 1;
  return run_until(until, std::max(true_speed, 1e-9), wall_s,
                   [&] { return seconds_since(begun) > kSlice_s; });
}

std::shared_ptr<Sound> Runner::player() {
  const std::lock_guard lock(mutex_);
  return player_;
}

void Runner::hush() {
  if (const auto playing = player(); playing != nullptr) playing->hush();
  captions_.clear();
}

/// Runs on, and lets it be heard, or read, if somebody wants to.
bool Runner::run_until(SimTime until, double speed, double lasts_s,
                       const Session::StopHere& stop_here) {
  const std::shared_ptr<Sound> playing = player();
  const bool plays = playing != nullptr && playing->is_wanted();
  if (!plays && !captioned_) return session_.run_until(until, stop_here);
  const bool arrived = ear_.run(session_, until, speed, lasts_s, stop_here);
  if (plays) playing->take(ear_.hearing());
  if (captioned_) captions_.take(ear_.hearing());
  return arrived;
}

void Runner::do_asked(const Ask& ask) {
  switch (ask.what) {
    case Ask::What::kJump:
      go_to(ask.to);
      break;
    case Ask::What::kForward:
      if (const SimTime next = session_.next_change(); next != kNever)
        run_until(next, 1, 0, nullptr);
      break;
    case Ask::What::kBack:
      hush();
      step_back();
      break;
    case Ask::What::kNextMoment:
      if (const auto next = moment_after(session_, session_.now())) {
        hush();
        session_.run_until(*next - 1);
        run_until(*next, 1, 0, nullptr);
      }
      break;
    case Ask::What::kLastMoment:
      hush();
      session_.seek(moment_before(session_, session_.now()).value_or(0));
      break;
    case Ask::What::kLook:
    case Ask::What::kHalt:
      break;
    case Ask::What::kAct:
      do_action(ask.action);
      break;
    case Ask::What::kUndo:
      undo_action();
      break;
    case Ask::What::kBegin:
      begin_with(ask);
      break;
  }
}

void Runner::go_to(SimTime to) {
  hush();
  while (true) {
    const Clock::time_point begun = Clock::now();
    if (session_.seek(to, [&] { return seconds_since(begun) > kTravelSlice_s; })) break;
    publish();
    const std::lock_guard lock(mutex_);
    heads_for_ = to;
    if (is_called_off()) break;
  }
  const std::lock_guard lock(mutex_);
  heads_for_.reset();
}

/// Something else is wanted by now.
bool Runner::is_called_off() {
  return ends_ || std::any_of(asked_.begin(), asked_.end(),
                              [](const Ask& one) { return one.what != Ask::What::kLook; });
}

/// Comes right behind all that has happened at this instant, and is seen at once.
void Runner::do_action(Action action) {
  action.at = session_.now() + 1;
  session_.act(action);
  run_until(action.at, 1, 0, nullptr);
  {
    const std::lock_guard lock(mutex_);
    made_.push_back(std::move(action));
  }
  take_log(session_.now());
}

void Runner::undo_action() {
  if (made_.empty()) return;
  std::vector<Action> log = session_.log();
  const Action last = made_.back();
  const auto it = std::find(log.rbegin(), log.rend(), last);
  if (it != log.rend()) log.erase(std::next(it).base());
  session_.replace_log(std::move(log));
  session_.seek(last.at - 1);
  {
    const std::lock_guard lock(mutex_);
    made_.pop_back();
  }
  take_log(session_.now());
}

void Runner::begin_with(const Ask& ask) {
  hush();
  session_.replace_log(ask.log);
  session_.seek(ask.to);
  ++begun_;
  {
    const std::lock_guard lock(mutex_);
    made_.clear();
  }
  take_log(session_.now());
}

/// After an action nothing is known of what comes later.
void Runner::take_log(SimTime reach) {
  auto log = std::make_shared<const std::vector<Action>>(session_.log());
  const std::lock_guard lock(mutex_);
  log_ = std::move(log);
  reach_ = reach;
  stretch_time_.forget();
}

/// Looks farther and farther back for the last instant at which something happened.
void Runner::step_back() {
  const SimTime now = session_.now();
  for (const SimTime back : kLookBack) {
    SimTime from = std::max<SimTime>(now - back, 0);
    session_.seek(from);
    SimTime last = from;
    while (true) {
      const SimTime next = session_.next_change();
      if (next == kNever || next >= now) break;
      session_.run_until(next);
      last = next;
    }
    if (last > from || from == 0) {
      session_.seek(last);
      return;
    }
  }
}

/// At the same instant.
void Runner::look_at_twin(Picture& picture, const std::vector<LaneOf>& lanes) {
  if (twin_ == nullptr) twin_ = std::make_unique<Session>(sound_);
  twin_->seek(session_.now());
  Twin& twin = picture.twin.emplace();
  for (const Placed& placed : picture.stage.parts()) {
    Figure& figure = twin.figures.emplace_back();
    figure.clear(placed.figure.wants_close());
    twin_->draw(placed.part, placed.pose, figure);
  }
  twin.readings = readings_of(*twin_, picture.watched);
  twin.lanes = values_of(*twin_, lanes);
}

void Runner::publish() {
  Picture seen;
  std::vector<LaneOf> lanes;
  bool twins = false;
  {
    const std::lock_guard lock(mutex_);
    seen.watched = watched_;
    lanes = lanes_;
    twins = twins_;
  }
  stage_.look(session_, seen.watched);
  seen.at = session_.now();
  seen.begun = begun_;
  seen.state = session_.state_hash();
  seen.stage = stage_;
  seen.readings = readings_of(session_, seen.watched);
  seen.lanes = values_of(session_, lanes);
  if (twins) look_at_twin(seen, lanes);
  auto picture = std::make_shared<const Picture>(std::move(seen));
  const std::lock_guard lock(mutex_);
  reach_ = std::max(reach_, picture->at);
  picture_ = std::move(picture);
}

}  // namespace sixty::gui
