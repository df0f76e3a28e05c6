// A recorder between two terminals, as lanes of the strip; and the tips of what is laid on.
#include <gtest/gtest.h>

#include <cmath>

#include "gui/bench/laid_meters.hpp"
#include "gui/bench/meters.hpp"
#include "gui/strip/export.hpp"
#include "gui/strip/strip.hpp"
#include "sim/instruments/measure.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using namespace instruments;

constexpr const char* kCoil = "A:minute_relay.coil";
constexpr const char* kVolts = "V:minute_relay.coil";

class RecordingTest : public testing::Test {
 protected:
  /// Lays instruments on and shows what they record up to `reach`, in columns of a pixel.
  void show(SimTime now, SimTime length, SimTime reach) {
    strip_.record(laid_.channels(), {});
    strip_.span().set_length(length);
    Course course;
    course.now = now;
    course.reach = reach;
    course.log = std::make_shared<const std::vector<Action>>(scene_->script);
    strip_.follow(course, {0, 500, 1300, 240});
    strip_.wait();
  }

  /// What the command line's recorder would have written there.
  std::vector<double> samples(const std::string& text, const Window& window) {
    Diagnostics told;
    Mistakes mistakes(told);
    const auto order = read_order(text, *scene_, mistakes);
    EXPECT_TRUE(order.has_value()) << told.to_text();
    return std::get<Channel>(measure(scene_, {*order}, window).front()).samples;
  }

  std::shared_ptr<const Installation> scene_ = bench_scene();
  LaidMeters laid_;
  Strip strip_{scene_, scene_};
};

TEST_F(RecordingTest, TheLaneIsWhatARecorderWrites) {
  ASSERT_EQ(laid_.add(*scene_, kCoil), "");
  const SimTime made = 35 * kSecond;
  show(made + 40 * kMillisecond, 100 * kMillisecond, kMinute);
  ASSERT_EQ(name_of(*scene_, strip_.lanes().front()), "A minute relay coil, amperes");
  int compared = 0;
  double most = 0;
  for (const auto& tile : strip_.written()) {
    ASSERT_EQ(tile->filled(), Tile::kColumns);
    const SimTime first = tile->from + tile->width;
    const SimTime last = tile->from + tile->width * static_cast<SimTime>(Tile::kColumns);
    const auto wrote = samples("record:A:minute_relay.coil", {first, last, tile->width});
    for (std::size_t k = 1; k < Tile::kColumns; ++k, ++compared) {
      EXPECT_NEAR(static_cast<double>(tile->at(k, 0).last), wrote[k], 2e-4) << tile->from << k;
      most = std::max(most, wrote[k]);
    }
  }
  EXPECT_GT(compared, 500);
  EXPECT_GT(most, 0.1);
}

TEST_F(RecordingTest, ItHasTwoChannelsAndTheOthersStandBehindThem) {
  laid_.add(*scene_, kVolts);
  laid_.add(*scene_, "V:rewind");
  laid_.add(*scene_, kCoil);  // a third takes the place of the first
  const std::size_t before = strip_.lanes().size();
  strip_.record(laid_.channels(), {});
  ASSERT_EQ(strip_.lanes().size(), before + 2);
  EXPECT_EQ(name_of(*scene_, strip_.lanes()[0]), "B rewind, volts");
  EXPECT_EQ(name_of(*scene_, strip_.lanes()[1]), "A minute relay coil, amperes");
  EXPECT_EQ(strip_.lanes()[2], strip_.chosen().front());
  laid_.take_off_all();
  strip_.record(laid_.channels(), {});
  EXPECT_EQ(strip_.lanes().size(), before);
}

TEST_F(RecordingTest, NamesOfItsChannelsAreNotCutOff) {
  laid_.add(*scene_, "V:minute_relay.contact");
  laid_.add(*scene_, kCoil);
  show(30 * kSecond, 20 * kSecond, 30 * kSecond);
  Painter painter(dark_theme(), {}, {1300, 740});
  strip_.paint(painter, {});
  std::string all;
  for (const Lettering& l : painter.letterings()) all += l.text + " ";
  for (const char* name : {"A minute relay contact, volts", "B minute relay coil, amperes"})
    EXPECT_NE(all.find(name), std::string::npos) << name << " in " << all;
}

TEST(WordsOfMeters, TellWhatIsMeasuredThere) {
  const auto scene = bench_scene();
  LaidMeters laid;
  for (const char* text : {"V:minute_relay.contact", "ohm:minute_relay.coil", "beat:movement"})
    EXPECT_EQ(laid.add(*scene, text), "");
  const auto words = [&](std::size_t k) { return words_of(*scene, laid.all()[k].order); };
  EXPECT_EQ(words(0), "minute relay contact, volts");
  EXPECT_EQ(words(1), "minute relay coil, ohms");
  EXPECT_EQ(words(2), "movement, beat");
}

TEST_F(RecordingTest, OtherLanesAreOfTheRunThatNothingIsLaidOn) {
  // Through an ammeter across them, the contact's terminals are joined: it feeds all the time.
  const PartId relay = scene_->find_id("minute_relay").value();
  strip_.set_lanes(lanes_of(*scene_, relay));
  show(30 * kSecond, 20 * kSecond, 30 * kSecond);
  const auto alone = strip_.written();
  laid_.add(*scene_, "A:arm_b.blade..arm_b.anvil");
  if (laid_.all().empty()) laid_.add(*scene_, "A:arm_b.a..arm_b.b");
  ASSERT_FALSE(laid_.all().empty());
  show(30 * kSecond, 20 * kSecond, 30 * kSecond);
  const auto both = strip_.written();
  ASSERT_EQ(both.size(), alone.size());
  for (std::size_t t = 0; t < both.size(); ++t) {
    for (std::size_t k = 0; k < std::min(both[t]->filled(), alone[t]->filled()); ++k) {
      EXPECT_GT(both[t]->at(k, 0).last, 0.05F);  // the recorder's own run feels it
      EXPECT_EQ(both[t]->at(k, 1).last, alone[t]->at(k, 0).last);
    }
  }
}

TEST_F(RecordingTest, ItIsExportedUnderWhatWasOrdered) {
  laid_.add(*scene_, kCoil);
  strip_.set_lanes({});
  show(40 * kSecond, 10 * kSecond, 40 * kSecond);
  const LaneTable table = lane_table(strip_);
  const std::string csv = csv_of(table, *scene_, strip_.lanes());
  EXPECT_EQ(csv.rfind("time_s,record:A:minute_relay.coil [A] every ", 0), 0) << csv.substr(0, 99);
}

TEST_F(RecordingTest, ForwardAndBackGiveTheSameTrace) {
  laid_.add(*scene_, kVolts);
  const auto wrote = [&] {
    std::vector<float> all;
    for (const auto& tile : strip_.written()) {
      for (std::size_t k = 0; k < tile->filled(); ++k) all.push_back(tile->at(k, 0).last);
    }
    return all;
  };
  const SimTime at = 5 * kMinute + 35 * kSecond;
  show(at, 100 * kMillisecond, 10 * kMinute);
  const auto first = wrote();
  ASSERT_GT(first.size(), 500);
  show(kMinute, kMinute, 10 * kMinute);
  show(9 * kMinute, kMinute, 10 * kMinute);
  show(at, 100 * kMillisecond, 10 * kMinute);
  EXPECT_EQ(wrote(), first);
}

TEST_F(RecordingTest, WhatAChannelReadsNowIsItsLastSample) {
  Meters meters(scene_);
  laid_.add(*scene_, kCoil);
  const SimTime now = 36 * kSecond;
  meters.ask(laid_.orders(), std::make_shared<const std::vector<Action>>(scene_->script), now);
  meters.wait();
  const auto told = meters.told();
  const Answer* answer = told->of(*laid_.all()[0].record);
  ASSERT_NE(answer, nullptr);
  const auto wrote = samples("record:A:minute_relay.coil", {now - kSecond, now, kSecond});
  EXPECT_NEAR(std::get<Channel>(*answer).samples.back(), wrote.back(), 2e-4);
  EXPECT_GT(wrote.back(), 0.1);
}

/// A fast one, a needle and a channel for the same two tips; letters tell the places apart.
TEST(LaidMeters, HaveANeedleAndAChannelBesideWhatIsFast) {
  const auto scene = bench_scene();
  LaidMeters laid;
  EXPECT_EQ(laid.add(*scene, kVolts), "");
  ASSERT_EQ(laid.all().size(), 1);
  ASSERT_EQ(laid.orders().size(), 3);
  EXPECT_FALSE(laid.orders()[0].needle);
  EXPECT_TRUE(laid.orders()[1].needle);
  EXPECT_TRUE(laid.orders()[2].recorded);
  EXPECT_EQ(laid.orders()[1].leads.a, laid.orders()[0].leads.a);
  const std::vector<MeterTip> tips = laid.tips();
  ASSERT_EQ(tips.size(), 2);
  EXPECT_EQ(tips[0].letter, "A");
  EXPECT_EQ(tips[0].sign, MeterTip::Sign::kPlus);
  EXPECT_EQ(tips[1].sign, MeterTip::Sign::kMinus);
  laid.add(*scene, "ohm:minute_relay.coil");
  EXPECT_EQ(laid.tips().back().letter, "B");
  laid.take_off(0);
  EXPECT_EQ(laid.tips().size(), 2);
  EXPECT_EQ(laid.orders().size(), 1);
}

TEST(LaidMeters, AClampIsOneTip) {
  const auto scene = bench_scene();
  LaidMeters laid;
  laid.add(*scene, kCoil);
  ASSERT_EQ(laid.tips().size(), 1);
  EXPECT_EQ(laid.tips()[0].sign, MeterTip::Sign::kThrough);
}

TEST(LaidMeters, WhatCannotBeLaidOnIsToldAndLeftOut) {
  const auto scene = bench_scene();
  LaidMeters laid;
  EXPECT_NE(laid.add(*scene, "V:nowhere").find("nowhere"), std::string::npos);
  EXPECT_TRUE(laid.all().empty());
}

TEST(LaidMeters, ALaneIsThereAsLongAsItIsWanted) {
  const auto scene = bench_scene();
  LaidMeters laid;
  laid.add(*scene, kVolts);
  EXPECT_EQ(laid.channels().size(), 1);
  laid.record(*scene, 0, false);
  EXPECT_TRUE(laid.channels().empty());
  EXPECT_EQ(laid.orders().size(), 2);
  laid.record(*scene, 0, true);
  EXPECT_EQ(laid.channels().size(), 1);
}

}  // namespace
}  // namespace sixty::gui
