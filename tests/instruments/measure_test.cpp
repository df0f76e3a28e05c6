// Instruments laid on running installations.
#include "sim/instruments/measure.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/circuit/table.hpp"
#include "tests/instruments/measured.hpp"

namespace sixty {
namespace {

using namespace instruments;
using testing::HasSubstr;

const std::string kDivider = R"(scene: Two resistors on a battery
start: 2026-01-05T00:00:00
parts:
  supply: {type: supply, set: {emf: 24 V, resistance: 0.1 ohm}}
  upper: {type: resistor, set: {resistance: 100 kohm}}
  lower: {type: resistor, set: {resistance: 100 kohm}}
  lamp: {type: resistor, set: {resistance: 48 ohm}}
  key: {type: switch, set: {contact_resistance: 1 mohm}}
  idle: {type: resistor, set: {resistance: 220 ohm}}
  beside_idle: {type: resistor, set: {resistance: 330 ohm}}
  valve: {type: diode, set: {resistance: 0.1 ohm, forward_drop: 0.7 V}}
wires:
  plus: [supply.plus, upper.a, key.a]
  middle: [upper.b, lower.a]
  fed: [key.b, lamp.a]
  minus: [lower.b, supply.minus, lamp.b]
  dead: [idle.a, beside_idle.a, valve.anode]
  dead_too: [idle.b, beside_idle.b, valve.cathode]
)";

double ohms(double a, double b) { return a * b / (a + b); }

// Loading of a voltmeter: 100 kohm over 100 kohm parallel to the meter, by the voltage divider.
TEST(Voltmeter, PullsDownWhatItMeasures) {
  const auto scene = scene_of(kDivider);
  const auto answers = measured(scene, {"V:lower,as=needle,range=50 V"}, 1, 6);
  const MeterReading& reading = meter(answers[0]);
  const double beside = ohms(100e3, 1e6);
  EXPECT_NEAR(reading.really_most, 24 * beside / (100e3 + beside), 1e-3);
  EXPECT_NEAR(reading.last.value, reading.really_most, reading.last.uncertainty);
}

TEST(Voltmeter, DigitalPullsDownLess) {
  const auto answers = measured(scene_of(kDivider), {"V:lower"}, 1, 6);
  const double beside = ohms(100e3, 10e6);
  EXPECT_NEAR(meter(answers[0]).really_most, 24 * beside / (100e3 + beside), 1e-3);
  EXPECT_EQ(meter(answers[0]).range.full_scale, 40);
  EXPECT_FALSE(meter(answers[0]).last.beyond);
}

TEST(Voltmeter, FeelsTheOthersThatAreLaidOnWithIt) {
  const auto answers =
      measured(scene_of(kDivider), {"V:lower", "V:upper,as=needle,range=50 V"}, 1, 6);
  const double lower = ohms(100e3, 10e6), upper = ohms(100e3, 1e6);
  EXPECT_NEAR(meter(answers[0]).really_most, 24 * lower / (lower + upper), 1e-3);
}

TEST(Voltmeter, SeesTheSupplyAcrossAnOpenContactWithACoilBehind) {
  const auto scene = scene_at("scenes/bench-minimal.yaml");
  const auto answers = measured(scene, {"V:arm_b.blade..arm_b.anvil"}, 10, 12);
  EXPECT_NEAR(meter(answers[0]).last.value, 24, 0.3);
}

// Ohm's law, the meter's own 0.05 ohm (0.2 V at 4 A) in the loop.
TEST(Ammeter, StandsInTheLoop) {
  const auto scene = scene_of(kDivider + "script:\n  - at 0.5 s: key.close\n");
  const auto answers = measured(scene, {"A:lamp.a,range=4 A"}, 1, 3);
  const double loop = 0.1 + 0.001 + 48 + 0.05;
  EXPECT_NEAR(meter(answers[0]).really_most, 24 / loop, 24 / loop * 1e-5);
}

TEST(Ammeter, CountsWhatGoesInAndWhatComesOutAlike) {
  const auto scene = scene_of(kDivider + "script:\n  - at 0.5 s: key.close\n");
  const auto answers = measured(scene, {"A:lamp.a,range=4 A", "A:lamp.b,range=4 A"}, 1, 3);
  EXPECT_NEAR(meter(answers[0]).really_most, -meter(answers[1]).really_least, 1e-9);
}

TEST(Ammeter, LaidAcrossAnOpenKeyClosesIt) {
  const auto answers = measured(scene_of(kDivider), {"A:key.a..key.b,range=4 A"}, 1, 3);
  EXPECT_NEAR(meter(answers[0]).really_most, 24 / (0.1 + 48 + 0.05), 1e-4);
}

TEST(Meters, AreSetToTheLeastRangeThatHoldsWhatTheyShow) {
  const auto scene = scene_of(kDivider + "script:\n  - at 2 s: key.close\n");
  const auto answers =
      measured(scene, {"A:lamp.a,as=needle", "V:lamp,as=needle", "A:lamp.b"}, 1, 6);
  EXPECT_EQ(meter(answers[0]).range.full_scale, 0.5);
  EXPECT_EQ(meter(answers[1]).range.full_scale, 50);
  EXPECT_EQ(meter(answers[2]).range.full_scale, 4);
  EXPECT_FALSE(meter(answers[2]).last.beyond);
}

TEST(Meters, TellTheWholeOfAnHourInBetween) {
  const auto scene =
      scene_of(kDivider + "script:\n  - at 1800 s: key.close\n  - at 1800.02 s: key.open\n");
  const auto answers = measured(scene, {"V:lamp", "V:lamp,as=needle"}, 1, 3600);
  EXPECT_NEAR(meter(answers[0]).most.value, 24, 0.3);
  EXPECT_NEAR(meter(answers[0]).most.at_s, 1799, 0.03);
  EXPECT_LT(meter(answers[1]).most.value, 2.5);
}

// Two resistors side by side.
TEST(Ohmmeter, ReadsWhatLiesBesideThePartToo) {
  const auto answers = measured(scene_of(kDivider), {"ohm:idle"}, 1, 2);
  const Ohms& reading = std::get<Ohms>(answers[0]);
  EXPECT_FALSE(reading.alive());
  EXPECT_NEAR(reading.ohm, ohms(220, 330), reading.uncertainty_ohm);
  EXPECT_FALSE(reading.continuous);
}

TEST(Ohmmeter, SoundsThroughAClosedKeyAndNotThroughAnOpenOne) {
  const std::string keys = R"(scene: Keys
start: 2026-01-05T00:00:00
parts:
  shut: {type: switch, set: {starts: closed}}
  open: {type: switch}
wires:
  a: [shut.a, open.a]
)";
  const auto answers = measured(scene_of(keys), {"ohm:shut", "ohm:open"}, 1, 2);
  EXPECT_TRUE(std::get<Ohms>(answers[0]).continuous);
  EXPECT_TRUE(std::get<Ohms>(answers[1]).beyond);
}

TEST(Ohmmeter, WarnsWhereVoltsStand) {
  const auto answers = measured(scene_of(kDivider), {"ohm:lower"}, 1, 2);
  EXPECT_TRUE(std::get<Ohms>(answers[0]).alive());
  EXPECT_NEAR(std::get<Ohms>(answers[0]).foreign_v, 12, 0.1);
}

/// A value of the reference's instant at which something happens.
double instant(const std::string& what, const std::string& column) {
  const circuit::Table table = circuit::Table::read("case2_instants");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (table.text(row, "what") == what) return *table.number(row, column);
  }
  ADD_FAILURE() << what;
  return 0;
}

// Case 2 of tests/circuit/cases: a relay pulls in; largest and least current, and when.
TEST(Recorder, PicturesAPullInAsTheReferenceHasIt) {
  const auto scene = scene_at("tests/circuit/case_2.yaml");
  const auto answers = measured(scene, {"record:A:relay", "record:relay.gap"}, 0, 0.012, 1e-5);
  const std::vector<double>& amperes = std::get<Channel>(answers[0]).samples;
  const std::vector<double>& gap = std::get<Channel>(answers[1]).samples;
  const auto peak = std::max_element(amperes.begin(), amperes.end());
  const auto dip = std::min_element(peak, amperes.end());
  const double largest = 0.19438865;
  EXPECT_NEAR(*peak, instant("peak", "current"), 0.005 * largest);
  EXPECT_NEAR(static_cast<double>(peak - amperes.begin()) * 1e-5, instant("peak", "time_s"),
              0.01 * instant("peak", "time_s"));
  EXPECT_NEAR(*dip, instant("seats", "current"), 0.005 * largest);
  EXPECT_NEAR(static_cast<double>(dip - amperes.begin()) * 1e-5, instant("seats", "time_s"),
              0.01 * instant("seats", "time_s"));
  const auto seated = std::find_if(gap.begin(), gap.end(), [](double x) { return x < 1e-6; });
  EXPECT_NEAR(static_cast<double>(seated - gap.begin()) * 1e-5, instant("seats", "time_s"),
              0.01 * instant("seats", "time_s"));
}

TEST(Recorder, FollowsTheReferencesWaveformAllTheWay) {
  const auto scene = scene_at("tests/circuit/case_2.yaml");
  const auto answers = measured(scene, {"record:A:relay", "record:V:supply"}, 0, 1.54, 1e-4);
  const circuit::Table table = circuit::Table::read("case2_waveform");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double t = *table.number(row, "time_s");
    const auto k = static_cast<std::size_t>(std::lround(t / 1e-4));
    EXPECT_NEAR(std::get<Channel>(answers[0]).samples[k], *table.number(row, "relay.current"),
                0.005 * 0.19438865)
        << t;
    EXPECT_NEAR(std::get<Channel>(answers[1]).samples[k], *table.number(row, "supply.volts"),
                0.005 * 30)
        << t;
  }
}

TEST(Stethoscope, HearsARelayStrikeItsStops) {
  const auto answers =
      measured(scene_at("scenes/bench-minimal.yaml"), {"listen:minute_relay"}, 30, 40);
  std::vector<std::string> kinds;
  for (const Stethoscope::Heard& h : std::get<Heard>(answers[0])) kinds.push_back(h.kind);
  EXPECT_THAT(kinds,
              testing::ElementsAre("starts", "makes", "seats", "leaves", "breaks", "returns"));
  EXPECT_GT(std::get<Heard>(answers[0])[2].speed_m_per_s, 0.1);
}

TEST(Tally, CountsAnHoursSteps) {
  const auto answers =
      measured(scene_at("scenes/bench-minimal.yaml"), {"tally:hall_clock.seats"}, 0, 3600);
  EXPECT_EQ(std::get<Counts>(answers[0]), (Counts{{"seats", 60}}));
}

/// Reading of a part after some time. Units: s.
double reading_at(const std::shared_ptr<const Installation>& scene, const std::string& part,
                  const std::string& reading, double t) {
  Session session(scene);
  session.run_until(from_seconds(t));
  const PartInstance& found = *scene->find(part);
  return session.read(static_cast<PartId>(&found - scene->parts.data()),
                      index_of(found.kind->declaration.readings, reading));
}

// What the dial gains in a day by true time.
TEST(BeatTimer, TellsTheRateThatTheNutWasTurnedTo) {
  const auto scene = scene_at("scenes/bench-minimal.yaml", {"10 s movement.turn_nut 0.2 turn"});
  const double from = 6 * 3600, to = 7 * 3600;  // the arc has settled by then
  const auto answers = measured(scene, {"beat:movement"}, from, to);
  const BeatReading& beats = *std::get<Beats>(answers[0]);
  const double gained =
      reading_at(scene, "movement", "error", to) - reading_at(scene, "movement", "error", from);
  EXPECT_GT(std::fabs(beats.rate_s_per_day), 5);
  EXPECT_NEAR(beats.rate_s_per_day, gained * 24, beats.rate_uncertainty);
  EXPECT_EQ(beats.beats_per_hour, 3600);
}

TEST(BeatTimer, AgreesWithWhatTheEscapementSaysOfTickAndTock) {
  const auto scene = scene_at("scenes/bench-minimal.yaml", {}, {"movement.crutch_offset=0.3 deg"});
  const auto answers = measured(scene, {"beat:movement"}, 6 * 3600, 6 * 3600 + 60);
  const BeatReading& beats = *std::get<Beats>(answers[0]);
  const double tick = reading_at(scene, "movement", "tick", 6 * 3600 + 30);
  const double tock = reading_at(scene, "movement", "tock", 6 * 3600 + 30);
  EXPECT_NEAR(std::min(beats.tick_s, beats.tock_s), std::min(tick, tock),
              beats.interval_uncertainty_s);
  EXPECT_NEAR((tick + tock) / 2, 1, 1e-5);  // both hold what the push delays
}

TEST(BeatTimer, HearsThatAClockIsOutOfBeat) {
  const auto even = measured(scene_at("scenes/bench-minimal.yaml"), {"beat:movement"}, 60, 120);
  const auto odd =
      measured(scene_at("scenes/bench-minimal.yaml", {}, {"movement.crutch_offset=0.3 deg"}),
               {"beat:movement"}, 60, 120);
  EXPECT_LT(std::get<Beats>(even[0])->beat_error_s, 1e-4);
  EXPECT_GT(std::get<Beats>(odd[0])->beat_error_s, 0.01);
  EXPECT_NEAR(std::get<Beats>(odd[0])->rate_s_per_day, std::get<Beats>(even[0])->rate_s_per_day,
              30);
}

TEST(BeatTimer, HearsNothingOfAClockThatStands) {
  const auto answers = measured(scene_at("scenes/bench-minimal.yaml", {"1 s movement.stop"}),
                                {"beat:movement"}, 60, 120);
  EXPECT_FALSE(std::get<Beats>(answers[0]).has_value());
}

TEST(Meters, LeaveNoTraceOnceTheyAreTakenOff) {
  const auto scene = scene_at("scenes/bench-minimal.yaml");
  auto hookup = std::make_shared<Hookup>();
  const auto relay = scene->find_id("minute_relay").value();
  *hookup = {{relay, "coil_a"}, {relay, "coil_b"}, false, 10e6};
  Action on, off;
  on.at = 10 * kMinute;
  on.hookup = off.hookup = hookup;
  off.at = 20 * kMinute;
  off.clears = true;
  Session plain(scene), with(scene);
  ASSERT_TRUE(with.act(on));
  ASSERT_TRUE(with.act(off));
  plain.run_until(kHour);
  with.run_until(kHour);
  const auto strokes = [&](Session& s) {
    const PartInstance& clock = *scene->find("hall_clock");
    return s.read(static_cast<PartId>(&clock - scene->parts.data()),
                  index_of(clock.kind->declaration.readings, "steps"));
  };
  EXPECT_EQ(strokes(with), strokes(plain));
  EXPECT_TRUE(with.build().tapped.empty());
}

TEST(Meters, LaidOnLiveAreFoundAgainBySeekingAndWithoutReuse) {
  const auto scene = scene_at("scenes/bench-minimal.yaml");
  const auto relay = scene->find_id("minute_relay").value();
  Action on;
  on.at = 65 * kSecond + 300 * kMillisecond;  // while the coil is on
  on.hookup = std::make_shared<const Hookup>(Hookup{{relay, "coil_a"}, {}, true, 5});
  Session::Options anew;
  anew.reuse_transients = false;
  Session straight(scene), sought(scene), without(scene, anew);
  for (Session* s : {&straight, &sought, &without}) ASSERT_TRUE(s->act(on));
  straight.run_until(10 * kMinute);
  without.run_until(10 * kMinute);
  sought.run_until(kHour);
  sought.seek(30 * kSecond);
  sought.seek(10 * kMinute);
  EXPECT_EQ(straight.state_hash(), sought.state_hash());
  EXPECT_EQ(straight.state_hash(), without.state_hash());
}

TEST(Orders, AreRefusedWithWhatThereIs) {
  const auto scene = scene_at("scenes/bench-minimal.yaml");
  const auto refusal = [&](const std::string& order) { return mistakes_in(scene, {order}); };
  EXPECT_THAT(refusal("V:minute_relay"), HasSubstr("minute_relay.coil, minute_relay.contact"));
  EXPECT_THAT(refusal("V:minute_relay.coil_a"), HasSubstr("two terminals with .. between"));
  EXPECT_THAT(refusal("V:nobody"), HasSubstr("there is no part \"nobody\""));
  EXPECT_THAT(refusal("V:supply,range=30 V"), HasSubstr("0.4 V, 4 V, 40 V, 400 V"));
  EXPECT_THAT(refusal("V:supply,as=neddle"), HasSubstr("did you mean \"needle\"?"));
  EXPECT_THAT(refusal("ohm:supply,range=4 V"), HasSubstr("leave it out"));
  EXPECT_THAT(refusal("W:supply"), HasSubstr("no instrument \"W\""));
  EXPECT_THAT(refusal("supply"), HasSubstr("a colon"));
  EXPECT_THAT(refusal("beat:supply"), HasSubstr("does not beat"));
  EXPECT_THAT(refusal("temperature:supply"), HasSubstr("nothing tells its temperature"));
  EXPECT_THAT(refusal("tally:supply.strokes"), HasSubstr("no kind of event"));
  EXPECT_THAT(refusal("record:ohm:supply"), HasSubstr("record:V:WHERE"));
  EXPECT_THAT(refusal("record:supply.colour"), HasSubstr("no reading \"colour\""));
  EXPECT_THAT(mistakes_in(scene, {"record:V:supply", "record:V:bell", "record:A:bell"}),
              HasSubstr("two channels"));
}

}  // namespace
}  // namespace sixty
