// The calendar and SystemC's methods on the same events, in turns of ten simulated days, so that
// what else the machine does falls on both. `ratio` is our time through theirs.
#include <benchmark/benchmark.h>

#include <chrono>
#include <cstdlib>
#include <iostream>

#include "tests/bench/installation_events.hpp"
#include "tests/bench/systemc/systemc_events.hpp"

namespace sixty {
namespace {

constexpr SimTime kTurn = 10 * kDay;

/// What one side has done so far.
struct Side {
  std::uint64_t events = 0;
  double seconds = 0;

  template <class Turn>
  void take(Turn turn) {
    const auto from = std::chrono::steady_clock::now();
    events += turn();
    seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
  }
  double ns_per_event() const { return seconds * 1e9 / static_cast<double>(events); }
};

/// Both go on through all runs of the benchmark, since SystemC starts once in a process.
struct Rivals {
  InstallationEvents calendar;
  SystemcEvents systemc;
  SimTime gone = 0;
};

/// Ends the program: times of different events have no ratio.
[[noreturn]] void fail(std::uint64_t ours, std::uint64_t theirs) {
  std::cerr << "Not the same events: the calendar had " << ours << ", SystemC " << theirs << ".\n";
  std::exit(1);
}

void BM_CalendarAgainstSystemc(benchmark::State& state, Rivals& rivals) {
  Side ours, theirs;
  for (auto _ : state) {
    rivals.gone += kTurn;
    ours.take([&] { return rivals.calendar.run_until(rivals.gone); });
    theirs.take([&] { return rivals.systemc.run_for(to_seconds(kTurn)); });
  }
  benchmark::DoNotOptimize(rivals.calendar.check());
  if (ours.events != theirs.events) fail(ours.events, theirs.events);
  state.counters["events_a_turn"] =
      static_cast<double>(ours.events) / static_cast<double>(state.iterations());
  state.counters["ours_ns"] = ours.ns_per_event();
  state.counters["systemc_ns"] = theirs.ns_per_event();
  state.counters["ratio"] = ours.ns_per_event() / theirs.ns_per_event();
}

}  // namespace
}  // namespace sixty

// SystemC's library brings `main`, which calls this.
extern "C" int sc_main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  sixty::Rivals rivals;
  benchmark::RegisterBenchmark("BM_CalendarAgainstSystemc", [&rivals](benchmark::State& state) {
    sixty::BM_CalendarAgainstSystemc(state, rivals);
  })->Unit(benchmark::kMillisecond);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
