// A fault put into a running installation: it becomes what it would be had it been built so, and
// what was there before when the fault is gone.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/clock_time.hpp"
#include "sim/scene/injection.hpp"
#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

const std::vector<std::string> kWatched = {
    "hall_clock.shown",  "workshop_clock.steps", "rewind.strokes", "rewind.spring_teeth",
    "movement.semi_arc", "movement.error",       "tape.row",       "bell.strokes",
    "supply.charge",     "minute_relay.pulls"};

std::vector<double> watched_at(Session& session, SimTime t) {
  session.run_until(t);
  std::vector<double> values;
  for (const std::string& name : kWatched) values.push_back(reading_of(session, name));
  return values;
}

std::vector<double> watched(const std::vector<std::string>& faults,
                            const std::vector<std::string>& set = {}) {
  Session session(scene_with("bench-minimal", faults, set));
  return watched_at(session, 9 * kHour);
}

void expect_same(const std::vector<double>& a, const std::vector<double>& b, double slack) {
  for (std::size_t k = 0; k < kWatched.size(); ++k)
    EXPECT_NEAR(a[k], b[k], slack * std::fabs(b[k]) + 1e-12) << kWatched[k];
}

struct AsBuilt {
  const char* fault;
  std::vector<std::string> set;
};

class FromTheStartTest : public testing::TestWithParam<AsBuilt> {};

// The same values make the same installation, whichever way it came by them.
TEST_P(FromTheStartTest, AFaultIsAsIfItHadBeenBuiltSo) {
  expect_same(watched({GetParam().fault}), watched({}, GetParam().set), 1e-12);
}

INSTANTIATE_TEST_SUITE_P(
    Values, FromTheStartTest,
    testing::Values(AsBuilt{"F08@rewind:1", {"rewind.lead=15 ohm"}},
                    AsBuilt{"F10@rewind:1", {"rewind.friction=10 N"}},
                    AsBuilt{"F24@supply:1", {"supply.resistance=12 ohm"}},
                    AsBuilt{"F28@line_far:1", {"line_far.bad_joint=60 ohm"}},
                    AsBuilt{"F66@bell:1", {"bell.stuck=open"}},
                    AsBuilt{"F20@minute_relay:1", {"minute_relay.shorted_turns=0.6"}},
                    AsBuilt{"F77@line_far:1", {"line_far.leakage=10 ohm"}},
                    AsBuilt{"F37@tape:1", {"tape.feed_slips=0.1"}},
                    AsBuilt{"F13@arm_b:1", {"arm_b.film=300 ohm", "arm_b.film_spread=1.2"}}));

TEST(LiveChangeTest, AFaultThatIsGoneBeforeAnythingHappensLeavesNoTrace) {
  for (const char* part : {"F08@rewind:1", "F28@line_far:1", "F60@minute_relay:1", "F03@movement:1",
                           "F43@bell", "F72@tape:1"}) {
    const std::string fault = std::string(part) + ",from=600.2s,until=600.3s";
    expect_same(watched({fault}), watched({}), 1e-6);
  }
}

TEST(LiveChangeTest, AWeldedContactThatIsPartedWorksAgain) {
  Session session(scene_with("bench-minimal", {"F21@minute_relay,from=20m,until=40m"}));
  session.run_until(kHour);
  // Welded at rest: the clocks pull in then, and step as it lets go.
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 60 - 20 + 1);
  // As it welds, it makes once more.
  EXPECT_EQ(reading_of(session, "minute_relay.pulls"), 60 - 20 + 1);
}

TEST(LiveChangeTest, WhatHandsHaveSetStaysUnderAFaultOfAnotherValue) {
  Session session(scene_with("bench-minimal", {"F18@minute_relay:0.01,from=30m"}, {},
                             {"10m minute_relay.set_spring 2.5 N"}));
  session.run_until(20 * kMinute);
  const double set = reading_of(session, "minute_relay.pull_in_volts");
  session.run_until(kHour);
  EXPECT_NEAR(reading_of(session, "minute_relay.pull_in_volts"), set, 0.02 * set);
}

TEST(LiveChangeTest, ANutThatIsTurnedBackByAsMuchAsItSlippedKeepsTimeAgain) {
  const auto rate = [](const std::vector<std::string>& faults,
                       const std::vector<std::string>& hands) {
    Session session(scene_with("bench-minimal", faults, {}, hands));
    session.run_until(3 * kHour);
    return reading_of(session, "movement.rate");
  };
  const double healthy = rate({}, {});
  EXPECT_LT(rate({"F47@movement:1,from=1h"}, {}), healthy - 80);
  EXPECT_NEAR(rate({"F47@movement:1,from=1h"}, {"2h movement.turn_nut 2 turn"}), healthy, 0.05);
}

TEST(LiveChangeTest, AMilderFaultOfTheSameValueHidesNoWorseOne) {
  const auto with = [](const std::vector<std::string>& faults) {
    Session session(scene_with("bench-minimal", faults));
    session.run_until(kMinute);
    return reading_of(session, "line_far.resistance");
  };
  const double joint = with({"F28@line_far:1"});
  EXPECT_EQ(with({"F28@line_far:1", "F92@line_far:0.1,course=steady"}), joint);
  EXPECT_EQ(with({"F76@line_far:0.1", "F28@line_far:1"}), joint);
}

TEST(LiveChangeTest, TwoOddCellsAreTwoWhicheverCameFirst) {
  const auto emf = [](const std::vector<std::string>& faults) {
    Session session(scene_with("dry-cell-mill", faults));
    session.run_until(kSecond);
    return reading_of(session, "bank.emf");
  };
  const double both = emf({"F23@bank:1", "F85@bank"});
  EXPECT_LT(both, emf({"F85@bank"}) - 0.5);
  EXPECT_LT(both, emf({"F23@bank:1"}) - 0.5);
  EXPECT_EQ(emf({"F85@bank", "F23@bank:1"}), both);
}

TEST(LiveChangeTest, GoingBackAndForthGivesTheSameState) {
  Session session(
      scene_with("bench-minimal", {"F13@arm_b:0.8,from=1h,course=random 40 % for 3m",
                                   "F10@rewind:0.7,from=2h,until=3h", "F38@tape:0.3,from=90m"}));
  session.run_until(5 * kHour);
  const std::uint64_t hash = session.state_hash();
  session.seek(100 * kMinute);
  const std::uint64_t middle = session.state_hash();
  session.seek(30 * kMinute);
  session.seek(100 * kMinute);
  EXPECT_EQ(session.state_hash(), middle);
  session.seek(5 * kHour);
  EXPECT_EQ(session.state_hash(), hash);
}

TEST(LiveChangeTest, ReuseOfTransientsChangesNothing) {
  const auto scene = scene_with(
      "bench-minimal", {"F13@arm_b:0.8,course=random 40 % for 3m", "F28@line_far:1,from=20m"});
  Session::Options anew;
  anew.reuse_transients = false;
  Session with(scene), without(scene, anew);
  with.run_until(kHour);
  without.run_until(kHour);
  EXPECT_EQ(with.state_hash(), without.state_hash());
}

TEST(LiveChangeTest, QueuedBeatsAreTheSameBeats) {
  const auto scene = scene_with(
      "bench-minimal", {"F03@movement:0.8,from=605.5s", "F04@arm_a:0.05,from=905.6s,until=906.2s"});
  Session::Options queued;
  queued.queue_each_step = true;
  Session stepped(scene), one_by_one(scene, queued);
  expect_same(watched_at(one_by_one, kHour), watched_at(stepped, kHour), 0);
}

class BeatCounter final : public TraceSink {
 public:
  void record(const TraceRecord& r) override { beats += r.kind == "beat" ? 1 : 0; }
  int beats = 0;
};

// However a run is cut into pieces, its full trace has every beat.
TEST(LiveChangeTest, NoBeatIsLostFromATraceAsFaultsComeAndGo) {
  const auto scene = scene_with(
      "bench-minimal", {"F61@hall_clock:0.4,course=random 40 % for 7s", "F45@step_all_key"}, {},
      {"10m arm_b.clean"});
  for (const SimTime slice : {20 * kMinute, 17 * kSecond, 300 * kMillisecond}) {
    Session session(scene);
    BeatCounter counter;
    session.set_sink(&counter);
    for (SimTime t = 0; t < 20 * kMinute; t += slice) session.run_until(std::min(t, 20 * kMinute));
    session.run_until(20 * kMinute);
    EXPECT_EQ(counter.beats, reading_of(session, "movement.position")) << slice;
  }
}

TEST(LiveChangeTest, FaultsOfOneValueAddUp) {
  const auto volts = [](const std::vector<std::string>& faults) {
    Session session(scene_with("bench-minimal", faults));
    session.run_until(from_seconds(606));
    return reading_of(session, "supply.emf");
  };
  const double one = volts({"F22@supply:1"});
  const double both = volts({"F22@supply:1", "F23@supply:1"});
  EXPECT_NEAR(both, one - 2, 1e-9);
  EXPECT_NEAR(volts({"F23@supply:1"}), volts({}) - 2, 1e-9);
}

TEST(LiveChangeTest, CareThatCuresTakesTheFaultAway) {
  Session session(scene_with("bench-minimal", {"F13@arm_b:1"}, {}, {"30m arm_b.clean"}));
  session.run_until(30 * kMinute);
  const double missed = 30 - reading_of(session, "hall_clock.steps");
  EXPECT_GT(missed, 15);
  session.run_until(2 * kHour);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 120 - missed);
}

/// Steps that a clock made between two instants.
double steps_between(Session& session, SimTime from, SimTime to) {
  session.seek(from);
  const double before = reading_of(session, "hall_clock.steps");
  session.seek(to);
  return reading_of(session, "hall_clock.steps") - before;
}

// A remedy that only hides it: the film of two weeks is wiped off, and two weeks later it is there.
TEST(LiveChangeTest, CareThatOnlyEasesLetsTheFaultComeBack) {
  Session session(scene_with("bench-minimal", {"F91@arm_b:1"}, {}, {"15d arm_b.clean"}));
  EXPECT_EQ(steps_between(session, 0, kDay), 1440);
  EXPECT_LT(steps_between(session, 14 * kDay, 15 * kDay), 1000);
  EXPECT_EQ(steps_between(session, 15 * kDay, 16 * kDay), 1440);
  EXPECT_LT(steps_between(session, 29 * kDay, 30 * kDay), 1000);
}

// Hands set right what the fault then puts wrong again.
TEST(LiveChangeTest, SettingADialRightMendsNothing) {
  Session session(scene_with("bench-minimal", {"F13@arm_b:1"}, {}, {"3h hall_clock.set 3 h"}));
  session.run_until(3 * kHour - kSecond);
  EXPECT_LT(reading_of(session, "hall_clock.error_min"), -100);
  session.run_until(3 * kHour + kMinute);
  EXPECT_NEAR(reading_of(session, "hall_clock.error_min"), 0, 1);
  session.run_until(6 * kHour);
  EXPECT_LT(reading_of(session, "hall_clock.error_min"), -100);
}

TEST(LiveChangeTest, AFaultIsPutInAndClearedByActionsOfARunningSession) {
  const auto scene = scene_with("bench-minimal", {"F19@minute_relay"});
  const Action put =
      scene->script.front().fault != nullptr ? scene->script.front() : scene->script.back();
  ASSERT_NE(put.fault, nullptr);
  Session session(scene_with("bench-minimal", {}));
  session.run_until(10 * kMinute);
  Action now = put;
  now.at = 10 * kMinute;
  EXPECT_TRUE(session.act(now));
  session.run_until(20 * kMinute);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 10);
  now.at = 20 * kMinute;
  now.clears = true;
  EXPECT_TRUE(session.act(now));
  session.run_until(30 * kMinute);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 20);
  session.seek(15 * kMinute);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 10);
}

// Share of the time in which a random fault is in force: over 40 days of 3 minutes each, within
// three standard errors of the share (of an alternating renewal process, derived).
TEST(CourseTest, ARandomFaultIsInForceForItsShareOfTheTime) {
  Session session(scene_with("bench-minimal", {"F13@arm_b:1,course=random 20 % for 5m"}));
  session.run_until(20 * kDay);
  const double minutes = 20 * 1440;
  const double missed = minutes - reading_of(session, "hall_clock.steps");
  Session always(scene_with("bench-minimal", {"F13@arm_b:1"}));
  always.run_until(5 * kDay);
  const double when_on = 1 - reading_of(always, "hall_clock.steps") / (5 * 1440);
  const double turns = minutes / 25;  // one on, one off
  EXPECT_NEAR(missed / minutes, 0.2 * when_on, 3 * 0.2 * std::sqrt(2 / turns));
}

TEST(CourseTest, AGrowingFaultComesInEqualStepsToItsSeverity) {
  Session session(scene_with("bench-minimal", {"F24@supply:1,course=growing over 24h"}));
  Session whole(scene_with("bench-minimal", {"F24@supply:1"}));
  Session half(scene_with("bench-minimal", {"F24@supply:0.5"}));
  const auto at = [](Session& s, SimTime t) {
    s.run_until(t);
    return reading_of(s, "supply.volts");
  };
  const SimTime stroke = from_seconds(6);
  EXPECT_NEAR(at(session, 12 * kHour + stroke), at(half, 12 * kHour + stroke), 0.05);
  EXPECT_NEAR(at(session, 24 * kHour + stroke), at(whole, 24 * kHour + stroke), 1e-6);
}

TEST(CourseTest, AFaultKeepsItsHours) {
  Session session(scene_with("bench-minimal", {"F19@minute_relay,course=from 06:00 to 07:30"}));
  session.run_until(6 * kHour);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 360);
  session.run_until(from_seconds(7.5 * 3600));
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 360);
  session.run_until(kDay);
  EXPECT_EQ(reading_of(session, "hall_clock.steps"), 1440 - 90);
}

TEST(CourseTest, AFaultComesWithTheCold) {
  const std::vector<std::string> hands = {"1h wall.set_temperature 2 degC",
                                          "2h wall.set_temperature 20 degC"};
  Session session(scene_with("dry-cell-mill", {"F19@minute_relay,course=below 5 degC"}, {}, hands));
  session.run_until(3 * kHour);
  EXPECT_EQ(reading_of(session, "clock_1.steps"), 120);
}

TEST(CourseTest, AFaultComesWithAKnock) {
  Session session(scene_with("dry-cell-mill", {"F19@minute_relay,course=after knocks for 10m"},
                             {"wall.knocks_a_day=0"}, {"1h wall.knock 0.1 mm/s"}));
  session.run_until(2 * kHour);
  EXPECT_EQ(reading_of(session, "clock_1.steps"), 110);
}

TEST(CourseTest, AFaultComesUnderLoad) {
  // Two relays hang on the bench's supply; only the rewind draws more than half an ampere.
  Session session(scene_with("bench-minimal", {"F24@supply:0.6,course=over 0.5 A"}));
  session.run_until(from_seconds(606));
  EXPECT_LT(reading_of(session, "supply.volts"), 22);
  session.run_until(from_seconds(636));
  EXPECT_GT(reading_of(session, "supply.volts"), 23.7);
}

// Each takes away the current that brings it; that of a coil flows on for a moment.
TEST(CourseTest, AFaultThatCutsItsOwnLoadOffComesAndGoesInTime) {
  for (const char* fault : {"F76@line_near,course=over 20 mA", "F62@hall_clock,course=over 20 mA",
                            "F17@arm_b,course=over 0.1 A", "F13@arm_b:1,course=over 0.1 A",
                            "F44@clock_switch,course=over 20 mA", "F14@arm_b,course=over 0.1 A"}) {
    Session session(scene_with("bench-minimal", {fault}));
    EXPECT_NO_THROW(session.run_until(10 * kMinute)) << fault;
    Session sound(scene_with("bench-minimal", {}));
    sound.run_until(10 * kMinute);
    EXPECT_NE(session.state_hash(), sound.state_hash()) << fault;
  }
}

TEST(CourseTest, TextsAreReadBackAsWritten) {
  for (const char* text :
       {"steady", "growing over 7d", "random 0.1 for 30s", "after knocks for 5s", "below 10 degC",
        "above 30 degC", "damper than 0.7", "from 06:00 to 09:00", "over 0.5 A"}) {
    Diagnostic mistake;
    const std::optional<Course> course = parse_course(text, mistake);
    ASSERT_TRUE(course) << text << ": " << mistake.what;
    EXPECT_EQ(course_text(*course), text);
  }
}

TEST(CourseTest, WhatIsNoCourseIsRefused) {
  for (const char* text :
       {"", "sometimes", "growing over", "growing over 0s", "random 0 % for 5s", "random 10 %",
        "random 100 % for 5s", "random 10 % for 1us", "from 06:00 to 06:00", "over -1 A",
        "below 500 degC", "damper than 120 %", "from 6 to 7"}) {
    Diagnostic mistake;
    EXPECT_FALSE(parse_course(text, mistake)) << text;
    EXPECT_FALSE(mistake.what.empty()) << text;
    EXPECT_FALSE(mistake.mend.empty()) << text;
  }
}

}  // namespace
}  // namespace sixty
