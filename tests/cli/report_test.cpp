#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <nlohmann/json.hpp>

#include "sim/base/text.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/report_json.hpp"
#include "sim/cli/report_text.hpp"
#include "tests/cli/fake_run.hpp"

namespace sixty::cli {
namespace {

using nlohmann::ordered_json;
using testing::HasSubstr;
using testing::Not;

RunFacts some_facts(const FakeRun& run) {
  RunFacts facts;
  facts.installation = run.installation();
  facts.simulated = kWeek;
  facts.wall_s = 0.25;
  facts.events = 604'812;
  return facts;
}

Report some_report() {
  Report report;
  report.object("master").put("rate_s_per_day", 0.4, "s/day").nothing("stopped_at");
  report.append("lamps").text("id", "a").count("lit", 3).flag("sound", true);
  report.append("lamps").text("id", "b").count("lit", 0).flag("sound", false);
  report.object("").count("beats", 604'800);
  report.say("Lamps", "a: lit 3 times.");
  report.warn("b was never lit.");
  return report;
}

std::vector<std::string> keys_of(const ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) keys.push_back(item.key());
  return keys;
}

TEST(ReportJsonTest, HasItsKeysInOrder) {
  FakeRun run;
  const auto json = ordered_json::parse(report_json(some_report(), some_facts(run)));
  EXPECT_THAT(keys_of(json),
              testing::ElementsAre("format", "scene", "seed", "simulated_s", "wall_s", "events",
                                   "beats", "master", "lamps", "warnings"));
  EXPECT_EQ(json["format"], "sixtybeats-run/1");
  EXPECT_EQ(json["scene"], "two-lamps");
  EXPECT_EQ(json["simulated_s"], 604800.0);
  EXPECT_EQ(json["master"]["stopped_at"], nullptr);
  EXPECT_EQ(json["lamps"][1]["sound"], false);
  EXPECT_EQ(json["warnings"], ordered_json::array({"b was never lit."}));
}

TEST(ReportTextTest, SaysAWarningOnceForAllOfWhomItIsTrue) {
  FakeRun run;
  Report report;
  for (const char* name : {"a", "b", "c"}) report.warn(std::string(name) + ": 7 min slow.");
  report.warn("d: 8 min slow.");
  EXPECT_THAT(report_text(report, some_facts(run)),
              HasSubstr("\nWARNINGS (4)\n  ! a, b, c: 7 min slow.\n  ! d: 8 min slow.\n"));
  const auto json = ordered_json::parse(report_json(report, some_facts(run)));
  EXPECT_EQ(json["warnings"].size(), 4U);
}

TEST(ReportJsonTest, NumbersAreFinite) {
  FakeRun run;
  Report report;
  report.object("x").put("a", std::numeric_limits<double>::infinity()).put("b", std::nan(""));
  const auto json = ordered_json::parse(report_json(report, some_facts(run)));
  EXPECT_EQ(json["x"]["a"], nullptr);
  EXPECT_EQ(json["x"]["b"], nullptr);
}

TEST(ReportJsonTest, APartCannotChangeTheRunsOwnFacts) {
  FakeRun run;
  Report report;
  report.object("").count("events", 1);
  report.append("seed").count("x", 1);
  const auto json = ordered_json::parse(report_json(report, some_facts(run)));
  EXPECT_EQ(json["events"], 604'812);
  EXPECT_EQ(json["seed"], 7);
}

TEST(ReportJsonTest, BrokenUtf8IsReplaced) {
  FakeRun run;
  Report report;
  report.warn("a\xFF");
  EXPECT_EQ(ordered_json::parse(report_json(report, some_facts(run)))["warnings"][0],
            "a\xEF\xBF\xBD");
}

TEST(ReportTextTest, IsLaidOutForPeople) {
  FakeRun run;
  EXPECT_EQ(report_text(some_report(), some_facts(run)),
            "Two lamps\n"
            "Scene two-lamps, seed 7: 7d simulated,\n"
            "Mon 2026-01-05 00:00:00 to Mon 2026-01-12 00:00:00\n"
            "beats 604,800\n" +
                std::string(79, '=') +
                "\n\nLamps\n"
                "  a: lit 3 times.\n\n"
                "  id  lit  sound\n"
                "  a     3  yes\n"
                "  b     0  no\n\n"
                "WARNINGS (1)\n"
                "  ! b was never lit.\n\n"
                "604,812 events in 0.25 s of computing\n");
}

TEST(ReportTextTest, SaysThatARunWasInterrupted) {
  FakeRun run;
  RunFacts facts = some_facts(run);
  facts.interrupted = true;
  EXPECT_THAT(report_text(Report(), facts), HasSubstr("! The run was interrupted"));
  EXPECT_THAT(report_text(Report(), some_facts(run)), HasSubstr("No warnings."));
}

TEST(SentencesTest, WhatIsTrueOfSeveralIsSaidOnce) {
  EXPECT_EQ(sentences_text({"a: right.", "b: 2 min slow.", "c: right.", "Nothing else."}),
            "  a, c: right.\n  b: 2 min slow.\n  Nothing else.\n");
}

TEST(SentencesTest, ManyNamesAndManySentencesAreCutWithACount) {
  std::vector<std::string> same;
  std::vector<std::string> different;
  for (int i = 0; i < 20; ++i) {
    same.push_back("clock_" + std::to_string(i) + ": right.");
    different.push_back("clock_" + std::to_string(i) + ": " + std::to_string(i) + " min slow.");
  }
  EXPECT_THAT(sentences_text(same), HasSubstr("clock_5 and 14 more: right."));
  EXPECT_THAT(sentences_text(different), HasSubstr("  ... and 8 more\n"));
}

TEST(TableTest, UnitsStandInTheHeadOnce) {
  Report report;
  report.append("x")
      .put("rate_s_per_day", 0.5, "s/day")
      .put("charge_ah", 12.0, "Ah")
      .put("min_v", -3.25, "V");
  EXPECT_EQ(section_text(report.sections()[0]),
            "  rate (s/day)  charge (Ah)  min (V)\n"
            "        0.5000        12.00   -3.250\n");
}

TEST(TableTest, RowsMayLackCells) {
  Report report;
  report.append("x").text("id", "a").count("n", 1);
  report.append("x").text("id", "b").nothing("n");
  report.append("x").text("id", "c");
  EXPECT_EQ(section_text(report.sections()[0]), "  id  n\n  a   1\n  b   -\n  c\n");
}

TEST(TableTest, ALongOneShowsItsEndsAndWhatIsUnlikeTheRest) {
  Report report;
  for (int i = 0; i < 1000; ++i) {
    report.append("rings")
        .text("at", "ring " + std::to_string(i))
        .put("for_s", 5 + i * 1e-3, "s")
        .flag("asked", i != 500);
  }
  const std::string text = section_text(report.sections()[0]);
  EXPECT_THAT(text, HasSubstr("  ring 7      5.007  yes\n  ... 492 more\n"));
  EXPECT_THAT(text, HasSubstr("  ring 500    5.500  no\n  ... 495 more\n"));
  EXPECT_THAT(text, HasSubstr("  ring 999    5.999  yes\n"));
  EXPECT_THAT(text, Not(HasSubstr("ring 499")));
  EXPECT_THAT(text, HasSubstr("All 1,000: for (s) 5.000 to 5.999; asked no (1), yes (999)."));
}

TEST(LayoutTest, LinesAreBrokenAtSpaces) {
  const std::string text = wrapped(std::string(60, 'a') + " " + std::string(30, 'b'), 2, 4);
  EXPECT_EQ(text, "  " + std::string(60, 'a') + "\n    " + std::string(30, 'b') + "\n");
  EXPECT_EQ(wrapped("", 0, 0), "\n");
  EXPECT_EQ(wrapped(std::string(200, 'x'), 0, 0), std::string(200, 'x') + "\n");
}

TEST(LayoutTest, WidthCountsCharactersNotBytes) {
  EXPECT_EQ(padded("\xC3\xA4", 3), "\xC3\xA4  ");
  EXPECT_EQ(padded("a", 3, true), "  a");
}

TEST(LayoutTest, ThousandsAreGrouped) {
  EXPECT_EQ(grouped(0), "0");
  EXPECT_EQ(grouped(-1234567), "-1,234,567");
  EXPECT_EQ(grouped(999), "999");
  EXPECT_EQ(grouped(std::numeric_limits<std::int64_t>::min()), "-9,223,372,036,854,775,808");
}

}  // namespace
}  // namespace sixty::cli
