// How often a coil was driven in vain: what a bouncing, sparking or chattering contact takes away
// and gives back is one drive.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// A relay behind a key that is worked as the script says.
std::string relay_behind_key(const std::string& script) {
  return R"(scene: Relay behind a key
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 0.3 ohm}}
  key: {type: switch, sheet: bench_switch}
  relay: {type: relay, sheet: minute_relay}
wires:
  minus: [supply.minus, relay.coil_b]
  plus: [supply.plus, key.a]
  feed: [key.b, relay.coil_a]
script:
)" + script;
}

/// So many closings of a millisecond each, too short to move the armature.
std::string taps(int count, int every_ms) {
  std::string script;
  for (int i = 0; i < count; ++i) {
    script += fmt::format("  - at {} ms: key.close\n", 1000 + i * every_ms);
    script += fmt::format("  - at {} ms: key.open\n", 1001 + i * every_ms);
  }
  return script;
}

std::vector<std::string> warnings_of(Trial& trial, double seconds) {
  trial.run_to(seconds);
  return trial.session().report().warnings();
}

TEST(DrivesInVainTest, BounceOfAFeedingContactIsNoDriveOfItsOwn) {
  // The relay's contact feeds the bell, bounces and sparks; the bell rings three milliseconds
  // later.
  Trial trial(R"(scene: Relay and bell
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 18 V, resistance: 0.3 ohm}}
  key: {type: switch, sheet: bench_switch}
  relay: {type: relay, sheet: zone_relay}
  bell: {type: bell, sheet: bell_24v}
wires:
  minus: [supply.minus, bell.minus, relay.coil_b]
  plus: [supply.plus, key.a, relay.contact_a]
  feed: [key.b, relay.coil_a]
  bell_feed: [relay.contact_b, bell.plus]
script:
  - at 0 s: key.close
)");
  const std::vector<std::string> warnings = warnings_of(trial, 2);
  ASSERT_GE(trial.count("bell", "held"), 1U) << "nothing bounced";
  EXPECT_GT(trial.read("bell.strokes"), 10);
  EXPECT_THAT(warnings, IsEmpty());
}

TEST(DrivesInVainTest, ChatterThatEndsInAPullIsNoneInVain) {
  Trial trial(relay_behind_key(taps(200, 2) + "  - at 1400 ms: key.close\n"));
  const std::vector<std::string> warnings = warnings_of(trial, 2);
  ASSERT_GT(trial.count("relay", "held"), 100U);
  EXPECT_EQ(trial.read("relay.pulls"), 1);
  EXPECT_THAT(warnings, IsEmpty());
}

TEST(DrivesInVainTest, ChatterThatEndsInNothingIsOne) {
  Trial trial(relay_behind_key(taps(200, 2)));
  EXPECT_THAT(warnings_of(trial, 2), ElementsAre(HasSubstr("driven once without pulling in")));
}

TEST(DrivesInVainTest, DrivesApartAreCountedEach) {
  Trial trial(relay_behind_key(taps(3, 500)));
  EXPECT_THAT(warnings_of(trial, 4), ElementsAre("relay was driven 3 times without pulling in: it "
                                                 "was let go too soon."));
}

TEST(DrivesInVainTest, OneThatStartsLaterStillLeavesThoseBefore) {
  Trial trial(relay_behind_key(taps(3, 500) + "  - at 3 s: key.close\n"));
  EXPECT_THAT(warnings_of(trial, 4), ElementsAre(HasSubstr("driven 3 times")));
  EXPECT_EQ(trial.read("relay.pulls"), 1);
}

TEST(DrivesInVainTest, TellsTheWeakestVoltsIfVoltsWereMissing) {
  Trial trial(relay_behind_key("  - at 1 s: key.close\n  - at 2 s: key.open\n"),
              {"supply.emf=12 V"});
  EXPECT_THAT(warnings_of(trial, 4),
              ElementsAre(testing::AllOf(HasSubstr("driven once without pulling in: 11.97 V at its "
                                                   "coil"),
                                         HasSubstr("were needed"))));
}

TEST(DrivesInVainTest, RewindMissesNoStrokeThatABounceOnlyDelays) {
  Trial trial(R"(scene: Rewind behind a loose wire
start: 2026-01-05T00:00:00
spread: 0
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 1 mohm}}
  key: {type: switch, sheet: bench_switch}
  rewind: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 20 tooth}}
wires:
  plus: [supply.plus, key.a]
  feed: [key.b, rewind.plus]
  minus: [supply.minus, rewind.minus]
script:
  - at 1000 ms: key.close
  - at 1004 ms: key.open
  - at 1005 ms: key.close
  - at 3 s: key.open
)");
  trial.run_to(4);
  ASSERT_EQ(trial.count("rewind", "held"), 1U);
  EXPECT_EQ(trial.read("rewind.strokes"), 1);
  EXPECT_EQ(trial.read("rewind.missed"), 0);
}

/// The coil is fed for 140 ms at a time, which pulls it in, with pauses that let it go.
std::string fed_again(int times, int pause_ms) {
  std::string script;
  for (int i = 0; i <= times; ++i) {
    const int at_ms = 1000 + i * (140 + pause_ms);
    script += fmt::format("  - at {} ms: key.close\n  - at {} ms: key.open\n", at_ms, at_ms + 140);
  }
  return script;
}

TEST(ChatterTest, AContactThatMakesAgainAndAgainIsWarnedOf) {
  Trial trial(relay_behind_key(fed_again(6, 70)));
  EXPECT_THAT(warnings_of(trial, 4), ElementsAre(HasSubstr("made again 4 times within 0.1 s")));
  EXPECT_EQ(trial.read("relay.pulls"), 7);
}

TEST(ChatterTest, AContactThatIsMadeAgainByHandDoesNotChatter) {
  Trial trial(relay_behind_key(fed_again(6, 300)));
  EXPECT_THAT(warnings_of(trial, 4), IsEmpty());
  EXPECT_EQ(trial.read("relay.pulls"), 7);
}

}  // namespace
}  // namespace sixty
