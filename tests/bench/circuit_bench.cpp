// One armature's pull-in and release, and a whole line of them, integrated and found again.
#include <benchmark/benchmark.h>

#include "sim/base/rng.hpp"
#include "sim/circuit/memo.hpp"

namespace sixty::circuit {
namespace {

Coil clock_coil(Node a, std::uint64_t number) {
  const auto vary = [&](std::uint32_t stream, double tolerance) {
    return 1 + tolerance * (2 * uniform_draw(1, number, stream, 0) - 1);
  };
  Coil c;
  c.a = a;
  c.b = 0;
  c.resistance_ohm = 500 * vary(0, 0.03);
  c.magnet.turns = 9000;
  c.magnet.pole_area_m2 = 1.2e-4 * vary(1, 0.03);
  c.magnet.residual_gap_m = 4e-4 * vary(2, 0.1);
  c.magnet.iron_length_m = 0.12;
  c.magnet.coercive_a = 10;
  c.armature.present = true;
  c.armature.stroke_m = 2.5e-3;
  c.armature.mass_kg = 0.03 * vary(3, 0.05);
  c.armature.preload_n = 0.305 * vary(4, 0.05);
  c.armature.rate_n_per_m = 100 * vary(5, 0.1);
  c.armature.friction_n = 0.03;
  return c;
}

/// A supply, a contact, and `count` clocks along a line of 150 m of 1.0 mm2, there and back.
std::shared_ptr<const Network> line(int count) {
  auto n = std::make_shared<Network>();
  Node next = 3;
  n->sources.push_back({1, 0, 24, 0.3 * 20 / count});
  Contact contact;
  contact.a = 1;
  contact.b = 2;
  n->contacts.push_back(contact);
  Node at = 2;
  for (int k = 0; k < count; ++k) {
    const Node here = next++;
    n->resistors.push_back({at, here, 5.17 * 20 / count / count});
    n->resistors.push_back({here, 0, 6000});
    n->coils.push_back(clock_coil(here, static_cast<std::uint64_t>(k)));
    at = here;
  }
  n->node_count = next;
  return n;
}

void pull_in(benchmark::State& state, bool reuse) {
  const auto network = line(static_cast<int>(state.range(0)));
  const auto start = std::make_shared<const State>(rest_state(*network));
  Inputs closed = initial_inputs(*network);
  closed.contacts[0].closed = 1;
  Memo memo(reuse);
  for (auto _ : state) benchmark::DoNotOptimize(memo.meet(network, closed, start));
}

void BM_PullInIntegrated(benchmark::State& state) { pull_in(state, false); }
BENCHMARK(BM_PullInIntegrated)
    ->Arg(1)
    ->Arg(2)
    ->Arg(12)
    ->Arg(36)
    ->Arg(40)
    ->Arg(200)
    ->Arg(400)
    ->Unit(benchmark::kMicrosecond);

void BM_PullInFoundAgain(benchmark::State& state) { pull_in(state, true); }
BENCHMARK(BM_PullInFoundAgain)->Arg(1)->Arg(36)->Arg(400)->Unit(benchmark::kNanosecond);

}  // namespace
}  // namespace sixty::circuit
