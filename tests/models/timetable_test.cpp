// The paper on the wall against the rings that come.
#include <gtest/gtest.h>

#include "tests/models/report_rows.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

/// A zone's relay worked by a key; a bell behind it. 08:00 and 08:02 are asked on workdays.
std::string scene(const std::string& start, const std::string& script) {
  return "scene: Rings\nstart: " + start + R"(
spread: 0
parts:
  supply: {type: supply, sheet: bench_24v}
  key: {type: switch, sheet: case_key}
  zone_relay: {type: relay, sheet: zone_relay}
  bell: {type: bell, sheet: bell_24v, connect: {asked: timetable.asked_2}}
  timetable:
    type: timetable
    set:
      rings:
        - {zone: 2, days: Mon-Fri, at: ["08:02", "08:00"], for: 5 s}
    connect: {zone_2: zone_relay.pulled}
wires:
  plus: [supply.plus, key.a, zone_relay.contact_a]
  coil: [key.b, zone_relay.coil_a]
  to_bell: [zone_relay.contact_b, bell.plus]
  minus: [supply.minus, zone_relay.coil_b, bell.minus]
script:
)" + script;
}

constexpr const char* kRingAt8 = "  - at 15 s: key.close\n  - at 20 s: key.open\n";

const Report::Section* section(const Report& report, const std::string& name) {
  for (const auto& s : report.sections()) {
    if (s.name == name) return &s;
  }
  return nullptr;
}

TEST(TimetableTest, CountsARingInItsMinuteAsAsked) {
  Trial trial(scene("2026-01-05T08:00:00", kRingAt8));
  trial.run_to(61);
  EXPECT_EQ(trial.read("timetable.rung"), 1);
  EXPECT_EQ(trial.read("timetable.missed"), 0);
  EXPECT_EQ(trial.read("timetable.unasked"), 0);
  EXPECT_EQ(trial.read("bell.rings"), 1);
}

TEST(TimetableTest, CountsAMinuteWithoutItsRingAsMissed) {
  Trial trial(scene("2026-01-05T07:59:00", "  - at 1 s: key.open\n"));
  trial.run_to(119);
  EXPECT_EQ(trial.read("timetable.missed"), 0);
  trial.run_to(600);
  EXPECT_EQ(trial.read("timetable.missed"), 2);
}

TEST(TimetableTest, CountsARingOutsideItsMinuteAsUnasked) {
  Trial trial(scene("2026-01-05T08:01:00", kRingAt8));
  trial.run_to(50);
  EXPECT_EQ(trial.read("timetable.unasked"), 1);
  EXPECT_EQ(trial.read("timetable.rung"), 0);
}

TEST(TimetableTest, CountsASecondRingInTheMinuteAsUnasked) {
  Trial trial(scene("2026-01-05T08:00:00",
                    std::string(kRingAt8) + "  - at 30 s: key.close\n  - at 33 s: key.open\n"));
  trial.run_to(59);
  EXPECT_EQ(trial.read("timetable.rung"), 1);
  EXPECT_EQ(trial.read("timetable.unasked"), 1);
}

TEST(TimetableTest, AsksNothingAtTheWeekend) {
  Trial trial(scene("2026-01-10T00:00:00", "  - at 1 s: key.open\n"));  // a Saturday
  trial.run_to(2 * 86400 + 7 * 3600);
  EXPECT_EQ(trial.read("timetable.missed"), 0);
  trial.run_to(2 * 86400 + 9 * 3600);  // Monday
  EXPECT_EQ(trial.read("timetable.missed"), 2);
}

TEST(TimetableTest, TellsBellsWhatWasAsked) {
  Trial trial(scene("2026-01-05T08:00:00", kRingAt8));
  trial.run_to(300);
  const Report report = trial.session().report();
  ASSERT_EQ(rows_of(report, "bells").size(), 1U);
  const Row& bell = rows_of(report, "bells")[0];
  EXPECT_EQ(count_in(bell, "rings"), 1);
  EXPECT_EQ(count_in(bell, "missed"), 1);  // 08:02
  EXPECT_EQ(count_in(bell, "unasked"), 0);
}

TEST(TimetableTest, KeepsAListOfRings) {
  Trial trial(scene("2026-01-05T08:00:00",
                    std::string(kRingAt8) + "  - at 90 s: key.close\n  - at 92 s: key.open\n"));
  trial.run_to(200);
  const Report report = trial.session().report();
  const std::vector<Row>& rings = rows_of(report, "rings");
  ASSERT_EQ(rings.size(), 2U);
  EXPECT_EQ(text_in(rings[0], "at").substr(0, 12), "Mon 08:00:15");
  EXPECT_EQ(count_in(rings[0], "zone"), 2);
  EXPECT_NEAR(number_in(rings[0], "for_s"), 5, 0.02);
  EXPECT_TRUE(value_in<bool>(rings[0], "asked"));
  EXPECT_FALSE(value_in<bool>(rings[1], "asked"));
}

/// The same paper with one more line for Monday 08:00, above the other.
std::string twice(const std::string& script) {
  std::string yaml = scene("2026-01-05T08:00:00", script);
  const std::string line = "        - {zone: 2,";
  return yaml.insert(yaml.find(line), line + " days: Mon, at: [\"08:00\"], for: 2 s}\n");
}

TEST(TimetableTest, AsksForSeveralRingsInAMinuteEachOfItsLength) {
  // Lines of one minute are rings in the order of the lines: here 2 s, then 5 s.
  Trial trial(
      twice("  - at 15 s: key.close\n  - at 17 s: key.open\n"
            "  - at 30 s: key.close\n  - at 35 s: key.open\n"));
  trial.run_to(61);
  EXPECT_EQ(trial.read("timetable.rung"), 2);
  EXPECT_EQ(trial.read("timetable.unasked"), 0);
  EXPECT_TRUE(trial.session().report().warnings().empty());
  Trial one(twice(kRingAt8));
  one.run_to(61);
  EXPECT_EQ(one.read("timetable.rung"), 1);
  EXPECT_EQ(one.read("timetable.missed"), 1);
  EXPECT_EQ(one.session().report().warnings().size(), 3U);  // zone, bell, and its length
}

TEST(TimetableTest, AsksForAPatternOfAlikeRingsByTheirNumber) {
  std::string yaml = scene("2026-01-05T08:00:00", std::string(kRingAt8) +
                                                      "  - at 30 s: key.close\n"
                                                      "  - at 35 s: key.open\n");
  yaml.replace(yaml.find("for: 5 s"), 8, "for: 5 s, times: 3");
  Trial trial(yaml);
  trial.run_to(61);
  EXPECT_EQ(trial.read("timetable.rung"), 2);
  EXPECT_EQ(trial.read("timetable.missed"), 1);
  EXPECT_EQ(trial.read("bell.rings"), 2);
  const Report report = trial.session().report();
  EXPECT_EQ(count_in(rows_of(report, "bells").at(0), "missed"), 1);
  EXPECT_EQ(count_in(rows_of(report, "bells").at(0), "unasked"), 0);
}

TEST(TimetableTest, ALongRingIsNotTwoOfItsOwnMinute) {
  std::string yaml =
      scene("2026-01-05T08:00:00", "  - at 15 s: key.close\n  - at 70 s: key.open\n");
  yaml.replace(yaml.find("for: 5 s"), 8, "for: 55 s, times: 2");
  Trial trial(yaml);
  trial.run_to(100);
  EXPECT_EQ(trial.read("timetable.rung"), 1);
  EXPECT_EQ(trial.read("timetable.missed"), 1);
}

TEST(TimetableTest, ARelayThatSticksRingsOnce) {
  Trial trial(scene("2026-01-05T08:00:00", "  - at 15 s: key.close\n  - at 200 s: key.open\n"));
  trial.run_to(300);
  EXPECT_EQ(trial.read("timetable.rung"), 1);
  EXPECT_EQ(trial.read("timetable.missed"), 1);  // 08:02, in which it never began
}

TEST(TimetableTest, ARingAskedForFromMinuteToMinuteIsRungInEach) {
  std::string yaml =
      scene("2026-01-05T08:00:00", "  - at 5 s: key.close\n  - at 124.9 s: key.open\n");
  const std::string from = R"("08:02", "08:00"], for: 5 s)";
  yaml.replace(yaml.find(from), from.size(), R"("08:00", "08:01"], for: 60 s)");
  Trial trial(yaml);
  trial.run_to(300);
  EXPECT_EQ(trial.read("timetable.rung"), 2);
  EXPECT_EQ(trial.read("timetable.missed"), 0);
  EXPECT_TRUE(trial.session().report().warnings().empty());
}

TEST(TimetableTest, ListsTheRingThatIsUnderWayToo) {
  Trial trial(scene("2026-01-05T08:00:00", kRingAt8));
  trial.run_to(17);
  const Report report = trial.session().report();
  const Report::Section* rings = section(report, "rings");
  ASSERT_NE(rings, nullptr);
  ASSERT_EQ(rings->rows.size(), 1U);
  const auto& cells = rings->rows[0].cells();
  EXPECT_EQ(std::get<std::string>(cells[0].value).substr(0, 12), "Mon 08:00:15");
  EXPECT_EQ(std::get<std::int64_t>(cells[1].value), 2);
  EXPECT_NEAR(std::get<double>(cells[2].value), 2, 0.02);
  EXPECT_TRUE(std::get<bool>(cells[3].value));
}

TEST(TimetableTest, DatesARingAfterTheFirstWeek) {
  Trial trial(scene("2026-01-05T08:00:00",
                    std::string(kRingAt8) + "  - at 7d15s: key.close\n  - at 7d20s: key.open\n"));
  trial.run_to(7 * 86400 + 60);
  const Report report = trial.session().report();
  const Report::Section* rings = section(report, "rings");
  ASSERT_NE(rings, nullptr);
  ASSERT_EQ(rings->rows.size(), 2U);
  EXPECT_EQ(std::get<std::string>(rings->rows[0].cells()[0].value).substr(0, 12), "Mon 08:00:15");
  EXPECT_EQ(std::get<std::string>(rings->rows[1].cells()[0].value).substr(0, 19),
            "2026-01-12T08:00:15");
}

TEST(TimetableTest, WarnsOfRingsThatAreTooShort) {
  Trial trial(scene("2026-01-05T08:00:00", "  - at 15 s: key.close\n  - at 17 s: key.open\n"));
  trial.run_to(59);
  const Report report = trial.session().report();
  ASSERT_EQ(report.warnings().size(), 1U);
  EXPECT_NE(report.warnings()[0].find("shorter"), std::string::npos);
}

}  // namespace
}  // namespace sixty
