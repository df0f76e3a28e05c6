// What feeds a part, and what it feeds, whatever wires, fuses and switches lie between.
#include "gui/bench/neighbours.hpp"

#include <gmock/gmock.h>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsSupersetOf;
using testing::Not;

class NeighboursOf : public testing::Test {
 protected:
  struct Named {
    std::vector<std::string> fed_by, feeds, joined;
  };
  Named named(const char* part) const {
    const Neighbours found = neighbours_of(*scene_, scene_->find_id(part).value());
    return {names(found.fed_by), names(found.feeds), names(found.joined)};
  }
  std::shared_ptr<const Installation> scene_ = bench_scene({}, "technical-school");

 private:
  std::vector<std::string> names(const std::vector<PartId>& parts) const {
    std::vector<std::string> names;
    for (const PartId part : parts) names.push_back(scene_->parts[part].name);
    return names;
  }
};

TEST_F(NeighboursOf, AClockAtTheEndOfItsLineIsFedByTheRelayAtItsBeginning) {
  EXPECT_THAT(named("clock_106").fed_by, ElementsAre("minute_relay"));
}

TEST_F(NeighboursOf, TheRelayFeedsTheClocksOfItsLineAndIsFedByContactAndSupply) {
  const Named relay = named("minute_relay");
  EXPECT_THAT(relay.feeds, IsSupersetOf({"clock_103", "clock_106"}));
  EXPECT_THAT(relay.feeds, Not(Contains("rewind")));
  EXPECT_THAT(relay.fed_by, ElementsAre("supply", "arm_b"));
}

TEST_F(NeighboursOf, ASupplyFeedsTheContactsBehindItsFuse) {
  const Named supply = named("supply");
  EXPECT_THAT(supply.feeds, IsSupersetOf({"arm_a", "arm_b", "ring_timing", "minute_relay"}));
  EXPECT_THAT(supply.feeds, Not(Contains("clock_106")));
  EXPECT_THAT(named("main_fuse").feeds, IsSupersetOf({"arm_a", "minute_relay"}));
}

TEST_F(NeighboursOf, AFuseOfALineIsFedBySupplyAndFeedsTheRelaysContact) {
  const Named fuse = named("clock_fuse");
  EXPECT_THAT(fuse.fed_by, ElementsAre("supply"));
  EXPECT_THAT(fuse.feeds, ElementsAre("minute_relay"));
}

/// The return that two relays share leads from none to the other.
TEST_F(NeighboursOf, AWheelsContactFeedsTheRelaysOfItsZonesAlone) {
  EXPECT_THAT(named("week_wheel").feeds,
              IsSupersetOf({"zone_relay_1", "zone_relay_2", "zone_relay_3", "zone_relay_4"}));
  EXPECT_THAT(named("week_wheel").feeds, Not(Contains("minute_relay")));
  EXPECT_THAT(named("zone_relay_1").fed_by, Contains("week_wheel"));
  EXPECT_THAT(named("zone_relay_1").feeds, Not(Contains("zone_relay_2")));
}

/// Its own interrupter lies between the bell's terminal and its coil.
TEST_F(NeighboursOf, ABellIsFedByTheRelayOfItsZone) {
  EXPECT_THAT(named("bell_corridor_1").fed_by, ElementsAre("zone_relay_1"));
  EXPECT_THAT(named("zone_relay_1").feeds, IsSupersetOf({"bell_corridor_1", "bell_library"}));
}

TEST_F(NeighboursOf, ATimetableOnTheWallFeedsNothingAndIsFedByNothing) {
  EXPECT_THAT(named("timetable").feeds, ElementsAre());
  EXPECT_THAT(named("timetable").fed_by, ElementsAre());
}

TEST_F(NeighboursOf, ClocksInSeriesAreFedByTheContactBehindAllOfThem) {
  scene_ = bench_scene({}, "dry-cell-mill");
  std::size_t asked = 0;
  for (const PartInstance& part : scene_->parts) {
    const auto loop = part.values.find("loop");
    if (part.coils.empty() || loop == part.values.end() || loop->second.text != "works") continue;
    EXPECT_THAT(named(part.name.c_str()).fed_by, ElementsAre("minute_relay")) << part.name;
    ++asked;
  }
  EXPECT_GT(asked, 3U);
}

}  // namespace
}  // namespace sixty::gui
