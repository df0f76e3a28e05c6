// A run of one week, kept where clocks on the wall are.
#include "sim/exhibit/follower.hpp"

#include <gtest/gtest.h>

#include <cstdlib>

#include "sim/base/zone.hpp"

namespace sixty::exhibit {
namespace {

CalendarTime at(const std::string& text) {
  std::string error;
  const auto time = parse_calendar_time(text, error);
  EXPECT_TRUE(time) << error;
  return time.value_or(CalendarTime{});
}

const CalendarTime kMonday = at("2026-01-05");

/// A run that does at once what it is asked for, and clocks that go on by so much.
class Running {
 public:
  explicit Running(const std::string& begins) : shown_(at(begins)), run_(follower_.place(shown_)) {}
  void go(double seconds) {
    for (double gone = 0; gone < seconds; gone += 0.05) tick(50 * kMillisecond);
  }
  void tick(SimTime by) {
    set(by);
    run_ += static_cast<SimTime>(speed_ * static_cast<double>(50 * kMillisecond));
    follow();
  }
  void follow() {
    const Follower::Order order = follower_.follow(shown_, run_);
    if (order.jump) {
      run_ = *order.jump;
      ++jumps_;
    }
    speed_ = order.speed;
  }
  void set(SimTime by) {
    shown_.ns_of_day += by;
    while (shown_.ns_of_day >= kDay) shown_ = {shown_.day + 1, shown_.ns_of_day - kDay};
    while (shown_.ns_of_day < 0) shown_ = {shown_.day - 1, shown_.ns_of_day + kDay};
  }
  SimTime off() const { return follower_.place(shown_) - run_; }
  Follower follower_{kMonday};
  CalendarTime shown_;
  SimTime run_ = 0;
  double speed_ = 1;
  int jumps_ = 0;
};

TEST(Follower, AnyDayHasItsPlaceInTheWeek) {
  const Follower follower(kMonday);
  EXPECT_EQ(follower.place(at("2026-01-05T08:00")), 8 * kHour);
  EXPECT_EQ(follower.place(at("2026-12-01T10:15:30")),
            kDay + 10 * kHour + 15 * kMinute + 30 * kSecond);
  EXPECT_EQ(follower.place(at("2024-02-29T00:00")), 3 * kDay);  // a Thursday, before the start
  EXPECT_EQ(Follower(at("2026-01-07T06:00")).place(at("2026-01-07T05:00")), kWeek - kHour);
}

TEST(Follower, WhatIsALittleOffIsMadeGoodWithoutAJump) {
  Running running("2026-12-01T10:00");
  running.follow();
  running.set(kSecond);  // as after a stall
  running.go(8);
  EXPECT_EQ(running.jumps_, 0);
  EXPECT_LT(std::abs(running.off()), 60 * kMillisecond);
}

TEST(Follower, ClocksSetForwardAreFollowedAtOnceAndItIsSaid) {
  Running running("2026-12-01T10:00:30");
  running.go(5);
  EXPECT_FALSE(running.follower_.take_moved());
  running.set(12 * kMinute);
  running.follow();
  EXPECT_EQ(running.jumps_, 1);
  EXPECT_EQ(running.off(), 0);
  const auto moved = running.follower_.take_moved();
  ASSERT_TRUE(moved);
  EXPECT_EQ(moved->minutes, 12);
  EXPECT_GT(moved->by, 0);
  EXPECT_FALSE(running.follower_.is_hushed());
}

TEST(Follower, MinutesThatComeOnceMoreAreNotHeardTwice) {
  Running running("2026-12-01T10:10:10");
  running.go(10);
  running.set(-5 * kMinute);
  running.follow();
  EXPECT_TRUE(running.follower_.is_hushed());
  EXPECT_EQ(running.follower_.take_moved()->minutes, 5);
  running.go(290);
  EXPECT_TRUE(running.follower_.is_hushed());
  running.go(15);
  EXPECT_FALSE(running.follower_.is_hushed());
}

TEST(Follower, ClocksThatHadBeenWrongByDaysAreNotHushedForDays) {
  Running running("2026-12-04T10:00");
  running.go(1);
  running.set(-3 * kDay);
  running.follow();
  EXPECT_FALSE(running.follower_.is_hushed());
  EXPECT_EQ(running.off(), 0);
}

TEST(Follower, BehindTheWeeksEndItBeginsAnew) {
  Running running("2026-12-06T23:59:55");
  running.go(10);
  EXPECT_EQ(running.jumps_, 1);
  EXPECT_LT(running.run_, kMinute);
  EXPECT_LT(std::abs(running.off()), 60 * kMillisecond);
}

/// Central Europe goes forward on 29 March 2026 at 01:00 UTC, back on 25 October (Directive
/// 2000/84/EC: last Sundays of March and October).
TEST(TimeZoneTest, SummerTimeIsKept) {
  std::string error;
  const auto zone = TimeZone::find("Europe/Berlin", error);
  ASSERT_TRUE(zone) << error;
  const auto unix_ns = [](const std::string& utc) {
    const CalendarTime time = at(utc);
    return time.day * kDay + time.ns_of_day;
  };
  EXPECT_EQ(zone->local(unix_ns("2026-03-29T00:59:59")).ns_of_day, kDay / 12 - kSecond);
  EXPECT_EQ(zone->local(unix_ns("2026-03-29T01:00:00")).ns_of_day, 3 * kHour);
  EXPECT_EQ(zone->ahead(unix_ns("2026-10-25T00:59:59")), 2 * kHour);
  EXPECT_EQ(zone->ahead(unix_ns("2026-10-25T01:00:00")), kHour);
  EXPECT_EQ(zone->local(unix_ns("1969-12-31T23:30:00")).day, 0);
  EXPECT_FALSE(TimeZone::find("Middle/Nowhere", error));
  EXPECT_FALSE(error.empty());
}

}  // namespace
}  // namespace sixty::exhibit
