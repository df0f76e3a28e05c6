// A scene for a year and for a week, with and without reuse of transients; saving and going back;
// more and more clocks on lines.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <sstream>

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

/// The same with `clocks` more, on lines of twenty behind the minute relay.
std::shared_ptr<const Installation> scene_with(std::int64_t clocks) {
  std::ostringstream text;
  text << std::ifstream(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml").rdbuf();
  std::string lines = "lines:\n";
  for (int k = 1; 20 * k <= clocks; ++k) {
    lines += fmt::format(R"(  floor_{0}:
    kind: parallel
    from: minute_relay.contact_b
    to: supply.minus
    run: {{type: wire, sheet: copper_2_5, set: {{conductors: 2}}}}
    each: {{type: secondary, sheet: parallel_24v}}
    places: [{{count: 20, name: "f{0}_{{n}}", length: 5 m}}]
)",
                         k);
  }
  const std::string path = (std::filesystem::temp_directory_path() / "sixty_lines.yaml").string();
  std::ofstream(path) << text.str() << lines;
  SceneChanges changes;
  changes.set = {"supply.resistance=10 mohm"};
  Diagnostics diagnostics;
  static const Registry registry = models::registry();
  auto installation = load_scene(path, registry, changes, diagnostics);
  std::filesystem::remove(path);
  return installation;
}

void run_clocks(benchmark::State& state, SimTime span, bool reuse) {
  const auto installation = scene_with(state.range(0));
  Session::Options options;
  options.reuse_transients = reuse;
  for (auto _ : state) {
    Session session(installation, options);
    session.run_until(span);
  }
  state.counters["per clock"] = benchmark::Counter(
      static_cast<double>(state.range(0)),
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void BM_DayOfClocks(benchmark::State& state) { run_clocks(state, kDay, true); }
void BM_TenMinutesOfClocksWithoutReuse(benchmark::State& state) {
  run_clocks(state, 10 * kMinute, false);
}
BENCHMARK(BM_DayOfClocks)->Arg(40)->Arg(100)->Arg(200)->Arg(400)->Unit(benchmark::kMillisecond);
BENCHMARK(BM_TenMinutesOfClocksWithoutReuse)
    ->Arg(40)
    ->Arg(100)
    ->Arg(200)
    ->Arg(400)
    ->Unit(benchmark::kMillisecond);

void BM_LoadAThousandClocks(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(scene_with(1000));
}
BENCHMARK(BM_LoadAThousandClocks)->Unit(benchmark::kMillisecond);

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
