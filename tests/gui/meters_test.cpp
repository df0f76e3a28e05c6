// Instruments that are laid on while somebody looks.
#include "gui/bench/meters.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "gui/bench/meter_answers.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using namespace instruments;

class MetersTest : public testing::Test {
 protected:
  Order order(const std::string& text) {
    Diagnostics told;
    Mistakes mistakes(told);
    const auto read = read_order(text, *scene_, mistakes);
    EXPECT_TRUE(read.has_value()) << told.to_text();
    return read.value_or(Order{});
  }

  std::shared_ptr<const Meters::Told> told(const std::vector<std::string>& texts, SimTime now) {
    std::vector<Order> orders;
    for (const std::string& text : texts) orders.push_back(order(text));
    meters_.ask(orders, std::make_shared<const std::vector<Action>>(scene_->script), now);
    meters_.wait();
    return meters_.told();
  }

  static double value(const Answer& answer) { return std::get<MeterReading>(answer).last.value; }

  std::shared_ptr<const Installation> scene_ = bench_scene();
  Meters meters_{scene_};
};

/// Second 5 closes the rewind's contact for two seconds.
TEST_F(MetersTest, ANeedleLagsBehindWhatDigitsShowAndComesToTheSame) {
  const std::vector<std::string> both{"V:supply", "V:rewind", "V:rewind,as=needle"};
  const SimTime made = 5 * kSecond;
  const auto early = told(both, made + 300 * kMillisecond);
  ASSERT_EQ(early->answers.size(), 3);
  const double supply = value(early->answers[0]);
  EXPECT_NEAR(value(early->answers[1]), supply, 0.05 * supply);
  EXPECT_LT(value(early->answers[2]), 0.9 * supply);
  const auto late = told(both, made + 1800 * kMillisecond);
  EXPECT_NEAR(value(late->answers[2]), value(late->answers[1]), 0.06 * supply);
}

TEST_F(MetersTest, TheSameInstantGivesTheSameReadingForwardsAndBackwards) {
  const std::vector<std::string> one{"V:rewind,as=needle"};
  const SimTime at = 5 * kSecond + 400 * kMillisecond;
  const double first = value(told(one, at)->answers[0]);
  told(one, kHour);
  told(one, 0);
  EXPECT_EQ(value(told(one, at)->answers[0]), first);
}

TEST_F(MetersTest, BeforeTheStartNothingIsRead) {
  const auto told_then = told({"V:supply"}, 0);
  EXPECT_EQ(told_then->at, 0);
  EXPECT_TRUE(told_then->answers.empty());
  EXPECT_TRUE(told_then->orders.empty());
}

TEST(NeedlesScale, IsWrittenInTheUnitThatItsRangeIsToldIn) {
  using Marks = std::array<std::string, 3>;
  EXPECT_EQ(scale_of(0.05, "A").marks, (Marks{"0", "25", "50"}));
  EXPECT_EQ(scale_of(0.05, "A").unit, "mA");
  EXPECT_EQ(scale_of(15, "V").marks, (Marks{"0", "7.5", "15"}));
  EXPECT_EQ(scale_of(15, "V").unit, "V");
}

TEST_F(MetersTest, ABeatIsTimedByListening) {
  const auto beat = told({"beat:movement"}, kMinute);
  ASSERT_EQ(beat->answers.size(), 1);
  const Beats& beats = std::get<Beats>(beat->answers[0]);
  ASSERT_TRUE(beats.has_value());
  EXPECT_NEAR(beats->tick_s, 1, 0.01);
}

TEST_F(MetersTest, WhatIsOfferedAtAPartCanBeOrdered) {
  for (PartId p = 0; p < scene_->parts.size(); ++p) {
    for (const std::string& text : orders_at(*scene_, p)) order(text);
  }
  const auto offered = orders_at(*scene_, scene_->find_id("minute_relay").value());
  EXPECT_NE(std::find(offered.begin(), offered.end(), "V:minute_relay.coil"), offered.end());
}

}  // namespace
}  // namespace sixty::gui
