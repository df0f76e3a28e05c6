// A data sheet's ranges are those that are met with: each end of each goes with the sheet's other
// values, or nobody could ask for it.
#include <gtest/gtest.h>

#include <fstream>
#include <regex>
#include <sstream>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

struct InUse {
  const char* part;   ///< of the smallest installation
  const char* sheet;  ///< that it is made by
};

constexpr InUse kInUse[] = {
    {"supply", "supply/sheets/bench_24v"},
    {"movement", "movement/sheets/seconds_pendulum"},
    {"rewind", "rewind/sheets/solenoid_24v"},
    {"arm_a", "contact_arm/sheets/silver_arm"},
    {"minute_relay", "relay/sheets/minute_relay"},
    {"ring_key", "switch/sheets/case_key"},
    {"line_near", "wire/sheets/clock_line"},
    {"hall_clock", "secondary/sheets/parallel_24v"},
    {"tape", "tape/sheets/paper_day"},
    {"week_wheel", "week_wheel/sheets/fourteen_places"},
    {"zone_relay", "relay/sheets/zone_relay"},
    {"bell_line", "wire/sheets/bell_wire"},
    {"bell", "bell/sheets/bell_24v"},
};

std::string text_of(const std::string& sheet) {
  std::ostringstream text;
  text << std::ifstream(SIXTY_SOURCE_DIR "/models/" + sheet + ".yaml").rdbuf();
  return text.str();
}

TEST(SheetRangesTest, EachEndGoesWithTheOtherValues) {
  const std::string bench = bench_minimal();
  const std::regex range(R"((\w+): \{value: [^,]*, range: \[([^,]*), ([^\]]*)\])");
  std::size_t ends = 0;
  for (const InUse& use : kInUse) {
    const std::string text = text_of(use.sheet);
    for (std::sregex_iterator it(text.begin(), text.end(), range), none; it != none; ++it) {
      for (const int end : {2, 3}) {
        const std::string change = std::string(use.part) + "." + it->str(1) + "=" + it->str(end);
        EXPECT_EQ(mistakes_of(bench, {change}), "") << change;
        ++ends;
      }
    }
  }
  EXPECT_GT(ends, 200U) << "ranges are written in another way";
}

}  // namespace
}  // namespace sixty
