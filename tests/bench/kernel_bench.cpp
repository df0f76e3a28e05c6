// The calendar alone, on the events of a simulated installation: a tick each second, two contact
// makes and breaks a minute, a rewind and a tape step, 40 secondaries that step 20-60 ms after the
// second contact, a bell at 10 strokes a second eight times a day for 5 s. Cause links included.
#include <benchmark/benchmark.h>

#include "sim/base/hash.hpp"
#include "sim/kernel/calendar.hpp"

namespace sixty {
namespace {

enum Kind : std::uint16_t { kTick, kMake, kBreak, kRewind, kTape, kStep, kStroke };
constexpr int kSecondaries = 40;

class Workload {
 public:
  explicit Workload(SimTime until) : until_(until) { schedule(kSecond, kTick, 0, 0); }

  std::uint64_t run() {
    std::uint64_t events = 0;
    while (!calendar_.empty() && calendar_.next_time() <= until_) {
      const Event e = calendar_.pop();
      ++events;
      check_ = mix(check_, e.id ^ e.cause);
      handle(e);
    }
    benchmark::DoNotOptimize(check_);
    return events;
  }

 private:
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
  SimTime until_;
  std::uint64_t check_ = 0;
};

void BM_CalendarOnAnInstallationsEvents(benchmark::State& state) {
  std::uint64_t events = 0;
  for (auto _ : state) {
    Workload work(10 * kDay);
    events += work.run();
  }
  state.counters["ns_per_event"] =
      benchmark::Counter(static_cast<double>(events) * 1e-9,
                         benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(BM_CalendarOnAnInstallationsEvents)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sixty
