// The timetable is held against holes and pins; rings that differ are named.
#include <gmock/gmock.h>

#include "tests/models/program_scene.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

ProgramScene school() {
  ProgramScene s;
  s.tape = "      punched: [\"08:00 1\", \"08:45 1 2\", \"16:00 2\"]\n";
  s.pins = "[{zone: 1, at: [Mon-Fri am]}, {zone: 2, at: [\"Mon-Tue, Thu\"]}]";
  s.rings = R"([{zone: 1, days: Mon-Fri, at: ["08:00", "08:45"], for: 5 s},
             {zone: 2, days: "Mon, Tue, Thu", at: ["08:45", "16:00"], for: 5 s}])";
  return s;
}

std::vector<std::string> warnings(const ProgramScene& s, double seconds = 2) {
  Trial trial(yaml_of(s));
  trial.run_to(seconds);
  return trial.session().report().warnings();
}

void replace(std::string& text, const std::string& from, const std::string& to) {
  ASSERT_NE(text.find(from), std::string::npos) << from;
  text.replace(text.find(from), from.size(), to);
}

TEST(CarryingTest, HolesAndPinsThatAgreeAreNotSpokenOf) {
  EXPECT_THAT(warnings(school()), IsEmpty());
}

TEST(CarryingTest, AMissingHoleIsNamed) {
  ProgramScene s = school();
  replace(s.tape, "08:45 1 2", "08:45 2");
  EXPECT_THAT(warnings(s), ElementsAre("timetable: zone 1: asked, but no hole is punched for 08:45 "
                                       "(Mon-Fri)."));
}

TEST(CarryingTest, AMissingPinIsNamedWithItsDays) {
  ProgramScene s = school();
  replace(s.pins, "Mon-Fri am", "\"Mon, Thu am\"");
  EXPECT_THAT(warnings(s),
              ElementsAre("timetable: zone 1: asked and punched, but the week wheel has no pin for "
                          "08:00 (Tue, Wed, Fri), 08:45 (Tue, Wed, Fri)."));
}

TEST(CarryingTest, AHoleThatNobodyAskedForIsNamed) {
  ProgramScene s = school();
  replace(s.tape, "08:00 1", "08:00 1, 2, 4");  // column 4 has no pins: it never rings
  EXPECT_THAT(warnings(s), ElementsAre("timetable: zone 2: punched and with a pin, but not asked: "
                                       "08:00 (Mon, Tue, Thu)."));
}

TEST(CarryingTest, HalfADayOfPaperRingsInBothHalves) {
  ProgramScene s = school();
  s.tape = "      rows: 720\n" + s.tape;
  EXPECT_THAT(warnings(s),
              ElementsAre("timetable: zone 2: punched and with a pin, but not asked: 04:00 (Mon, "
                          "Tue, Thu), 20:45 (Mon, Tue, Thu)."));
}

TEST(CarryingTest, ManyAreCounted) {
  ProgramScene s = school();
  s.tape =
      "      holes:\n"
      "        - {column: 2, at: [\"08:45\", \"16:00\"]}\n"
      "        - {column: 1, at: [\"08:00\", \"08:01\", \"08:02\", \"08:03\", \"08:04\", "
      "\"08:05\", "
      "\"08:06\", \"08:07\", \"08:08\", \"08:45\"]}\n";
  EXPECT_THAT(warnings(s),
              ElementsAre("timetable: zone 1: punched and with a pin, but not asked: 08:01 "
                          "(Mon-Fri), 08:02 (Mon-Fri), 08:03 (Mon-Fri), 08:04 (Mon-Fri), 08:05 "
                          "(Mon-Fri), 08:06 (Mon-Fri) and 2 more."));
}

TEST(CarryingTest, ZonesOfASecondTapeFollowOnTheFirst) {
  ProgramScene s = school();
  s.second_tape = "      punched: [\"08:03 1\"]\n";
  s.pins.insert(s.pins.size() - 1, ", {zone: 5, at: [daily]}");
  EXPECT_THAT(warnings(s), ElementsAre("timetable: zone 5: punched and with a pin, but not asked: "
                                       "08:03 (daily)."));
}

TEST(CarryingTest, AHoleThatIsPunchedLaterMendsIt) {
  ProgramScene s = school();
  replace(s.tape, "08:45 1 2", "08:45 2");
  s.script = "  - at 5 s: tape.punch_1 525\n";
  EXPECT_THAT(warnings(s, 10), IsEmpty());
}

}  // namespace
}  // namespace sixty
