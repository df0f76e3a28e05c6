// The strip of time: what it writes is what the run did, at any width of its columns.
#include "gui/strip/export.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gui/paint/text_width.hpp"
#include "gui/strip/axis.hpp"
#include "tests/gui/first_minute.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

std::size_t reading_of(const Installation& scene, PartId part, const std::string& name) {
  const auto& readings = scene.parts[part].kind->declaration.readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].name == name) return k;
  }
  ADD_FAILURE() << name;
  return 0;
}

LaneOf lane_of(const Installation& scene, const char* part, const char* reading, Lane form) {
  const PartId p = scene.find_id(part).value();
  return {p, reading_of(scene, p, reading), form};
}

std::shared_ptr<const Tile> written(Scribe& scribe, SimTime from, SimTime width, SimTime reach) {
  const SimTime length = width * static_cast<SimTime>(Tile::kColumns);
  const SimTime begin = from / length * length;
  scribe.want({from, from + 1, width, reach});
  scribe.wait();
  return scribe.find(begin, width);
}

TEST(Scribe, ColumnsEndWithWhatTheRunReadsThere) {
  const auto scene = bench_scene();
  const LaneOf current = lane_of(*scene, "rewind", "current", Lane::kCurve);
  Scribe scribe(scene);
  scribe.set_lanes({current});
  const SimTime width = 2 * kMillisecond;
  const auto tile = written(scribe, 5 * kSecond + 30 * kMillisecond, width, kMinute);
  ASSERT_NE(tile, nullptr);
  ASSERT_EQ(tile->filled(), Tile::kColumns);
  Session run(scene);
  double most = 0;
  for (std::size_t k = 0; k < Tile::kColumns; ++k) {
    run.seek(tile->from + width * static_cast<SimTime>(k + 1));
    const double value = run.read(current.part, current.reading);
    EXPECT_NEAR(tile->at(k, 0).last, value, 1e-6 * std::fabs(value) + 1e-9) << k;
    most = std::max(most, value);
  }
  EXPECT_GT(most, 0.1);
}

/// A pulse far shorter than a column is still in it.
TEST(Scribe, NoPulseIsLostInAWideColumn) {
  const auto scene = bench_scene();
  Scribe scribe(scene);
  scribe.set_lanes({lane_of(*scene, "arm_b", "closed", Lane::kBar),
                    lane_of(*scene, "rewind", "current", Lane::kCurve),
                    lane_of(*scene, "rewind", "strokes", Lane::kCount)});
  const auto tile = written(scribe, 0, kMinute, kHour);
  ASSERT_NE(tile, nullptr);
  ASSERT_EQ(tile->filled(), 60);
  for (std::size_t k = 0; k < 60; ++k) {
    EXPECT_EQ(tile->at(k, 0).most, 1) << k;
    EXPECT_EQ(tile->at(k, 0).least, 0) << k;
    EXPECT_GT(tile->at(k, 1).most, 0.5) << k;
    EXPECT_EQ(tile->at(k, 2).last - tile->at(k, 2).first, 1) << k;
  }
}

TEST(Scribe, WritesNothingBeyondWhatIsKnown) {
  const auto scene = bench_scene();
  Scribe scribe(scene);
  scribe.set_lanes({lane_of(*scene, "arm_b", "closed", Lane::kBar)});
  const auto tile = written(scribe, 0, kSecond, 10 * kSecond + 1);
  ASSERT_NE(tile, nullptr);
  EXPECT_EQ(tile->filled(), 10);
  EXPECT_EQ(written(scribe, 0, kSecond, 20 * kSecond)->filled(), 20);
}

TEST(Scribe, AnActionChangesWhatComesAfterIt) {
  const auto scene = bench_scene();
  const PartId key = scene->find_id("ring_key").value();
  Scribe scribe(scene);
  scribe.set_lanes({lane_of(*scene, "ring_key", "closed", Lane::kBar)});
  EXPECT_EQ(written(scribe, 0, kSecond, kMinute)->at(30, 0).most, 0);
  Session run(scene);
  std::vector<Action> log = run.log();
  Action press;
  press.at = 30 * kSecond + 1;
  press.part = key;
  const auto& commands = scene->parts[key].kind->declaration.commands;
  while (commands[press.command].name != "press") ++press.command;
  log.push_back(press);
  scribe.set_log(std::make_shared<const std::vector<Action>>(log));
  const auto tile = written(scribe, 0, kSecond, kMinute);
  EXPECT_EQ(tile->at(29, 0).most, 0);
  EXPECT_EQ(tile->at(30, 0).most, 1);
  log.pop_back();
  scribe.set_log(std::make_shared<const std::vector<Action>>(log));
  EXPECT_EQ(written(scribe, 0, kSecond, kMinute)->at(30, 0).most, 0);
}

/// However long the present goes on, and however often the width of the columns is another.
TEST(Scribe, ForgetsWhatLiesFarOffAndWritesItAnewWhereItIsWantedAgain) {
  const auto scene = bench_scene();
  Scribe scribe(scene);
  scribe.set_lanes(std::vector<LaneOf>(200, lane_of(*scene, "rewind", "current", Lane::kCurve)));
  constexpr std::size_t kTile = Tile::kColumns * 200;
  const auto first = written(scribe, 0, kSecond, kMinute * 2);
  ASSERT_NE(first, nullptr);
  const SimTime length = kSecond * static_cast<SimTime>(Tile::kColumns);
  const SimTime tiles = static_cast<SimTime>(Scribe::kMostColumns / kTile) + 8;
  for (SimTime k = 0; k < tiles; ++k) {
    written(scribe, k * length, kSecond, (k + 1) * length);
    EXPECT_LE(scribe.kept().columns, Scribe::kMostColumns) << k;
    EXPECT_LE(scribe.kept().edges, Scribe::kMostEdges) << k;
  }
  EXPECT_GT(scribe.kept().columns, Scribe::kMostColumns - 2 * kTile);
  EXPECT_EQ(scribe.find(0, kSecond), nullptr);
  EXPECT_NE(scribe.find((tiles - 2) * length, kSecond), nullptr);  // near what is shown
  const auto again = written(scribe, 0, kSecond, tiles * length);
  ASSERT_NE(again, nullptr);
  ASSERT_EQ(again->filled(), first->filled());
  for (std::size_t k = 0; k < first->filled(); ++k)
    EXPECT_EQ(again->at(k, 0).last, first->at(k, 0).last) << k;
}

/// What is shown stays whole though it be more than is kept of all else.
TEST(Scribe, NeverForgetsWhatIsShown) {
  const auto scene = bench_scene();
  Scribe scribe(scene);
  scribe.set_lanes(std::vector<LaneOf>(200, lane_of(*scene, "rewind", "current", Lane::kCurve)));
  constexpr std::size_t kTiles = Scribe::kMostColumns / (Tile::kColumns * 200) + 4;
  const SimTime to = kSecond * static_cast<SimTime>(Tile::kColumns * kTiles);
  scribe.want({0, to - 1, kSecond, to});
  scribe.wait();
  EXPECT_EQ(scribe.written({0, to - 1, kSecond, to}, 200).size(), kTiles);
}

TEST(Span, ThePresentStandsStillWhateverIsShown) {
  Span span;
  span.set(90 * kMinute, 100, 1000);
  const float at = span.pixel(90 * kMinute);
  for (const double factor : {0.5, 1e-7, 1e6, 1e9}) {
    span.zoom(factor);
    EXPECT_FLOAT_EQ(span.pixel(90 * kMinute), at);
    EXPECT_GE(span.length(), Span::kLeast);
    EXPECT_LE(span.length(), Span::kMost);
    EXPECT_GE(static_cast<double>(span.column()), 1);
    EXPECT_LE(static_cast<double>(span.column()), std::max(span.per_pixel_ns(), 1.0));
  }
}

TEST(Span, TicksLieApartFromAMicrosecondToTwoWeeks) {
  Span span;
  const CivilClock clock(CalendarTime{20000, 8 * kHour});
  for (SimTime length = kMicrosecond; length <= 2 * kWeek; length = length * 13 / 10) {
    span.set(kWeek, 0, 1000);
    span.set_length(length);
    float last = -1e9F;
    int large = 0;
    for (const Tick& tick : ticks_of(span, clock)) {
      if (tick.text.empty()) continue;
      ++large;
      EXPECT_GE(span.pixel(tick.at) - last, 8) << length << " " << tick.text;
      last = span.pixel(tick.at) + text_width(tick.text, kTickEm);
    }
    EXPECT_GE(large, 2) << length;
    EXPECT_LE(large, 17) << length;
  }
}

TEST(Span, AMidnightBearsItsDay) {
  Span span;
  const CivilClock clock(CalendarTime{20000, 8 * kHour});
  for (const SimTime length : {12 * kHour, kDay, 3 * kDay, kWeek}) {
    span.set(kDay, 0, 1000);
    span.set_length(length);
    int days = 0;
    for (const Tick& tick : ticks_of(span, clock)) {
      EXPECT_NE(tick.text, "00:00") << length;
      days += tick.text == format_weekday_time(clock, 16 * kHour, 0).substr(0, 3);
    }
    EXPECT_GE(days, 1) << length;
  }
}

/// Ten minutes after the start, in the lower part of a window.
void show_ten_minutes(Strip& strip) {
  Course course;
  course.now = course.reach = 10 * kMinute;
  strip.follow(course, {0, 500, 1000, 240});
}

TEST(Strip, DraggingMovesTimeByWhatThePointerCrossed) {
  const auto scene = bench_scene();
  Strip strip(scene, scene);
  show_ten_minutes(strip);
  strip.press({600, 600}, false);
  const auto to = strip.drag({500, 600});
  ASSERT_TRUE(to.has_value());
  EXPECT_NEAR(to_seconds(*to - 10 * kMinute), 100 * strip.span().per_pixel_ns() * 1e-9, 1e-6);
  EXPECT_FALSE(strip.release({500, 600}).has_value());
}

TEST(Strip, AMarkerAtThePresentLeavesTheTimeReadable) {
  const auto scene = bench_scene();
  Strip strip(scene, scene);
  show_ten_minutes(strip);
  strip.mark(10 * kMinute);
  strip.mark(9 * kMinute + 50 * kSecond);
  Painter painter(dark_theme(), {}, {1000, 740});
  strip.paint(painter, {});
  const auto height_of = [&](const std::string& text) {
    for (const Lettering& l : painter.letterings()) {
      if (l.text == text) return l.at.y;
    }
    ADD_FAILURE() << text;
    return 0.0F;
  };
  const float line = height_of("00:10:00.000");
  EXPECT_GT(height_of("1"), line + 15);
  EXPECT_NEAR(height_of("2"), line, 2);
}

TEST(Strip, NothingOfTheRulerIsCoveredByThePresentOrCutOff) {
  const auto scene = bench_scene();
  Strip strip(scene, scene);
  for (const SimTime length : {kMicrosecond, 50 * kMicrosecond, 20 * kMillisecond, kMinute}) {
    strip.span().set_length(length);
    show_ten_minutes(strip);
    Painter painter(dark_theme(), {}, {1000, 740});
    strip.paint(painter, {});
    std::vector<Lettering> ruler;
    for (const Lettering& l : painter.letterings())
      if (std::fabs(l.at.y - painter.letterings().back().at.y) < 3) ruler.push_back(l);
    ASSERT_GE(ruler.size(), 3U) << length;
    for (std::size_t k = 0; k < ruler.size(); ++k) {
      EXPECT_LE(extent_of(ruler[k]).second.x, 1000);
      for (std::size_t j = 0; j < k; ++j) {
        const Lettering &a = ruler[j], &b = ruler[k];
        EXPECT_TRUE(extent_of(a).second.x < extent_of(b).first.x ||
                    extent_of(b).second.x < extent_of(a).first.x)
            << a.text << " | " << b.text << " " << length;
      }
    }
  }
}

TEST(Strip, ALaneThatCountsSaysWhat) {
  const auto scene = bench_scene();
  EXPECT_EQ(name_of(*scene, lane_of(*scene, "rewind", "strokes", Lane::kCount)), "rewind, strokes");
  EXPECT_EQ(name_of(*scene, lane_of(*scene, "arm_b", "closed", Lane::kBar)), "arm b");
}

TEST(Strip, ThePressedPlaceOnTheRulerIsWhereTimeGoes) {
  const auto scene = bench_scene();
  Strip strip(scene, scene);
  show_ten_minutes(strip);
  const float x = strip.span().pixel(10 * kMinute - 20 * kSecond);
  strip.press({x, 540}, false);
  const auto to = strip.release({x, 540});
  ASSERT_TRUE(to.has_value());
  EXPECT_NEAR(to_seconds(*to), 580, 0.1);
}

class LaneFiles : public testing::Test {
 protected:
  void SetUp() override {
    strip_.set_lanes({lane_of(*scene_, "arm_b", "closed", Lane::kBar),
                      lane_of(*scene_, "rewind", "current", Lane::kCurve)});
    show_first_minute(strip_, *scene_);
    table_ = lane_table(strip_);
    // Instant by instant, without a strip.
    Session run(scene_);
    run.seek(table_.rows.front().at);
    for (double before = 0; run.next_change() <= table_.rows.back().at;) {
      run.run_until(run.next_change());
      const double now = read(run, "arm_b.closed");
      if (now != before) changed_.push_back(run.now());
      before = now;
    }
  }
  std::shared_ptr<const Installation> scene_ = bench_scene();
  Strip strip_{scene_, scene_};
  LaneTable table_;
  std::vector<SimTime> changed_;  ///< in what is shown
};

/// The file that another program reads says what the lanes show.
TEST_F(LaneFiles, HaveALineForEachSampleAndForEachChangeOfAState) {
  ASSERT_GE(changed_.size(), 2);
  const auto samples = std::count_if(table_.rows.begin(), table_.rows.end(),
                                     [](const LaneTable::Row& row) { return row.is_sample; });
  EXPECT_GT(samples, 100);
  EXPECT_EQ(table_.rows.size(), static_cast<std::size_t>(samples) + changed_.size());
  const std::string csv = csv_of(table_, *scene_, strip_.lanes());
  EXPECT_EQ(csv.rfind("time_s,arm_b.closed at each change,rewind.current [A] every 50 ms\r\n", 0),
            0)
      << csv.substr(0, 99);
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'),
            static_cast<std::ptrdiff_t>(table_.rows.size() + 1));
}

TEST_F(LaneFiles, TellStatesAtTheirExactInstantsAndWhichTheyAre) {
  const std::string vcd = vcd_of(table_, *scene_, strip_.lanes());
  EXPECT_NE(vcd.find("$var wire 1 ! arm_b_closed $end"), std::string::npos) << vcd;
  EXPECT_NE(vcd.find("$var real 64 \" rewind_current $end"), std::string::npos);
  EXPECT_NE(vcd.find("Sampled are: rewind_current."), std::string::npos);
  const std::string csv = csv_of(table_, *scene_, strip_.lanes());
  bool closed = false;
  for (const SimTime at : changed_) {
    closed = !closed;
    EXPECT_NE(vcd.find(fmt::format("\n#{}\n{}!\n", at, closed ? 1 : 0)), std::string::npos) << at;
    const std::string line =
        fmt::format("\n{}.{:09},{},\r\n", at / kSecond, at % kSecond, closed ? 1 : 0);
    EXPECT_NE(csv.find(line), std::string::npos) << at;
  }
}

TEST_F(LaneFiles, TellTheSameOfAStateHoweverWideTheirColumnsAre) {
  Strip wide(scene_, scene_);
  wide.set_lanes(strip_.lanes());
  wide.span().set_length(kHour);
  Course course;
  course.now = course.reach = kMinute;
  course.log = std::make_shared<const std::vector<Action>>(scene_->script);
  wide.follow(course, {0, 500, 1000, 240});
  wide.wait();
  std::vector<SimTime> told;
  for (const LaneTable::Row& row : lane_table(wide).rows) {
    if (row.changes[0] != 0 && row.at > table_.rows.front().at) told.push_back(row.at);
  }
  while (!told.empty() && told.back() > table_.rows.back().at) told.pop_back();
  EXPECT_EQ(told, changed_);
}

/// What no instrument of the trade tells from nothing is told as nothing.
/// Of a coil fed through its contact: what stands at it, and the kick as it is cut off.
TEST(Axis, AKickDoesNotSetTheScaleOfTheVoltsThatStay) {
  Reach reach;
  reach.take(Column{0, 24, 0, 24.5F});
  reach.take(Column{24, 0, -122, 24.5F});
  const Axis axis = axis_of(reach, true);
  EXPECT_EQ(axis.high, 50);
  EXPECT_EQ(axis.low, -50);
  EXPECT_TRUE(axis.is_beyond_low);
  EXPECT_FALSE(axis.is_beyond_high);
  EXPECT_EQ(axis.clamped(-122), -50);
}

TEST(Axis, OfPulsesShorterThanAColumnTheSignTellsTheKick) {
  Reach reach;
  reach.take(Column{0, 0, -122, 24.5F});
  EXPECT_EQ(axis_of(reach, true).high, 50);
  EXPECT_TRUE(axis_of(reach, true).is_beyond_low);
}

TEST(Axis, AKickLookedAtFromNearIsWhole) {
  Reach reach;
  reach.take(Column{-80, -120, -122, -80});
  const Axis axis = axis_of(reach, true);
  EXPECT_LE(axis.low, -122);
  EXPECT_FALSE(axis.is_beyond_low);
}

TEST(Axis, NoPulseOfACurrentIsCutOff) {
  Reach reach;
  reach.take(Column{0, 0.01F, 0, 1.2F});
  const Axis axis = axis_of(reach, false);
  EXPECT_GE(axis.high, 1.2);
  EXPECT_FALSE(axis.is_beyond_high);
}

TEST(Lanes, WhatIsLeftOfACurrentThatDiesAwayIsNone) {
  NamedDecl current;
  current.name = "current";
  current.unit = "A";
  EXPECT_EQ(shown_text(3e-10, current), "0 A");
  EXPECT_EQ(shown_text(-3e-10, current), "0 A");
  EXPECT_EQ(shown_text(3e-6, current), "3 uA");
}

}  // namespace
}  // namespace sixty::gui
