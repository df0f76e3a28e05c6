// The scenes that come with the program, each for a week, one
// of them for a year: every step, stroke and ring.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/part_list.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"
#include "tests/models/report_rows.hpp"

namespace sixty {
namespace {

#ifdef NDEBUG  // minutes, not seconds, without optimisation

/// The scene's report after so much time.
Report after(const std::string& scene, SimTime time) {
  static const Registry parts = models::registry();
  Diagnostics diagnostics;
  const auto installation = load_scene(std::string(SIXTY_SOURCE_DIR) + "/scenes/" + scene + ".yaml",
                                       parts, {}, diagnostics);
  EXPECT_NE(installation, nullptr) << diagnostics.to_text();
  if (installation == nullptr) return {};
  Session session(installation);
  session.run_until(time);
  return session.report();
}

void expect_right_clocks(const Report& report, std::size_t clocks, std::int64_t minutes) {
  EXPECT_EQ(rows_of(report, "secondaries").size(), clocks);
  for (const Row& clock : rows_of(report, "secondaries")) {
    const std::string id = text_in(clock, "id");
    EXPECT_EQ(count_in(clock, "steps"), minutes) << id;
    EXPECT_EQ(count_in(clock, "missed"), 0) << id;
    EXPECT_EQ(count_in(clock, "extra"), 0) << id;
    EXPECT_EQ(count_in(clock, "error_min"), 0) << id;
  }
  const Row& rewind = rows_of(report, "rewind").at(0);
  EXPECT_EQ(count_in(rewind, "strokes"), minutes);
  EXPECT_EQ(count_in(rewind, "missed"), 0);
}

struct Zone {
  std::int64_t number = 0, rings = 0;
};

void expect_right_rings(const Report& report, const std::vector<Zone>& zones) {
  const std::vector<Row>& told = rows_of(report, "zones");
  ASSERT_EQ(told.size(), zones.size());
  for (std::size_t k = 0; k < zones.size(); ++k) {
    EXPECT_EQ(count_in(told[k], "zone"), zones[k].number);
    EXPECT_EQ(count_in(told[k], "rung"), zones[k].rings) << "zone " << zones[k].number;
    EXPECT_EQ(count_in(told[k], "missed"), 0) << "zone " << zones[k].number;
    EXPECT_EQ(count_in(told[k], "unasked"), 0) << "zone " << zones[k].number;
  }
  for (const Row& bell : rows_of(report, "bells")) {
    const auto zone = std::find_if(zones.begin(), zones.end(), [&](const Zone& z) {
      return z.number == count_in(bell, "zone");
    });
    ASSERT_NE(zone, zones.end());
    EXPECT_EQ(count_in(bell, "rings"), zone->rings) << text_in(bell, "id");
    EXPECT_GT(count_in(bell, "strokes"), 40 * zone->rings) << text_in(bell, "id");
  }
}

/// No warning, rings of the right length, a good rate, and no weakest point within so much of what
/// it needs that a technician would worry.
void expect_sound(const Report& report) {
  EXPECT_EQ(report.warnings(), std::vector<std::string>{});
  for (const Row& ring : rows_of(report, "rings")) EXPECT_NEAR(number_in(ring, "for_s"), 5, 0.05);
  EXPECT_NEAR(number_in(rows_of(report, "master").at(0), "rate_s_per_day"), 0, 0.2);
  for (const Row& point : rows_of(report, "margins")) {
    EXPECT_GT(number_in(point, "arrived_v"), 1.2 * number_in(point, "needed_v"))
        << text_in(point, "part");
  }
}

void expect_right_week(const std::string& scene, std::size_t clocks, std::size_t bells,
                       const std::vector<Zone>& zones) {
  const Report report = after(scene, kWeek + 50 * kSecond);
  expect_sound(report);
  expect_right_clocks(report, clocks, 10081);
  EXPECT_EQ(rows_of(report, "bells").size(), bells);
  expect_right_rings(report, zones);
}

// Seventeen a day and ten on Saturday; six; six on four evenings; six: 52 weeks and a Monday.
TEST(TechnicalSchoolTest, IsRightInEveryStepAndRingOfAYear) {
  const Report report = after("technical-school", 365 * kDay + 50 * kSecond);
  expect_sound(report);
  expect_right_clocks(report, 36, 365 * 1440 + 1);
  expect_right_rings(report,
                     {{1, 52 * 95 + 17}, {2, 52 * 30 + 6}, {3, 52 * 24 + 6}, {4, 52 * 30 + 6}});
}

TEST(CornerSchoolTest, IsRightInEveryStepAndRingOfAWeek) {
  expect_right_week("corner-school", 20, 9, {{1, 65}, {2, 20}, {3, 30}});
}

TEST(DryCellMillTest, IsRightInEveryStepAndRingOfAWeek) {
  expect_right_week("dry-cell-mill", 16, 4, {{1, 30}, {2, 18}});
}

// 20 working days and 24 days of shifts on one set of cells.
TEST(DryCellMillTest, IsRightInEveryStepAndRingOfAMonth) {
  const Report report = after("dry-cell-mill", 28 * kDay + 50 * kSecond);
  EXPECT_EQ(report.warnings(), std::vector<std::string>{});
  expect_right_clocks(report, 16, 28 * 1440 + 1);
  expect_right_rings(report, {{1, 20 * 6}, {2, 24 * 3}});
}

TEST(CollegeLargeTest, IsRightInEveryStepAndRingOfAWeek) {
  expect_right_week("college-large", 200, 7, {{1, 70}, {2, 16}, {3, 25}});
}

#endif

}  // namespace
}  // namespace sixty
