// A fault that sets something off does so from what is right, or from what the scene has: whenever
// it comes, it grows with its severity, and what was there is there again when it is gone.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

double read_at(const std::string& scene, const std::vector<std::string>& faults,
               const std::string& reading, SimTime at, const std::vector<std::string>& set = {},
               const std::vector<std::string>& hands = {}) {
  Session session(scene_with(scene, faults, set, hands));
  session.run_until(at);
  return reading_of(session, reading);
}

TEST(OffsetFaultTest, HandsSetWrongAreFastByMinutesThatGrowWithSeverityWheneverItWas) {
  for (const char* from : {"10 min", "Mon 06:00", "Mon 23:50"}) {
    const SimTime at = kDay + kMinute;
    const double sound_s = read_at("bench-minimal", {}, "movement.error", at);
    for (const auto& [severity, minutes] : {std::pair{"0.01", 2}, {"0.5", 31}, {"1", 60}}) {
      const std::string fault = fmt::format("F50@movement:{},from={}", severity, from);
      EXPECT_NEAR(read_at("bench-minimal", {fault}, "movement.error", at) - sound_s, 60 * minutes,
                  1e-6)
          << fault;
    }
  }
}

class WallTest : public testing::Test {
 protected:
  static double at(const std::vector<std::string>& faults, const std::string& reading, SimTime t,
                   const std::vector<std::string>& hands = {}) {
    return read_at("dry-cell-mill", faults, reading, t,
                   {"wall.temperature=8 degC", "wall.mains=215 V"}, hands);
  }
};

TEST_F(WallTest, WithoutHeatingIsColderThanTheSceneHasItAndAsThereAgainAfterwards) {
  const double sound_k = at({}, "wall.temperature", 90 * kMinute);
  double before_k = sound_k;
  for (const char* severity : {"0.1", "0.5", "1"}) {
    const std::string fault = fmt::format("F87@wall:{},from=1h,until=2h", severity);
    const double faulty_k = at({fault}, "wall.temperature", 90 * kMinute);
    EXPECT_LT(faulty_k, before_k - 1) << fault;
    EXPECT_EQ(at({fault}, "wall.temperature", 3 * kHour), at({}, "wall.temperature", 3 * kHour));
    before_k = faulty_k;
  }
}

TEST_F(WallTest, HasLessOfTheMainsOfItsSceneAndAllOfThemAfterwards) {
  const std::string fault = "F86@wall:0.1,from=1h,until=2h,course=steady";
  EXPECT_LT(at({fault}, "wall.mains", 90 * kMinute), 210);
  EXPECT_GT(at({fault}, "wall.mains", 90 * kMinute), 190);
  EXPECT_EQ(at({fault}, "wall.mains", 3 * kHour), 215);
}

TEST_F(WallTest, GoesBackToWhatAHandHasSet) {
  const std::vector<std::string> hands = {"10m wall.set_temperature 15 degC",
                                          "10m wall.set_mains 200 V"};
  const std::vector<std::string> faults = {"F87@wall:0.5,from=1h,until=2h",
                                           "F86@wall:0.5,from=1h,until=2h,course=steady"};
  for (const char* reading : {"wall.temperature", "wall.mains"}) {
    const double set = at({}, reading, 90 * kMinute, hands);
    EXPECT_LT(at(faults, reading, 90 * kMinute, hands), set - 5) << reading;
    EXPECT_EQ(at(faults, reading, 3 * kHour, hands), set) << reading;
  }
}

}  // namespace
}  // namespace sixty
