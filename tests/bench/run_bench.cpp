// A scene for a year and for a week, with and without reuse of transients; saving and going back.
#include <benchmark/benchmark.h>

#include "models/part_list.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {
namespace {

std::shared_ptr<const Installation> scene() {
  Diagnostics diagnostics;
  static const Registry registry = models::registry();
  return load_scene(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml", registry, {}, diagnostics);
}

void run_for(benchmark::State& state, SimTime span, bool reuse) {
  Session::Options options;
  options.reuse_transients = reuse;
  std::uint64_t events = 0;
  for (auto _ : state) {
    Session session(scene(), options);
    session.run_until(span);
    events += session.events();
  }
  state.counters["events"] = static_cast<double>(events) / static_cast<double>(state.iterations());
}

void BM_Year(benchmark::State& state) { run_for(state, 365 * kDay, true); }
void BM_Week(benchmark::State& state) { run_for(state, kWeek, true); }
void BM_DayWithoutReuse(benchmark::State& state) { run_for(state, kDay, false); }
BENCHMARK(BM_Year)->Unit(benchmark::kMillisecond)->Iterations(3);
BENCHMARK(BM_Week)->Unit(benchmark::kMillisecond);
BENCHMARK(BM_DayWithoutReuse)->Unit(benchmark::kMillisecond);

void BM_Save(benchmark::State& state) {
  Session session(scene());
  session.run_until(kDay);
  for (auto _ : state) benchmark::DoNotOptimize(session.save());
}
BENCHMARK(BM_Save)->Unit(benchmark::kMicrosecond);

void BM_Restore(benchmark::State& state) {
  Session session(scene());
  session.run_until(kDay);
  const auto saved = session.save();
  for (auto _ : state) session.restore(saved);
}
BENCHMARK(BM_Restore)->Unit(benchmark::kMicrosecond);

void BM_SeekAnywhereInAWeek(benchmark::State& state) {
  Session session(scene());
  session.run_until(kWeek);
  SimTime t = 0;
  for (auto _ : state) {
    t = (t + 100'003 * kSecond + 7) % kWeek;
    session.seek(t);
  }
}
BENCHMARK(BM_SeekAnywhereInAWeek)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace sixty
