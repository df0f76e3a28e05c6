// Coming to rest: armatures in balance, and what has long been charged.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/circuit/runtime.hpp"
#include "tests/circuit/bench.hpp"

namespace sixty::circuit {
namespace {

/// A stiff spring that a magnet can only pull part of the way: a stable balance lies in between.
Coil springy_coil(double friction_n) {
  Coil c;
  c.resistance_ohm = 120;
  c.magnet.turns = 4600;
  c.magnet.pole_area_m2 = 1e-4;
  c.magnet.residual_gap_m = 2e-3;
  c.armature = {true, 2e-3, 0, 0.04, 0.2, 20000};
  c.armature.friction_n = friction_n;
  return c;
}

Bench balanced(double friction_n) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.5);
  bench.contact("key", "plus", "fed", 0.02);
  bench.coil("coil", "fed", "minus", springy_coil(friction_n));
  bench.work(0, "key", true);
  return bench;
}

TEST(RestTest, AnArmatureWithoutFrictionComesToRestWhereSpringAndPullBalance) {
  Bench bench = balanced(0);
  const auto look = bench.at(60);
  const CoilState& s = look.state.coils[0];
  EXPECT_EQ(s.rest, Rest::kStuck);
  EXPECT_EQ(s.speed_m_per_s, 0);
  const Coil& c = bench.network().coils[0];
  const double current = 24 / 120.52;
  const double flux = linkage_wb(c.magnet, current, s.gap_m, 0);
  EXPECT_NEAR(load_n(c.armature, s.gap_m, 0), pull_n(c.magnet, flux), 1e-6);
  EXPECT_GT(s.gap_m, c.armature.seat_m);
  EXPECT_LT(s.gap_m, c.armature.stroke_m);
  const auto events = bench.events(60);
  ASSERT_FALSE(events.empty());
  EXPECT_EQ(events.back().located.what, What::kSticks);
}

TEST(RestTest, ATrifleOfFrictionChangesTheBalanceByATrifle) {
  Bench without = balanced(0);
  Bench with = balanced(1e-4);
  const double gap_m = without.at(60).state.coils[0].gap_m;
  EXPECT_NEAR(with.at(60).state.coils[0].gap_m, gap_m, 1e-4 / 20000 * 3);
}

/// It must not be taken for balanced where the least way on would carry it off.
TEST(RestTest, AnArmatureThatHasJustStartedIsNotAtRest) {
  Coil c = springy_coil(0);
  c.armature.rate_n_per_m = 0;
  c.armature.preload_n = 1.0;
  const double starts_a = statics(c.magnet, c.armature, 0).starts_a;
  for (const double share : {0.999, 1.0005}) {
    Bench bench;
    bench.source("supply", "plus", "minus", starts_a * share * 120.52, 0.5);
    bench.contact("key", "plus", "fed", 0.02);
    bench.coil("coil", "fed", "minus", c);
    bench.work(0, "key", true);
    const Rest rest = bench.at(30).state.coils[0].rest;
    EXPECT_EQ(rest, share > 1 ? Rest::kSeated : Rest::kOpen) << share;
  }
}

/// Through a saturated magnet flows what its resistance lets through, and then all is at rest.
TEST(RestTest, ACoilFarBeyondSaturationSettles) {
  Coil c = springy_coil(0.1);
  c.resistance_ohm = 0.05;
  c.magnet.iron_length_m = 0.1;
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.3);
  bench.contact("key", "plus", "fed", 0.02);
  bench.coil("coil", "fed", "minus", c);
  bench.work(0, "key", true);
  EXPECT_NEAR(bench.value(bench.at(600), "coil.current"), 24 / 0.37, 1e-3);
}

/// At the longest step that the error allows, what a coil still lacks may stay the same from step
/// to step for ever where its remanence has just been used up: the flux is then stiff one way and
/// soft the other, and in a network of so many no step is implicit.
TEST(RestTest, ACoilWhoseRemanenceIsUsedUpComesToRestAmongManyOthers) {
  Coil clock;
  clock.resistance_ohm = 500;
  clock.magnet.turns = 9000;
  clock.magnet.pole_area_m2 = 1.2e-4;
  clock.magnet.residual_gap_m = 4e-4;
  clock.magnet.iron_length_m = 0.12;
  clock.armature = {true, 2.5e-3, 0, 0.03, 0.305, 100};
  clock.armature.friction_n = 0.03;
  Coil relay = clock;
  relay.resistance_ohm = 130;
  relay.magnet.turns = 4600;
  relay.magnet.pole_area_m2 = 1e-4;
  relay.magnet.residual_gap_m = 4.8e-4;
  relay.magnet.coercive_a = 19;
  relay.armature = {true, 2e-3, 0, 0.04, 1.55, 400};
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.01);
  bench.contact("key", "plus", "fed", 0.02);
  bench.coil("relay", "fed", "minus", relay);
  for (int c = 0; c < 30; ++c) bench.coil(std::to_string(c), "fed", "minus", clock);
  bench.work(0, "key", true);
  State start = bench.at(30).state;
  ASSERT_EQ(start.coils[0].rest, Rest::kSeated);
  Inputs inputs = initial_inputs(bench.network());
  inputs.contacts[0].closed = 1;
  const double seated_wb = start.coils[0].linkage_wb;
  for (int k = -50; k <= 50; ++k) {
    start.coils[0].linkage_wb = seated_wb * (1 - 2e-3 - 1e-5 * k);
    start.coils[0].held_a = 3.8;
    Integrator run(bench.network(), inputs, start);
    run.advance(60);
    EXPECT_TRUE(run.settled()) << k;
  }
}

TEST(FirstStateTest, ACapacitorBehindADiodeIsChargedFromTheStart) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.3);
  bench.diode("plus", "store", 0.01, 0.7);
  bench.capacitor("hold", "store", "minus", 0.01, 0.1);
  bench.diode("minus", "below", 0.01, 0.7);  // the wrong way round
  bench.capacitor("none", "below", "minus", 0.01, 0.1);
  bench.resistor("below", "plus", 1000);
  EXPECT_NEAR(bench.at(0).state.capacitor_v[0], 24 - 0.7, 1e-9);
  EXPECT_NEAR(bench.at(10).state.capacitor_v[0], 24 - 0.7, 1e-6);
  EXPECT_NEAR(bench.at(0).state.capacitor_v[1], 24, 1e-9);
}

/// What cannot be followed to its end does no harm before its time.
TEST(FailureTest, ATransientWithoutEndFailsOnlyWhereItIsReached) {
  Coil c = springy_coil(0);
  Network network;
  network.node_count = 3;
  network.sources.push_back({0, 1, 2e5, 1e6, -1});  // a steady current damps nothing
  Contact key;
  key.a = 0;
  key.b = 2;
  network.contacts.push_back(key);
  c.a = 2;
  c.b = 1;
  network.coils.push_back(c);
  Memo memo;
  NetworkData data = begin_network(std::make_shared<const Network>(network), 0, memo);
  ContactInput closed = data.inputs.contacts[0];
  closed.closed = 1;
  set_contact(data, 0, closed);
  recut(data, kSecond, 1, memo);
  ASSERT_TRUE(data.met.stretch->failure);
  Happening happening;
  EventId id = 2;
  while (data.next < data.met.stretch->events.size()) take(data, id++, memo, happening);
  EXPECT_GT(data.next_at, 20 * kSecond);
  EXPECT_THROW(take(data, id, memo, happening), IntegrationFailure);
}

}  // namespace
}  // namespace sixty::circuit
