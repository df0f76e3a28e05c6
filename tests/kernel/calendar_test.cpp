#include "sim/kernel/calendar.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "sim/base/rng.hpp"

namespace sixty {
namespace {

Event at(SimTime t, Phase phase = Phase::kMotion, std::int64_t number = 0) {
  Event e;
  e.at = t;
  e.phase = phase;
  e.number = number;
  return e;
}

std::vector<Event> drain(Calendar& calendar) {
  std::vector<Event> order;
  while (!calendar.empty()) order.push_back(calendar.pop());
  return order;
}

TEST(CalendarTest, EventsRunInOrderOfTime) {
  Calendar calendar;
  for (const SimTime t : {5, 3, 9, 1, 7, 3}) calendar.schedule(at(t));
  const std::vector<Event> order = drain(calendar);
  ASSERT_EQ(order.size(), 6u);
  EXPECT_TRUE(std::is_sorted(order.begin(), order.end(),
                             [](const Event& a, const Event& b) { return a.at < b.at; }));
}

TEST(CalendarTest, EventsAtOneInstantRunByPhaseThenId) {
  Calendar calendar;
  calendar.schedule(at(1, Phase::kObserve, 0));
  calendar.schedule(at(1, Phase::kCommand, 1));
  calendar.schedule(at(1, Phase::kArmature, 2));
  calendar.schedule(at(1, Phase::kCommand, 3));
  const std::vector<Event> order = drain(calendar);
  std::vector<std::int64_t> numbers;
  for (const Event& e : order) numbers.push_back(e.number);
  EXPECT_EQ(numbers, (std::vector<std::int64_t>{1, 3, 2, 0}));
}

TEST(CalendarTest, CancelledEventsNeverRun) {
  Calendar calendar;
  const EventHandle first = calendar.schedule(at(1));
  calendar.schedule(at(2));
  calendar.cancel(first);
  EXPECT_EQ(calendar.next_time(), 2);
  EXPECT_EQ(calendar.size(), 1u);
}

TEST(CalendarTest, AHandleOfAPastEventCancelsNothing) {
  Calendar calendar;
  const EventHandle old = calendar.schedule(at(1));
  calendar.pop();
  calendar.schedule(at(2));  // takes the same slot
  calendar.cancel(old);
  calendar.cancel(EventHandle{});
  EXPECT_EQ(calendar.size(), 1u);
}

TEST(CalendarTest, ACopyIsTheSameFuture) {
  Calendar calendar;
  for (int i = 0; i < 50; ++i) calendar.schedule(at((i * 37) % 11, Phase::kContact, i));
  Calendar copy = calendar;
  EXPECT_EQ(copy.state_hash(), calendar.state_hash());
  const std::vector<Event> a = drain(calendar);
  const std::vector<Event> b = drain(copy);
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_EQ(a[i].id, b[i].id);
}

/// Property: whatever is scheduled and cancelled, in whatever order, what runs is exactly what was
/// left, in strict order of (time, phase, id).
TEST(CalendarTest, AnyMixOfSchedulingAndCancellingKeepsTheStrictOrder) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    Calendar calendar;
    std::vector<std::pair<EventHandle, std::int64_t>> live;
    std::uint64_t n = 0;
    const auto draw = [&](std::uint64_t below) {
      return static_cast<std::uint64_t>(uniform_draw(seed, 1, 0, n++) * static_cast<double>(below));
    };
    for (std::int64_t i = 0; i < 400; ++i) {
      const Event e = at(static_cast<SimTime>(draw(40)), static_cast<Phase>(draw(7)), i);
      live.emplace_back(calendar.schedule(e), i);
      if (draw(3) != 0) continue;
      const std::size_t victim = static_cast<std::size_t>(draw(live.size()));
      calendar.cancel(live[victim].first);
      live.erase(live.begin() + static_cast<std::ptrdiff_t>(victim));
    }
    const std::vector<Event> order = drain(calendar);
    ASSERT_EQ(order.size(), live.size()) << "seed " << seed;
    for (std::size_t i = 1; i < order.size(); ++i) {
      const auto key = [](const Event& e) { return std::tuple(e.at, e.phase, e.id); };
      EXPECT_LT(key(order[i - 1]), key(order[i])) << "seed " << seed;
    }
    std::vector<std::int64_t> expected;
    std::vector<std::int64_t> ran;
    for (const auto& [handle, number] : live) expected.push_back(number);
    for (const Event& e : order) ran.push_back(e.number);
    std::sort(ran.begin(), ran.end());
    EXPECT_EQ(ran, expected) << "seed " << seed;
  }
}

}  // namespace
}  // namespace sixty
