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

}  // namespace
}  // namespace sixty
