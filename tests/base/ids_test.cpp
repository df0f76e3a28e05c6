#include "sim/base/ids.hpp"

#include <gtest/gtest.h>

namespace sixty {
namespace {

TEST(TraceOnlyIdTest, IsMadeOfItsPartsAndTellsThem) {
  const EventId last_event = (EventId{1} << 42) - 1;
  const std::uint64_t last_number = (EventId{1} << 20) - 1;
  for (const EventId follows : {kSceneStart, EventId{17}, last_event}) {
    for (const bool step : {false, true}) {
      for (const std::uint64_t nth : {std::uint64_t{1}, last_number}) {
        const EventId id = trace_only({follows, step, nth});
        EXPECT_NE(id & kTraceOnly, 0u);
        EXPECT_EQ(parts_of(id).follows, follows);
        EXPECT_EQ(parts_of(id).step, step);
        EXPECT_EQ(parts_of(id).nth, nth);
      }
    }
  }
}

}  // namespace
}  // namespace sixty
