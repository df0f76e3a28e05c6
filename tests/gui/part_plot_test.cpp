// The plot of a part's current as it happens.
#include "gui/bench/part_plot.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

/// Contact B makes at second 35, and is closed for two.
constexpr SimTime kMade = 34 * kSecond + 992'012'000;

class BurstTest : public testing::Test {
 protected:
  std::optional<Burst> burst(const char* part, SimTime now) {
    const auto lanes = lanes_of_plot(*scene_, scene_->find_id(part).value());
    return lanes.empty() ? std::nullopt : burst_before(session_, lanes, now);
  }
  std::shared_ptr<const Installation> scene_ = bench_scene();
  Session session_{scene_};
};

TEST_F(BurstTest, BeginsWithTheContactThatFeedsTheCoil) {
  const auto found = burst("minute_relay", kMade + 40 * kMillisecond);
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(to_seconds(found->begins), 34.992, 1e-3);
  EXPECT_EQ(scene_->parts[found->by].name, "arm_b");
  std::vector<std::string> kinds;
  for (const Burst::Event& event : found->events) kinds.push_back(event.kind);
  EXPECT_EQ(kinds, (std::vector<std::string>{"starts", "makes", "seats"}));
  EXPECT_LE(found->events.back().at, found->ends);
  EXPECT_GT(found->events.front().at, found->begins);
}

/// It is known as soon as the current begins to rise, long before the armature sets out.
TEST_F(BurstTest, IsFoundWhileItHappens) {
  const auto found = burst("minute_relay", kMade + kMillisecond);
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(to_seconds(found->begins), 34.992, 1e-3);
  EXPECT_TRUE(found->events.empty());
}

/// Also where that contact bounces.
TEST_F(BurstTest, OfASecondaryBeginsWithTheRelaysContact) {
  const auto found = burst("hall_clock", kMade + 45 * kMillisecond);
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(scene_->parts[found->by].name, "minute_relay");
  ASSERT_FALSE(found->events.empty());
  EXPECT_GT(found->events.front().at, found->begins + 3 * kMillisecond);
}

TEST_F(BurstTest, TheNextIsAnotherOne) {
  const auto found = burst("minute_relay", 38 * kSecond);
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(to_seconds(found->begins), 36.992, 2e-3);
}

TEST_F(BurstTest, StandsWhereItStoodAndFindsTheSameFromBothSides) {
  session_.seek(kHour);
  const auto before = session_.state_hash();
  const auto one = burst("rewind", 5 * kMinute + 6 * kSecond);
  EXPECT_EQ(session_.state_hash(), before);
  session_.seek(0);
  const auto other = burst("rewind", 5 * kMinute + 6 * kSecond);
  ASSERT_TRUE(one && other);
  EXPECT_EQ(one->begins, other->begins);
  EXPECT_EQ(one->ends, other->ends);
}

TEST_F(BurstTest, NothingIsFoundWhereNothingHasHappened) {
  EXPECT_FALSE(burst("minute_relay", 30 * kSecond).has_value());
}

TEST(PlotWindow, HoldsAllOfABurstAndStaysWhileTimeGoesOn) {
  const Burst burst{kMade, kMade + 17 * kMillisecond, 0, "makes", {}};
  for (SimTime after = 0; after < 10 * kSecond; after = after * 5 / 4 + kMillisecond / 2) {
    const Stretched window = window_of(burst, kMade + after);
    EXPECT_LT(window.from, kMade);
    EXPECT_GE(window.from + window.length, kMade + std::min(after, 17 * kMillisecond)) << after;
    EXPECT_LE(window.length, 50 * kMillisecond);
  }
  EXPECT_LE(window_of(burst, kMade + kMillisecond).length, 20 * kMillisecond);
  const Stretched later = window_of(burst, kMade + kSecond);
  EXPECT_EQ(window_of(burst, kMade + kMinute).from, later.from);
}

TEST(PlotWindow, OfALongRingTheEndIsSeen) {
  const Burst burst{kMade, kMade + 5 * kSecond, 0, "strikes", {}};
  const Stretched window = window_of(burst, burst.ends + 10 * kMillisecond);
  EXPECT_LE(window.from, burst.ends - 300 * kMillisecond);
  EXPECT_GT(window.from + window.length, burst.ends);
}

/// Pulling in, let go, and of a clock on the line: as long as current or gap change, the present is
/// in the window.
TEST_F(BurstTest, TheWindowHoldsThePresentWhileCurrentOrGapChange) {
  constexpr double kSeen = 0.03;  // of its largest, in a millisecond
  for (const char* part : {"minute_relay", "hall_clock"}) {
    const auto lanes = lanes_of_plot(*scene_, scene_->find_id(part).value());
    ASSERT_EQ(lanes.size(), 2);
    for (const SimTime from : {kMade, kMade + 2 * kSecond}) {
      const std::array<double, 2> largest{0.15, 1e-3};
      int changing = 0;
      for (SimTime now = from + 2 * kMillisecond; now < from + 150 * kMillisecond;
           now += kMillisecond) {
        Session run(scene_);
        run.seek(now - kMillisecond);
        const std::array before{value_of(run, lanes[0]), value_of(run, lanes[1])};
        run.run_until(now);
        bool changes = false;
        for (std::size_t k = 0; k < 2; ++k)
          changes |= std::fabs(value_of(run, lanes[k]) - before[k]) > kSeen * largest[k];
        if (!changes) continue;
        ++changing;
        const auto found = burst_before(session_, lanes, now);
        ASSERT_TRUE(found.has_value());
        const Stretched window = window_of(*found, now);
        EXPECT_LE(now, window.from + window.length) << part << " " << now - from;
      }
      EXPECT_GT(changing, 3) << part;
    }
  }
}

class PartPlotTest : public testing::Test {
 protected:
  explicit PartPlotTest(const char* part = "minute_relay")
      : bench_{opening(scene_, part)}, plot_{scene_} {}
  void look(SimTime at) {
    bench_.runner().jump(at);
    bench_.take_all();
    plot_.follow(bench_, View::kPart, kCanvas);
    plot_.wait(bench_, View::kPart, kCanvas);
  }
  static Opening opening(const std::shared_ptr<const Installation>& scene, const char* part) {
    Opening opening;
    opening.installation = opening.sound = scene;
    opening.part = scene->find_id(part);
    opening.view = View::kPart;
    return opening;
  }
  const sf::FloatRect kCanvas{0, 44, 947, 548};
  std::shared_ptr<const Installation> scene_ = bench_scene();
  Bench bench_;
  PartPlot plot_;
};

/// As the armature comes to its seat the current falls, and rises again behind it.
TEST_F(PartPlotTest, ShowsTheDipAsTheArmatureSeats) {
  look(kMade + 36 * kMillisecond);
  ASSERT_TRUE(plot_.burst().has_value());
  ASSERT_EQ(plot_.burst()->events.back().kind, "seats");
  const SimTime seats = plot_.burst()->events.back().at;
  double before = 0, least = 1, after = 0;
  SimTime least_at = 0;
  for (const auto& tile : plot_.written()) {
    for (std::size_t k = 0; k < tile->filled(); ++k) {
      const SimTime end = tile->from + tile->width * static_cast<SimTime>(k + 1);
      const double value = static_cast<double>(tile->at(k, 0).last);
      if (end < plot_.burst()->begins) continue;
      if (end <= seats) before = std::max(before, value);
      if (end > seats - 3 * kMillisecond && end < seats + 3 * kMillisecond && value < least) {
        least = value;
        least_at = end;
      }
      after = value;
    }
  }
  EXPECT_NEAR(to_seconds(least_at), to_seconds(seats), 2e-4);
  EXPECT_LT(least, 0.7 * before);
  EXPECT_GT(after, 1.3 * least);
}

TEST_F(PartPlotTest, FollowsBackAndForward) {
  look(kMade + 36 * kMillisecond);
  const SimTime first = plot_.burst()->begins;
  look(10 * kMinute + 36 * kSecond);
  EXPECT_NEAR(to_seconds(plot_.burst()->begins - first), 600, 5e-3);
  EXPECT_GT(plot_.span().to(), plot_.burst()->begins);
  look(kMade + 36 * kMillisecond);
  EXPECT_EQ(plot_.burst()->begins, first);
}

TEST_F(PartPlotTest, TakesItsRoomFromThePartsDrawingOnly) {
  const auto part = scene_->find_id("minute_relay");
  const sf::FloatRect rest = plot_.rest_of(kCanvas, View::kPart, part);
  EXPECT_LT(rest.height, kCanvas.height - 120);
  EXPECT_EQ(plot_.rest_of(kCanvas, View::kCase, part), kCanvas);
  EXPECT_EQ(plot_.rest_of(kCanvas, View::kPart, scene_->find_id("timetable")), kCanvas);
}

bool overlap(const Lettering& a, const Lettering& b) {
  const auto [a_low, a_high] = extent_of(a);
  const auto [b_low, b_high] = extent_of(b);
  return a_low.x < b_high.x && b_low.x < a_high.x && a_low.y < b_high.y && b_low.y < a_high.y;
}

/// What it says is read, in a window of any size and at any moment: no word lies on another.
TEST_F(PartPlotTest, ItsWordsKeepApart) {
  for (const SimTime after : {kMillisecond / 2, 5 * kMillisecond, 12 * kMillisecond,
                              18 * kMillisecond, 40 * kMillisecond, kSecond, 3 * kSecond}) {
    look(kMade + after);
    for (const sf::FloatRect& canvas :
         {sf::FloatRect(0, 44, 400, 320), kCanvas, sf::FloatRect(0, 44, 1500, 755)}) {
      plot_.follow(bench_, View::kPart, canvas);
      Painter painter(dark_theme(), {}, {1920, 1080});
      plot_.paint(painter);
      const std::vector<Lettering>& all = painter.letterings();
      for (std::size_t k = 0; k < all.size(); ++k) {
        for (std::size_t j = 0; j < k; ++j)
          EXPECT_FALSE(overlap(all[k], all[j]))
              << all[k].text << " | " << all[j].text << " " << after << " " << canvas.width;
      }
    }
  }
}

class PlotOfAClock : public PartPlotTest {
 protected:
  PlotOfAClock() : PartPlotTest("hall_clock") {}
};

/// As the contact parts, its coil drives a little current the other way.
TEST_F(PlotOfAClock, EndsOfItsAxesKeepApartWhereALittleLiesBeyondNothing) {
  look(kMade + 2100 * kMillisecond);
  plot_.follow(bench_, View::kPart, kCanvas);
  double least = 0;
  for (const auto& tile : plot_.written()) {
    for (std::size_t k = 0; k < tile->filled(); ++k)
      least = std::min(least, static_cast<double>(tile->at(k, 0).least));
  }
  ASSERT_LT(least, -1e-3);
  Painter painter(dark_theme(), {}, {1280, 800});
  plot_.paint(painter);
  const std::vector<Lettering>& all = painter.letterings();
  bool has_nothing = false;
  for (std::size_t k = 0; k < all.size(); ++k) {
    has_nothing |= all[k].text == "0 mm";
    for (std::size_t j = 0; j < k; ++j)
      EXPECT_FALSE(overlap(all[k], all[j])) << all[k].text << " | " << all[j].text;
  }
  EXPECT_TRUE(has_nothing);
}

TEST_F(PartPlotTest, SaysWhichTimeItShowsAndWhatHappened) {
  look(kMade + 20 * kMillisecond);
  Painter painter(dark_theme(), {}, {1280, 800});
  plot_.paint(painter);
  std::string all;
  for (const Lettering& lettering : painter.letterings()) all += lettering.text + "\n";
  for (const char* words : {"0 is Mon 00:00:34.992", "50 ms across", "arm b", "starts", "makes",
                            "seats", "now\n", "10 ms"})
    EXPECT_NE(all.find(words), std::string::npos) << words << " in\n" << all;
}

TEST(LanesOfPlot, AreCurrentAndWayOfTheArmature) {
  const auto scene = bench_scene();
  const auto lanes = lanes_of_plot(*scene, scene->find_id("minute_relay").value());
  ASSERT_EQ(lanes.size(), 2);
  EXPECT_EQ(reading_of(*scene, lanes[0]).unit, "A");
  EXPECT_EQ(reading_of(*scene, lanes[1]).unit, "m");
  EXPECT_TRUE(lanes_of_plot(*scene, scene->find_id("timetable").value()).empty());
}

TEST(LanesOfPlot, OfAContactAreWhatGoesThroughItAndWhetherItIsClosed) {
  const auto scene = bench_scene();
  for (const char* contact : {"arm_b", "ring_key"}) {
    const auto lanes = lanes_of_plot(*scene, scene->find_id(contact).value());
    ASSERT_EQ(lanes.size(), 2) << contact;
    EXPECT_EQ(reading_of(*scene, lanes[0]).unit, "A");
    EXPECT_EQ(lanes[1].form, Lane::kBar);
  }
  Session run(scene);
  const auto lanes = lanes_of_plot(*scene, scene->find_id("arm_b").value());
  run.seek(kMade + kSecond);
  EXPECT_EQ(value_of(run, lanes[1]), 1);
  // It feeds the coil and what lies across it.
  EXPECT_GT(value_of(run, lanes[0]), read(run, "minute_relay.current"));
  EXPECT_LT(value_of(run, lanes[0]), 1.2 * read(run, "minute_relay.current"));
  run.seek(kMade + 10 * kSecond);
  EXPECT_EQ(value_of(run, lanes[1]), 0);
  EXPECT_NEAR(value_of(run, lanes[0]), 0, 1e-9);
}

/// It always moves: two seconds of it are seen, up to a little behind the present.
TEST_F(PartPlotTest, OfWhatSwingsAWholeSwingIsSeenAtAnyTime) {
  const auto movement = scene_->find_id("movement").value();
  const auto lanes = lanes_of_plot(*scene_, movement);
  ASSERT_EQ(lanes.size(), 2);
  EXPECT_TRUE(reading_of(*scene_, lanes[0]).swings);
  bench_.select(movement);
  for (const SimTime at : {20 * kSecond, kMade + 36 * kMillisecond, 80 * kSecond}) {
    look(at);
    EXPECT_FALSE(plot_.burst().has_value());
    EXPECT_GT(plot_.span().to(), at);
    EXPECT_LT(plot_.span().from(), at - kSecond);
    double least = 1, most = -1;
    for (const auto& tile : plot_.written()) {
      for (std::size_t k = 0; k < tile->filled(); ++k) {
        least = std::min(least, static_cast<double>(tile->at(k, 0).least));
        most = std::max(most, static_cast<double>(tile->at(k, 0).most));
      }
    }
    EXPECT_GT(most, 0.02);
    EXPECT_LT(least, -0.02);
  }
}

/// As long as the curve is being written there is the present alone.
TEST_F(PartPlotTest, ThePresentLiesInItsFrameBeforeAnythingIsWritten) {
  bench_.select(scene_->find_id("movement").value());
  const float top =
      plot_.rest_of(kCanvas, View::kPart, bench_.look().selected).height + kCanvas.top;
  for (const SimTime at : {20 * kSecond, 40 * kSecond + 250 * kMillisecond}) {
    bench_.runner().jump(at);
    bench_.take_all();
    plot_.follow(bench_, View::kPart, kCanvas);
    Painter painter(dark_theme(), {}, {1920, 1080});
    plot_.paint(painter);
    for (const sf::Vertex& corner : painter.mesh().vertices())
      ASSERT_GE(corner.position.y, top - 1) << at;
  }
}

}  // namespace
}  // namespace sixty::gui
