// The paper itself: sizes, wear, stickers, and what hands do to it.
#include <gmock/gmock.h>

#include <algorithm>

#include "tests/models/program_scene.hpp"
#include "tests/models/report_rows.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// Holes of column 1 under the fingers in rows 478 .. 482, one hole being punched at row 480.
std::vector<double> rows_open(const std::string& more) {
  ProgramScene s;
  s.tape = "      punched: [\"08:00 1\"]\n" + more;
  // The stroke that steps the paper is over at second 7.
  for (int k = 0; k < 5; ++k) {
    s.script += fmt::format("  - at {} s: tape.set_row {} row\n", k + 10, 478 + k);
  }
  Trial trial(yaml_of(s));
  std::vector<double> open;
  for (int k = 0; k < 5; ++k) {
    trial.run_to(k + 10.5);
    open.push_back(trial.read("tape.holes"));
  }
  return open;
}

std::string torn(const char* earlier, const char* later) {
  return fmt::format("      worn: [{{column: 1, at: [\"08:00\"], to_earlier: {}, to_later: {}}}]\n",
                     earlier, later);
}

TEST(PaperTest, AHoleServesTheRowsThatTheWholeTipFindsOpen) {
  // Hole 1.8 mm, tip 0.8 mm, rows 3 mm apart: the tip has 0.5 mm of play either way.
  EXPECT_THAT(rows_open(""), ElementsAre(0, 0, 1, 0, 0));
  EXPECT_THAT(rows_open(torn("0 mm", "2.4 mm")), ElementsAre(0, 0, 1, 0, 0));
  EXPECT_THAT(rows_open(torn("0 mm", "2.6 mm")), ElementsAre(0, 0, 1, 1, 0));
  EXPECT_THAT(rows_open(torn("2.6 mm", "0 mm")), ElementsAre(0, 1, 1, 0, 0));
  EXPECT_THAT(rows_open(torn("5.6 mm", "5.6 mm")), ElementsAre(1, 1, 1, 1, 1));
  EXPECT_THAT(rows_open("      hole: 7 mm\n"), ElementsAre(0, 1, 1, 1, 0));
  EXPECT_THAT(rows_open("      finger: 1.9 mm\n"), ElementsAre(0, 0, 0, 0, 0));
  EXPECT_THAT(rows_open("      out_of_line: 0.4 mm\n"), ElementsAre(0, 0, 1, 0, 0));
  EXPECT_THAT(rows_open("      out_of_line: 0.6 mm\n"), ElementsAre(0, 0, 0, 0, 0));
  EXPECT_THAT(rows_open("      out_of_line: 2.9 mm\n"), ElementsAre(0, 1, 0, 0, 0));
}

TEST(PaperTest, AStickerCoversOneRowOfATornHole) {
  const std::string wear = torn("2.6 mm", "2.6 mm");
  EXPECT_THAT(rows_open(wear + "      patches: [{column: 1, at: [\"08:00\"]}]\n"),
              ElementsAre(0, 1, 0, 1, 0));
  EXPECT_THAT(rows_open(wear + "      patches: [{column: 1, at: [\"08:01\"]}]\n"),
              ElementsAre(0, 1, 1, 0, 0));
}

ProgramScene ringing(const std::string& more) {
  ProgramScene s;
  s.start = "2026-01-05T07:59:00";
  s.full_minute = true;
  s.tape = "      punched: [\"08:00 1\", \"08:01 2\"]\n" + more;
  s.pins = "[{zone: 1, at: [daily]}, {zone: 2, at: [daily]}]";
  return s;
}

TEST(PaperTest, AFingerInATornHoleStaysDownFromRowToRow) {
  Trial trial(yaml_of(ringing(torn("0 mm", "2.6 mm"))));
  trial.run_to(250);
  // Two minutes without a break, while column 2 gets its own minute.
  EXPECT_EQ(trial.count("relay_1", "makes"), 1U);
  const double made = trial.when("relay_1", "makes").value();
  EXPECT_NEAR(made, 65.1, 0.1);
  EXPECT_NEAR(trial.when("relay_1", "breaks", made).value() - made, 120, 0.1);
  EXPECT_EQ(trial.count("relay_2", "makes"), 1U);
}

TEST(PaperTest, IsPatchedAndPunchedUnderTheFingers) {
  ProgramScene s = ringing("");
  s.script =
      "  - at 80 s: tape.patch_1 480\n"
      "  - at 90 s: tape.punch_3 480\n"
      "  - at 95 s: tape.punch_3 480\n"   // is there
      "  - at 96 s: tape.patch_4 480\n"   // nothing to cover
      "  - at 97 s: tape.punch_7 480\n";  // no such column
  Trial trial(yaml_of(s));
  trial.run_to(79);
  EXPECT_EQ(trial.read("tape.holes"), 1);
  trial.run_to(100);
  EXPECT_EQ(trial.read("tape.holes"), 4);
  EXPECT_NEAR(trial.when("relay_1", "breaks", 70).value(), 80, 0.1);
  EXPECT_EQ(trial.count("relay_3", "makes"), 0U);  // no pin
  const Report report = trial.session().report();
  const std::vector<Row>& repairs = rows_of(report, "repairs");
  ASSERT_EQ(repairs.size(), 2U);
  EXPECT_EQ(text_in(repairs[0], "at"), "Mon 08:00:20");
  EXPECT_EQ(text_in(repairs[0], "id"), "tape");
  EXPECT_EQ(text_in(repairs[0], "what"), "hole at 08:00 patched in column 1");
  EXPECT_EQ(text_in(repairs[1], "what"), "hole at 08:00 punched in column 3");
}

TEST(PaperTest, AStickerOnATornHoleEndsTheLongRing) {
  ProgramScene s = ringing(torn("0 mm", "2.6 mm"));
  s.script = "  - at 80 s: tape.patch_1 481\n";
  Trial trial(yaml_of(s));
  trial.run_to(250);
  const double made = trial.when("relay_1", "makes").value();
  EXPECT_NEAR(trial.when("relay_1", "breaks", made).value() - made, 60, 0.1);
}

TEST(PaperTest, AHolePunchedAnewIsNotTorn) {
  ProgramScene s = ringing(torn("0 mm", "2.6 mm"));
  s.script = "  - at 80 s: tape.patch_1 480\n  - at 90 s: tape.punch_1 480\n";
  Trial trial(yaml_of(s));
  trial.run_to(130);
  // Column 1 at 08:00, at the new hole, and again at 08:01, where column 2 has its hole.
  EXPECT_EQ(trial.count("tape", "makes"), 4U);
  EXPECT_EQ(trial.count("tape", "breaks"), 2U);
}

TEST(PaperTest, GoingBackTakesTheStickerOffAgain) {
  ProgramScene s = ringing("");
  s.script = "  - at 80 s: tape.patch_1 480\n  - at 81 s: week_wheel.pull_pin_2 0\n";
  Trial trial(yaml_of(s));
  trial.run_to(100);
  const std::uint64_t after = trial.session().state_hash();
  trial.session().seek(from_seconds(75));
  EXPECT_EQ(trial.read("tape.holes"), 1);
  EXPECT_EQ(trial.read("week_wheel.pins"), 3);
  EXPECT_THAT(rows_of(trial.session().report(), "repairs"), IsEmpty());
  const auto saved = trial.session().save();
  trial.run_to(100);
  EXPECT_EQ(trial.read("tape.holes"), 0);
  EXPECT_EQ(trial.read("week_wheel.pins"), 1);
  EXPECT_EQ(trial.session().state_hash(), after);
  trial.session().restore(saved);
  EXPECT_EQ(trial.read("tape.holes"), 1);
}

TEST(WeekWheelTest, PinsAreFittedAndTakenOutByHand) {
  ProgramScene s = ringing("");
  s.script =
      "  - at 80 s: week_wheel.pull_pin_1 0\n"
      "  - at 90 s: week_wheel.fit_pin_1 0\n"
      "  - at 91 s: week_wheel.fit_pin_1 0\n"  // is there
      "  - at 92 s: week_wheel.fit_pin_3 13\n";
  Trial trial(yaml_of(s));
  trial.run_to(100);
  EXPECT_EQ(trial.count("relay_1", "makes"), 2U);
  EXPECT_NEAR(trial.when("relay_1", "breaks", 70).value(), 80, 0.1);
  EXPECT_NEAR(trial.when("relay_1", "makes", 80).value(), 90, 0.1);
  const Report report = trial.session().report();
  const std::vector<Row>& repairs = rows_of(report, "repairs");
  ASSERT_EQ(repairs.size(), 3U);
  EXPECT_EQ(text_in(repairs[0], "what"), "pin of zone 1 taken out of Mon a.m.");
  EXPECT_EQ(text_in(repairs[2], "what"), "pin of zone 3 fitted for Sun p.m.");
}

std::string refused(const std::string& tape) {
  ProgramScene s;
  s.tape = tape;
  return mistakes_of(yaml_of(s));
}

TEST(PaperTest, WhatIsNotOnThePaperIsRefused) {
  EXPECT_EQ(refused("      punched: [\"08:00 1,3\", \"08:05 1-4\", \"08:06 2 4\"]\n"), "");
  EXPECT_THAT(refused("      punched: [\"08:00\"]\n"), HasSubstr("does not tell a row's columns"));
  EXPECT_THAT(refused("      punched: [\"08:00 x\"]\n"), HasSubstr("\"08:00 x\" does not tell"));
  EXPECT_THAT(refused("      punched: [\"08:00 3-1\"]\n"), HasSubstr("does not tell"));
  EXPECT_THAT(refused("      punched: [\"08:00 3-5\"]\n"), HasSubstr("column 5 is not on"));
  EXPECT_THAT(refused("      punched: [\"eight 1\"]\n"), HasSubstr("time of day"));
  EXPECT_THAT(refused(torn("0 mm", "1 mm")), HasSubstr("column 1 has no hole at 08:00"));
  EXPECT_THAT(refused("      patches: [{column: 5, at: [\"08:00\"]}]\n"), HasSubstr("column 5"));
  EXPECT_THAT(refused("      notches: [noon]\n"), HasSubstr("notches"));
  EXPECT_THAT(refused("      teeth_in_mesh: 2\n      jumps_at: 3\n"),
              HasSubstr("more torn holes than teeth in mesh"));
}

TEST(WeekWheelTest, IsReportedWhenItStandsAtAnotherHalfDayThanIsDue) {
  ProgramScene s = ringing("");
  s.script = "  - at 80 s: week_wheel.advance\n";
  Trial trial(yaml_of(s));
  trial.run_to(70);
  const auto tells = testing::Contains(HasSubstr("at place 1, Mon p.m., where Mon a.m. is due"));
  EXPECT_THAT(trial.session().report().warnings(), testing::Not(tells));
  trial.run_to(100);
  EXPECT_THAT(trial.session().report().warnings(), tells);
}

/// "12:34" of the first place that a mistake of a scene is told at, and of the text in it.
std::string place_of(const std::string& mistakes) {
  const std::size_t line = mistakes.find(':');
  return mistakes.substr(line + 1, mistakes.find(": ", line) - line - 1);
}

std::string place_in(const std::string& yaml, const std::string& text) {
  const std::size_t at = yaml.find(text);
  const auto line = std::count(yaml.begin(), yaml.begin() + static_cast<std::ptrdiff_t>(at), '\n');
  const std::size_t begin = yaml.rfind('\n', at);
  return fmt::format("{}:{}", line + 1, at - begin);
}

TEST(PaperTest, AMistakeInAListIsToldWhereItStands) {
  const std::vector<std::pair<std::string, std::string>> tapes = {
      {"      punched: [\"08:00 1\", \"eight 1\"]\n", "\"eight 1\""},
      {"      holes:\n        - {column: 1, at: [\"08:00\", \"25:00\"]}\n", "\"25:00\""},
      {"      holes:\n        - {column: 1, at: [\"08:00\"]}\n        - {at: [\"08:00\"], column: "
       "5}\n",
       "5}"},
      {"      notches: [\"00:00\", noon]\n", "noon"},
  };
  for (const auto& [tape, wrong] : tapes) {
    ProgramScene s;
    s.tape = tape;
    EXPECT_EQ(place_of(mistakes_of(yaml_of(s))), place_in(yaml_of(s), wrong)) << tape;
  }
}

TEST(PaperTest, AMistakeInTheTimetableOrThePinsIsToldWhereItStands) {
  ProgramScene s;
  s.rings = "[{zone: 1, days: Mon, at: [\"08:00\", \"28:00\"], for: 5 s}]";
  EXPECT_EQ(place_of(mistakes_of(yaml_of(s))), place_in(yaml_of(s), "\"28:00\""));
  s.rings = "[{zone: 1, days: Moon, at: [\"08:00\"], for: 5 s}]";
  EXPECT_EQ(place_of(mistakes_of(yaml_of(s))), place_in(yaml_of(s), "Moon"));
  s.rings = "[]";
  s.pins = "[{zone: 1, at: [Mon, Fry]}]";
  EXPECT_EQ(place_of(mistakes_of(yaml_of(s))), place_in(yaml_of(s), "Fry"));
}

}  // namespace
}  // namespace sixty
