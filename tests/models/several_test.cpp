// A scene with two of what it mostly has one of: nothing of the second is lost in the report.
#include <gmock/gmock.h>

#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;

const char* const kTwice = R"(scene: Two of each
start: 2026-01-05T00:00:00
spread: 0
parts:
  master_a: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind_a.spring}}
  master_b: {type: movement, sheet: seconds_pendulum, connect: {drive: rewind_b.spring}}
  rewind_a: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 20 tooth}}
  rewind_b: {type: rewind, sheet: solenoid_24v, set: {initial_teeth: 25 tooth}}
  tape_a: {type: tape, sheet: paper_day, connect: {step: rewind_a.tape_row}}
  tape_b: {type: tape, sheet: paper_day, connect: {step: rewind_b.tape_row}}
  week_a: {type: week_wheel, sheet: fourteen_places, connect: {step: tape_a.half_day}}
  week_b: {type: week_wheel, sheet: fourteen_places, connect: {step: tape_b.half_day}}
  paper_a: {type: timetable}
  paper_b: {type: timetable}
script:
  - at 0 s: master_a.start 1.75 deg
  - at 10 s: master_b.start 1.75 deg
)";

const Report::Section* find(const Report& report, const std::string& name) {
  for (const Report::Section& section : report.sections()) {
    if (section.name == name) return &section;
  }
  return nullptr;
}

const Cell* find(const Row& row, const std::string& key) {
  for (const Cell& cell : row.cells()) {
    if (cell.key == key) return &cell;
  }
  return nullptr;
}

TEST(SeveralTest, AllOfThemAreInTheReport) {
  Trial trial(kTwice);
  trial.run_to(100);
  const Report report = trial.session().report();
  for (const char* list : {"masters", "rewinds", "tapes", "week_wheels", "timetables"}) {
    const Report::Section* section = find(report, list);
    ASSERT_NE(section, nullptr) << list;
    EXPECT_EQ(section->rows.size(), 2U) << list;
  }
  // A step of a sixtieth of a tooth to a beat; the other one is let go ten seconds later.
  std::vector<double> teeth;
  for (const Row& row : find(report, "rewinds")->rows) {
    teeth.push_back(std::get<double>(find(row, "spring_teeth")->value) * 60);
  }
  EXPECT_THAT(teeth, ElementsAre(testing::DoubleNear(1200 - 100, 1e-9),
                                 testing::DoubleNear(1500 - 90, 1e-9)));
  EXPECT_EQ(std::get<double>(find(find(report, "rewind")->rows[0], "spring_teeth")->value) * 60,
            teeth[0]);
  EXPECT_EQ(std::get<std::int64_t>(find(find(report, "")->rows[0], "beats")->value),
            trial.read("master_a.position"));
}

TEST(SeveralTest, OneAloneIsNotListed) {
  Trial trial("scene: One\nstart: 2026-01-05T00:00:00\nparts:\n  paper: {type: timetable}\n");
  const Report report = trial.session().report();
  EXPECT_NE(find(report, "timetable"), nullptr);
  EXPECT_EQ(find(report, "timetables"), nullptr);
}

}  // namespace
}  // namespace sixty
