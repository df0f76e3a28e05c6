#include "sim/kernel/calendar.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>
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

// A part's state begins as zeros.
TEST(CalendarTest, AHandleOfZerosCancelsNothing) {
  Calendar calendar;
  calendar.schedule(at(5));
  calendar.cancel(EventHandle{0, 0});
  EXPECT_EQ(calendar.size(), 1U);
  EXPECT_EQ(calendar.next_time(), 5);
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

/// A calendar beside the plainest one that can be: a list searched from end to end.
class Pair {
 public:
  void schedule(const Event& event) {
    live_.push_back({calendar_.schedule(event), event});
    live_.back().event.id = calendar_.last_id();
  }
  void pop() {
    if (live_.empty()) return;
    const auto least =
        std::min_element(live_.begin(), live_.end(),
                         [](const Live& a, const Live& b) { return key(a.event) < key(b.event); });
    ASSERT_EQ(calendar_.next_time(), least->event.at);
    ASSERT_EQ(calendar_.next().id, least->event.id);
    const Event event = calendar_.pop();
    ASSERT_EQ(key(event), key(least->event));
    ASSERT_EQ(event.number, least->event.number);
    now_ = event.at;
    live_.erase(least);
    ASSERT_EQ(calendar_.size(), live_.size());
  }
  void cancel(std::size_t which) {
    if (live_.empty()) return;
    which %= live_.size();
    calendar_.cancel(live_[which].handle);
    live_.erase(live_.begin() + static_cast<std::ptrdiff_t>(which));
    ASSERT_EQ(calendar_.size(), live_.size());
    ASSERT_EQ(calendar_.empty(), live_.empty());
  }
  SimTime now() const { return now_; }
  Calendar& calendar() { return calendar_; }
  bool empty() const { return live_.empty(); }

 private:
  struct Live {
    EventHandle handle;
    Event event;
  };
  static std::tuple<SimTime, Phase, EventId> key(const Event& e) { return {e.at, e.phase, e.id}; }

  Calendar calendar_;
  std::vector<Live> live_;
  SimTime now_ = 0;
};

/// One deed: events in order, out of order, of this very instant and far off, some cancelled.
void do_something(Pair& pair, std::uint64_t seed, std::uint64_t& n) {
  const auto draw = [&](std::int64_t below) {
    return static_cast<std::int64_t>(uniform_draw(seed, 2, 0, n++) * static_cast<double>(below));
  };
  const auto later = [&](SimTime by) {
    pair.schedule(at(pair.now() + by, static_cast<Phase>(draw(7)), draw(1000)));
  };
  switch (draw(6)) {
    case 0:
      for (std::int64_t k = draw(80); k > 0; --k) later(200 - 2 * k + draw(2));
      break;
    case 1:
      for (std::int64_t k = draw(10); k > 0; --k) later(0);
      break;
    case 2:
      for (std::int64_t k = draw(20); k > 0; --k) later(draw(10'000));
      break;
    case 3:
      for (std::int64_t k = draw(60); k > 0; --k) pair.cancel(static_cast<std::size_t>(draw(1000)));
      break;
    default:
      for (std::int64_t k = draw(60); k > 0; --k) pair.pop();
      break;
  }
}

TEST(CalendarTest, ALongLifeOfEveryKindOfDeedGoesAsByThePlainestCalendar) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    Pair pair;
    std::uint64_t n = 0;
    for (int k = 0; k < 150 && !HasFailure(); ++k) do_something(pair, seed, n);
    while (!pair.empty() && !HasFailure()) pair.pop();
    ASSERT_TRUE(pair.calendar().empty());
  }
}

TEST(CalendarTest, TheHashTellsWhatIsLeftAndNotHowItCameAbout) {
  Calendar one, other;
  std::vector<EventHandle> in_one, in_other;
  for (std::int64_t k = 0; k < 100; ++k) {
    in_one.push_back(one.schedule(at(100 - k % 7, Phase::kMotion, k)));
    in_other.push_back(other.schedule(at(100 - k % 7, Phase::kMotion, k)));
  }
  for (std::size_t k = 0; k < 90; ++k) one.cancel(in_one[k]);
  for (std::size_t k = 90; k > 1; --k) other.cancel(in_other[k - 1]);
  EXPECT_NE(one.state_hash(), other.state_hash()) << "one event more";
  other.cancel(in_other[0]);
  EXPECT_EQ(one.state_hash(), other.state_hash());
}

TEST(KeyQueueTest, WhatHasGoneTakesNoPlacesHoweverFarAheadAnotherLies) {
  KeyQueue queue;
  queue.put({1'000'000'000, 1, 0});
  std::size_t most = 0;
  for (SimTime t = 0; t < 100'000; ++t) {
    queue.put({t, 2, 0});
    queue.put({t + 1, 1, 0});
    queue.drop_first();
    if (t > 0) queue.drop_first();
    most = std::max(most, queue.places());
  }
  EXPECT_LT(most, 200U);
}

}  // namespace
}  // namespace sixty
