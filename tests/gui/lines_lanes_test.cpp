// Lanes of the lines of clocks and of the zones.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "gui/strip/export.hpp"
#include "gui/strip/loop_lanes.hpp"
#include "gui/views/stage.hpp"
#include "tests/gui/first_minute.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kSchool = "technical-school";
constexpr SimTime kEight = 8 * kHour;

std::vector<std::string> names(const Installation& scene, const std::vector<LaneOf>& lanes) {
  std::vector<std::string> all;
  for (const LaneOf& lane : lanes) all.push_back(name_of(scene, lane));
  return all;
}

TEST(LinesLanes, BearTheNamesOfTheBuildingsLegendInItsOrder) {
  const auto scene = bench_scene({}, kSchool);
  std::vector<std::string> legend;
  for (const Loop& loop : find_loops(*scene)) legend.push_back(loop.name);
  const std::vector<LaneOf> lanes = lanes_of_loops(*scene);
  EXPECT_EQ(names(*scene, lanes), legend);
  ASSERT_EQ(legend.size(), 7);
  EXPECT_EQ(legend.front(), "ground floor");
  EXPECT_EQ(legend.back(), "zone 4");
  for (const LaneOf& lane : lanes) EXPECT_EQ(reading_of(*scene, lane).unit, "A");
}

/// What goes in from the case is what all that hangs on it take together.
TEST(LinesLanes, AreWhatTheDrawingsLinesCarry) {
  const auto scene = bench_scene({}, kSchool);
  const std::vector<LaneOf> lanes = lanes_of_loops(*scene);
  Session session(scene);
  Stage stage(*scene);
  std::set<std::size_t> seen;
  for (const SimTime at : {kEight + 15 * kSecond + 80 * kMillisecond,
                           kEight + 35 * kSecond + 70 * kMillisecond, kEight + 36 * kSecond}) {
    session.seek(at);
    stage.look(session);
    for (std::size_t k = 0; k < lanes.size(); ++k) {
      const double drawn_a = stage.lines().loop_a(k);
      EXPECT_NEAR(value_of(session, lanes[k]), drawn_a, 0.01 * drawn_a + 1e-6) << at << " " << k;
      if (drawn_a > 0.01) seen.insert(k);
    }
  }
  // Three lines of clocks, and the zone that rings at eight.
  EXPECT_EQ(seen, (std::set<std::size_t>{0, 1, 2, 3}));
}

TEST(LinesLanes, AreInTheStripWithoutBeingAskedFor) {
  const auto scene = bench_scene({}, kSchool);
  Strip strip(scene, scene);
  const auto in_case = names(*scene, strip.lanes());
  const auto place = [](const std::vector<std::string>& all, const std::string& name) {
    return std::find(all.begin(), all.end(), name) - all.begin();
  };
  // In the order of cause.
  EXPECT_LT(place(in_case, "arm b"), place(in_case, "rewind, strokes"));
  EXPECT_LT(place(in_case, "rewind, strokes"), place(in_case, "tape, row"));
  EXPECT_LT(place(in_case, "tape, row"), place(in_case, "minute relay"));
  EXPECT_LT(place(in_case, "minute relay"), place(in_case, "ground floor"));
  EXPECT_LT(place(in_case, "ground floor"), place(in_case, "zone 1"));
  EXPECT_LT(place(in_case, "zone 1"), place(in_case, "supply, volts"));
  // Seen from afar, they stand right behind the contacts.
  strip.look_from_afar(true);
  const auto of_house = names(*scene, strip.lanes());
  EXPECT_EQ(place(of_house, "ground floor"), 3);
  EXPECT_LT(place(of_house, "zone 4"), place(of_house, "minute relay"));
  // What somebody has chosen stays, from wherever it is looked at.
  strip.set_lanes({strip.lines().front()});
  strip.look_from_afar(false);
  EXPECT_EQ(names(*scene, strip.lanes()), (std::vector<std::string>{"ground floor"}));
}

TEST(LinesLanes, AreKeptInFilesWithTheOthers) {
  const auto scene = bench_scene({}, kSchool);
  Strip strip(scene, scene);
  strip.set_lanes({strip.lines()[0], strip.lines()[3]});
  show_first_minute(strip, *scene);
  const LaneTable table = lane_table(strip);
  const std::string csv = csv_of(table, *scene, strip.lanes());
  EXPECT_EQ(
      csv.rfind("time_s,ground_floor.current [A] every 50 ms,zone_1.current [A] every 50 ms\r\n",
                0),
      0)
      << csv;
  EXPECT_NE(vcd_of(table, *scene, strip.lanes()).find("ground_floor_current"), std::string::npos);
  float most = 0;
  for (const auto& row : table.rows) most = std::max(most, row.values[0]);
  EXPECT_GT(most, 0.1F);
}

}  // namespace
}  // namespace sixty::gui
