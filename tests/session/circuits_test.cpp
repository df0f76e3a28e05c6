// What the current of a coil passes.
#include "sim/run/circuits.hpp"

#include <gmock/gmock.h>

#include "models/part_list.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::Not;
using testing::UnorderedElementsAre;

class Circuits {
 public:
  explicit Circuits(const std::string& scene) {
    Diagnostics mistakes;
    installation_ =
        load_scene(SIXTY_SOURCE_DIR "/scenes/" + scene + ".yaml", registry_, {}, mistakes);
    if (installation_ == nullptr) throw std::runtime_error(mistakes.to_text());
    all_ = circuits_of(*installation_);
  }
  std::vector<std::string> of(const std::string& part) const {
    std::vector<std::string> names;
    for (const PartId id : all_.at(installation_->find_id(part).value()))
      names.push_back(installation_->parts[id].name);
    return names;
  }

 private:
  Registry registry_ = models::registry();
  std::shared_ptr<const Installation> installation_;
  std::vector<std::vector<PartId>> all_;
};

TEST(CircuitsOfTheBench, ArePassedFromTheSupplyToTheCoilAndBack) {
  const Circuits bench("bench-minimal");
  EXPECT_THAT(bench.of("rewind"), UnorderedElementsAre("supply", "arm_a", "rewind"));
  EXPECT_THAT(bench.of("bell"), UnorderedElementsAre("supply", "zone_relay", "bell_line", "bell"));
  EXPECT_THAT(bench.of("workshop_clock"),
              UnorderedElementsAre("supply", "clock_switch", "minute_relay", "line_near",
                                   "line_far", "workshop_clock"));
}

TEST(CircuitsOfTheBench, HaveEveryWayThatLeadsThere) {
  EXPECT_THAT(Circuits("bench-minimal").of("zone_relay"),
              UnorderedElementsAre("supply", "ring_timing", "tape", "week_wheel", "zone_switch",
                                   "ring_key", "zone_relay"));
}

TEST(CircuitsOfTheBench, AreNoneOfAPartWithoutACoil) {
  EXPECT_THAT(Circuits("bench-minimal").of("movement"), IsEmpty());
}

TEST(CircuitsOfASchool, GoThroughOtherCoilsOnlyInALoop) {
  const Circuits school("technical-school");
  EXPECT_THAT(school.of("clock_103"), Not(Contains("clock_102")));
  EXPECT_THAT(school.of("clock_103"), Contains("clock_102_run"));
  for (const char* part : {"clock_202", "clock_214", "second_floor_ballast", "second_floor_back"})
    EXPECT_THAT(school.of("clock_207"), Contains(part));
  EXPECT_THAT(school.of("clock_207"), Not(Contains("clock_103")));
  EXPECT_THAT(school.of("zone_relay_2"), Contains("cut_out_12"));
  EXPECT_THAT(school.of("zone_relay_2"), Contains("tape"));
}

}  // namespace
}  // namespace sixty
