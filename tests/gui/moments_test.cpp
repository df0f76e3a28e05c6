// Moments that are worth a look, and the pace at which time goes by them.
#include "gui/bench/moments.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

TEST(Moments, EachIsOneAtWhichSomethingBeginsAndTheRunStandsWhereItStood) {
  Session session(bench_scene());
  session.seek(30 * kSecond);
  const std::uint64_t before = session.state_hash();
  const std::vector<SimTime> moments = moments_in(session, 0, kMinute);
  EXPECT_EQ(session.state_hash(), before);
  ASSERT_FALSE(moments.empty());
  EXPECT_TRUE(std::is_sorted(moments.begin(), moments.end()));
  // The rewind's plunger sets out when second 5 closes its contact.
  EXPECT_TRUE(std::any_of(moments.begin(), moments.end(),
                          [](SimTime t) { return t > 4 * kSecond && t < 6 * kSecond; }));
}

TEST(Moments, TheOneBeforeTheNextIsNotLaterThanHere) {
  Session session(bench_scene());
  session.seek(2 * kMinute);
  const auto next = moment_after(session, session.now());
  ASSERT_TRUE(next.has_value());
  EXPECT_GT(*next, session.now());
  const auto before = moment_before(session, *next);
  ASSERT_TRUE(before.has_value());
  EXPECT_LE(*before, session.now());
}

TEST(Moments, ThereIsNoneBeforeTheStart) {
  Session session(bench_scene());
  session.seek(1);
  EXPECT_FALSE(moment_before(session, 0).has_value());
}

double walked_s(const Pace& pace, SimTime from, SimTime to) {
  double sum = 0;
  constexpr SimTime kStep = 100 * kMicrosecond;
  for (SimTime t = from; t < to; t += kStep) sum += to_seconds(kStep) / pace.at(t + kStep / 2);
  return sum;
}

TEST(Pace, AMinuteTakesTheTimeThatItIsGiven) {
  Session session(bench_scene());
  const Pace pace(moments_in(session, kMinute, 2 * kMinute), kMinute, 2 * kMinute, 10, 2);
  EXPECT_NEAR(walked_s(pace, kMinute, 2 * kMinute), 10, 0.1);
  EXPECT_NEAR(pace.wall_s(kMinute, 2 * kMinute), 10, 1e-6);
}

TEST(Pace, ItIsSlowestAtAMoment) {
  const Pace pace({20 * kSecond}, 0, kMinute, 10, 2);
  EXPECT_LT(pace.at(20 * kSecond), 0.1);
  EXPECT_GT(pace.at(40 * kSecond), 20 * pace.at(20 * kSecond + 50 * kMillisecond));
  EXPECT_LT(pace.at(20 * kSecond + kMillisecond), pace.at(20 * kSecond + 100 * kMillisecond));
}

TEST(Pace, QuietGoesByAtOnePace) {
  const Pace pace({}, 0, kMinute, 10, 2);
  EXPECT_DOUBLE_EQ(pace.at(0), 30);
  EXPECT_DOUBLE_EQ(pace.at(59 * kSecond), 30);
}

}  // namespace
}  // namespace sixty::gui
