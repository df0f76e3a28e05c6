// The paper on the wall against the rings that come.
#include <gtest/gtest.h>

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
  const Report::Section* bells = section(report, "bells");
  ASSERT_NE(bells, nullptr);
  const auto cells = bells->rows.at(0).cells();
  const auto count = [&](const std::string& key) {
    for (const Cell& cell : cells) {
      if (cell.key == key) return std::get<std::int64_t>(cell.value);
    }
    return std::int64_t{-1};
  };
  EXPECT_EQ(count("rings"), 1);
  EXPECT_EQ(count("missed"), 1);  // 08:02
  EXPECT_EQ(count("unasked"), 0);
}

TEST(TimetableTest, KeepsAListOfRings) {
  Trial trial(scene("2026-01-05T08:00:00",
                    std::string(kRingAt8) + "  - at 90 s: key.close\n  - at 92 s: key.open\n"));
  trial.run_to(200);
  const Report report = trial.session().report();
  const Report::Section* rings = section(report, "rings");
  ASSERT_NE(rings, nullptr);
  ASSERT_EQ(rings->rows.size(), 2U);
  const auto& cells = rings->rows[0].cells();
  EXPECT_EQ(std::get<std::string>(cells[0].value).substr(0, 12), "Mon 08:00:15");
  EXPECT_EQ(std::get<std::int64_t>(cells[1].value), 2);
  EXPECT_NEAR(std::get<double>(cells[2].value), 5, 0.02);
  EXPECT_TRUE(std::get<bool>(cells[3].value));
  EXPECT_FALSE(std::get<bool>(rings->rows[1].cells()[3].value));
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
