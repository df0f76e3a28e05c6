// The calendar alone, on the events of a simulated installation.
#include <benchmark/benchmark.h>

#include "tests/bench/installation_events.hpp"

namespace sixty {
namespace {

void BM_CalendarOnAnInstallationsEvents(benchmark::State& state) {
  std::uint64_t events = 0;
  for (auto _ : state) {
    InstallationEvents work;
    events += work.run_until(10 * kDay);
    benchmark::DoNotOptimize(work.check());
  }
  state.counters["ns_per_event"] =
      benchmark::Counter(static_cast<double>(events) * 1e-9,
                         benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(BM_CalendarOnAnInstallationsEvents)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sixty
