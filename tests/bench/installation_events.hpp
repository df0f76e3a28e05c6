#pragma once

#include <cstdint>

#include "sim/base/hash.hpp"
#include "sim/base/time.hpp"
#include "sim/kernel/calendar.hpp"

namespace sixty {

/// The events of a simulated installation, with nothing behind them: a tick each second, two
/// contact makes and breaks a minute, a rewind and a tape step, 40 secondaries that step 20-60 ms
/// after the second contact, a bell at 10 strokes a second eight times a day for 5 s. Each event
/// bears the event that caused it.
class InstallationEvents {
 public:
  InstallationEvents() { schedule(kSecond, kTick, 0, 0); }

  /// Goes on up to a simulated time, which is not included. Gives the number of events on the way.
  std::uint64_t run_until(SimTime until) {
    std::uint64_t events = 0;
    while (!calendar_.empty() && calendar_.next_time() < until) {
      const Event e = calendar_.pop();
      ++events;
      check_ = mix(check_, e.id ^ e.cause);
      handle(e);
    }
    return events;
  }

  /// Follows from every event's id and cause, so that no event can be optimised away.
  std::uint64_t check() const { return check_; }

 private:
  enum Kind : std::uint16_t { kTick, kMake, kBreak, kRewind, kTape, kStep, kStroke };
  static constexpr int kSecondaries = 40;

  void schedule(SimTime at, Kind kind, std::int64_t number, EventId cause) {
    Event e;
    e.at = at;
    e.kind = kind;
    e.number = number;
    e.cause = cause;
    calendar_.schedule(e);
  }

  void handle(const Event& e) {
    switch (e.kind) {
      case kTick:
        tick(e);
        break;
      case kMake:
        make(e);
        break;
      case kStroke:
        if (e.number > 1) schedule(e.at + 100 * kMillisecond, kStroke, e.number - 1, e.id);
        break;
      default:
        break;
    }
  }

  void tick(const Event& e) {
    schedule(e.at + kSecond, kTick, e.number + 1, e.id);
    const std::int64_t second = e.number % 60;
    if (second == 5 || second == 35) schedule(e.at, kMake, second, e.id);
    if (second == 7 || second == 37) schedule(e.at, kBreak, second, e.id);
    if (e.number % 10800 == 15) schedule(e.at, kStroke, 50, e.id);
  }

  void make(const Event& e) {
    if (e.number == 5) {
      schedule(e.at + 72 * kMillisecond, kRewind, 0, e.id);
      schedule(e.at + 70 * kMillisecond, kTape, 0, e.id);
      return;
    }
    for (int k = 0; k < kSecondaries; ++k) {
      schedule(e.at + 20 * kMillisecond + k * kMillisecond, kStep, k, e.id);
    }
  }

  Calendar calendar_;
  std::uint64_t check_ = 0;
};

}  // namespace sixty
