#include "gui/bench/runner.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace sixty::gui {
namespace {

using Clock = std::chrono::steady_clock;

constexpr double kSlice_s = 0.012;     // of the wall, between two pictures
constexpr double kMostAtOnce_s = 0.1;  // of the wall, made good after a stall
constexpr SimTime kLookBack[] = {10 * kMillisecond, kSecond, kMinute, kHour, kDay, kWeek};

double seconds_since(Clock::time_point then) {
  return std::chrono::duration<double>(Clock::now() - then).count();
}

}  // namespace

Runner::Runner(const std::shared_ptr<const Installation>& installation, SimTime at)
    : session_(installation), stage_(*installation) {
  session_.seek(at);
  publish();
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
void Runner::step(bool forward) { ask({forward ? Ask::What::kForward : Ask::What::kBack, 0, {}}); }
void Runner::act(Action action) { ask({Ask::What::kAct, 0, std::move(action)}); }

Runner::Seen Runner::see() {
  const std::lock_guard lock(mutex_);
  return {picture_, running_, speed_, behind_, failure_};
}

Runner::Seen Runner::see_all() {
  std::unique_lock lock(mutex_);
  const std::uint64_t until = asks_;
  changed_.wait(lock, [&] { return done_ >= until; });
  return {picture_, running_, speed_, behind_, failure_};
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
    const double speed = speed_;
    lock.unlock();
    std::string failure;
    bool kept = true;
    try {
      for (const Ask& one : asked) do_asked(one);
      const double wall_s = std::min(seconds_since(last), kMostAtOnce_s);
      last = Clock::now();
      if (running) kept = go_on(wall_s, speed);
    } catch (const RunFailure& stopped) {
      failure = stopped.what();
    }
    publish();
    lock.lock();
    failure_ = failure;
    behind_ = !kept;
    done_ += asked.size();
    changed_.notify_all();
    const double left_s = kSlice_s - seconds_since(last);
    if (running && left_s > 0 && asked_.empty())
      changed_.wait_for(lock, std::chrono::duration<double>(left_s));
  }
}

/// Returns whether it got so far as it was to.
bool Runner::go_on(double wall_s, double speed) {
  const SimTime until = session_.now() + std::max<SimTime>(std::llround(wall_s * speed * 1e9), 1);
  const Clock::time_point begun = Clock::now();
  return session_.run_until(until, [&] { return seconds_since(begun) > kSlice_s; });
}

void Runner::do_asked(const Ask& ask) {
  switch (ask.what) {
    case Ask::What::kJump:
      session_.seek(ask.to);
      break;
    case Ask::What::kForward:
      if (const SimTime next = session_.next_change(); next != kNever) session_.run_until(next);
      break;
    case Ask::What::kBack:
      step_back();
      break;
    case Ask::What::kLook:
      break;
    case Ask::What::kAct: {
      Action action = ask.action;
      action.at = session_.now();
      session_.act(action);
      session_.run_until(session_.now());
      break;
    }
  }
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

void Runner::publish() {
  Picture seen;
  {
    const std::lock_guard lock(mutex_);
    seen.watched = watched_;
  }
  stage_.look(session_, seen.watched);
  seen.at = session_.now();
  seen.stage = stage_;
  const PartInstance& part = session_.installation().parts[seen.watched];
  for (std::size_t k = 0; k < part.kind->declaration.readings.size(); ++k)
    seen.readings.push_back(session_.read(seen.watched, k));
  auto picture = std::make_shared<const Picture>(std::move(seen));
  const std::lock_guard lock(mutex_);
  picture_ = std::move(picture);
}

}  // namespace sixty::gui
