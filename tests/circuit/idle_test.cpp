// What lies idle while a network changes, set aside and put back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/circuit/idle.hpp"
#include "tests/circuit/bench.hpp"

namespace sixty::circuit {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Coil relay_coil() {
  Coil c;
  c.resistance_ohm = 120;
  c.magnet.turns = 4600;
  c.magnet.pole_area_m2 = 1e-4;
  c.magnet.residual_gap_m = 0.45e-3;
  c.armature = {true, 2e-3, 0, 0.04, 1.55, 400};
  return c;
}

enum Contacts : std::size_t { kTiming, kFinger, kKey, kRelay };
enum Coils : std::size_t { kZone, kOther };

/// As on the way to a ring: a timing contact, a finger behind it, a zone's coil behind that. Beside
/// them another coil behind a key of its own, whose contact bridges the timing one if it `bridges`.
struct Way {
  explicit Way(bool bridges = false) {
    bench.source("supply", "plus", "minus", 24, 0.3);
    bench.contact("timing", "plus", "timed", 0.02);
    bench.contact("finger", "timed", "top", 0.03);
    bench.contact("key", "plus", "other top", 0.02);
    const int relay = bench.contact("relay", "plus", bridges ? "timed" : "elsewhere", 0.02);
    bench.coil("zone", "top", "minus", relay_coil());
    Coil other = relay_coil();
    other.marks.push_back({0.4e-3, -1, relay, true, 0});
    bench.coil("other", "other top", "minus", other);
    inputs = initial_inputs(bench.network());
    close(kFinger);
    state = rest_state(bench.network());
    state.contacts[kFinger].gap = Gap::kClosed;
    state.contacts[kFinger].commanded = 1;
    state.contacts[kFinger].ohm = 0.05;
    state.contacts[kFinger].dry = 0;
  }
  void close(std::size_t contact) { inputs.contacts[contact].closed = 1; }
  Idle idle() const { return find_idle(bench.network(), inputs, state); }
  void set_aside() {
    const Idle now = idle();
    circuit::set_aside(now, state);
    circuit::set_aside(now, inputs);
  }

  /// What an earlier ring has left in the iron of the zone's coil.
  void leave_remanence() {
    CoilState& zone = state.coils[kZone];
    zone.held_a = 0.001;
    zone.linkage_wb = linkage_wb(bench.network().coils[kZone].magnet, 0, zone.gap_m, zone.held_a);
  }

  Bench bench;
  Inputs inputs;
  State state;
};

TEST(IdleTest, AFingerAndTheCoilBehindItAreUntilTheTimingContactCloses) {
  Way way;
  EXPECT_THAT(way.idle().contacts, ElementsAre(kTiming, kFinger, kKey, kRelay));
  EXPECT_THAT(way.idle().coils, ElementsAre(kZone, kOther));
  way.close(kTiming);
  EXPECT_THAT(way.idle().contacts, ElementsAre(kKey, kRelay));
  EXPECT_THAT(way.idle().coils, ElementsAre(kOther));
}

TEST(IdleTest, NothingIsBehindAContactThatAnArmatureMayCloseOnceItsOwnCoilCanBeReached) {
  Way way(true);
  EXPECT_THAT(way.idle().coils, ElementsAre(kZone, kOther));
  way.close(kKey);
  EXPECT_THAT(way.idle().contacts, ElementsAre(kTiming));
  EXPECT_THAT(way.idle().coils, IsEmpty());
}

TEST(IdleTest, OfNetworksThatDifferInItOnlyTheRestIsOne) {
  Way way;
  way.close(kTiming);
  Network other = way.bench.network();
  other.coils[kOther].resistance_ohm *= 2;
  other.contacts[kKey].closed_ohm *= 3;
  const Idle idle = way.idle();
  EXPECT_NE(other.hash(), way.bench.network().hash());
  EXPECT_EQ(without(other, idle).hash(), without(way.bench.network(), idle).hash());
  other.coils[kZone].resistance_ohm *= 2;
  EXPECT_NE(without(other, idle).hash(), without(way.bench.network(), idle).hash());
}

TEST(IdleTest, AnArmatureThatItsLoadWouldMoveIsNot) {
  Way way;
  Network network = way.bench.network();
  network.coils[kOther].armature.second_from_m = 3e-3;  // the load is felt at the open stop too
  way.inputs.coil_extra_load_n[kOther] = 0;
  EXPECT_THAT(find_idle(network, way.inputs, way.state).coils, ElementsAre(kZone, kOther));
  way.inputs.coil_extra_load_n[kOther] = -2;  // more than its spring of 1.55 N holds
  EXPECT_THAT(find_idle(network, way.inputs, way.state).coils, ElementsAre(kZone));
}

TEST(IdleTest, AnArmatureBetweenItsStopsIsNot) {
  Way way;
  EXPECT_THAT(way.idle().coils, ElementsAre(kZone, kOther));
  way.state.coils[kOther].gap_m = 1e-3;
  EXPECT_THAT(way.idle().coils, ElementsAre(kZone));
}

TEST(IdleTest, ACoilWithFluxOrOnItsWayIsNot) {
  Way way;
  way.state.coils[kZone].linkage_wb = 0.01;
  EXPECT_THAT(way.idle().coils, ElementsAre(kOther));
  way.state.coils[kZone].linkage_wb = 0;
  way.state.coils[kZone].gap_m = 1e-3;
  way.state.coils[kZone].rest = Rest::kOpening;
  EXPECT_THAT(way.idle().coils, ElementsAre(kOther));
}

TEST(IdleTest, IsAlikeOnceSetAsideWhateverItWas) {
  Way one;
  Way two;
  two.state.contacts[kFinger].ohm = 0.4;
  two.leave_remanence();
  one.set_aside();
  two.set_aside();
  EXPECT_TRUE(one.state.same(two.state));
  EXPECT_EQ(one.inputs.commands_hash(), two.inputs.commands_hash());
}

TEST(IdleTest, IsPutBackAsItWas) {
  Way way;
  way.leave_remanence();
  const State before = way.state;
  const Idle idle = way.idle();
  way.set_aside();
  EXPECT_FALSE(way.state.same(before));
  State moving = way.state;
  put_back(way.bench.network(), idle, before, false, moving);
  EXPECT_TRUE(moving.same(before));
}

TEST(IdleTest, FeelsNoFilmAnyMoreOnceAllHasSettled) {
  Way way;
  const State before = way.state;
  const Idle idle = way.idle();
  way.set_aside();
  put_back(way.bench.network(), idle, before, true, way.state);
  EXPECT_EQ(way.state.contacts[kFinger].gap, Gap::kClosed);
  EXPECT_EQ(way.state.contacts[kFinger].dry, 1);
  EXPECT_EQ(way.state.contacts[kFinger].ohm, 0.03);
}

}  // namespace
}  // namespace sixty::circuit
