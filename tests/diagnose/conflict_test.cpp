// What cannot both be so is told, and weighed all the same; what is no observation is refused with
// its place.
#include "sim/diagnose/conflict.hpp"

#include <gtest/gtest.h>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

std::vector<Conflict> conflicts(const std::vector<std::string>& texts) {
  const BenchLibrary& bench = BenchLibrary::get();
  std::vector<Observation> all;
  for (const std::string& text : texts) all.push_back(bench.observed(text));
  return conflicts_among(all, bench.library().signs);
}

using Pairs = std::vector<Conflict>;

TEST(Conflicts, AClockThatStandsIsNotFast) {
  EXPECT_EQ(conflicts({"at: hall_clock, sign: stands", "at: hall_clock, sign: fast"}),
            (Pairs{{0, 1}}));
  EXPECT_EQ(conflicts({"at: hall_clock, sign: fast, about: 5", "at: bell, sign: silent",
                       "at: all secondary, sign: stands"}),
            (Pairs{{0, 2}}));
}

TEST(Conflicts, YesAndNoAtOnePartExcludeEachOther) {
  EXPECT_EQ(conflicts({"at: bell, sign: silent", "at: bell, sign: silent, answer: no"}),
            (Pairs{{0, 1}}));
  EXPECT_EQ(conflicts({"at: all secondary, sign: slow, answer: no", "at: hall_clock, sign: slow"}),
            (Pairs{{0, 1}}));
}

TEST(Conflicts, AreNoneWhereTheyAreOfOtherPartsOrHoursOrOfSome) {
  EXPECT_EQ(conflicts({"at: bell, sign: silent", "at: hall_clock, sign: stands"}), Pairs{});
  EXPECT_EQ(conflicts({"at: bell, sign: silent, when: Mon am",
                       "at: bell, sign: silent, when: Mon pm, answer: no"}),
            Pairs{});
  EXPECT_EQ(conflicts({"at: all secondary, sign: stands, some: yes", "at: hall_clock, sign: fast"}),
            Pairs{});
  EXPECT_EQ(conflicts({"at: bell, sign: silent", "at: bell, sign: silent, answer: not looked at"}),
            Pairs{});
}

TEST(Conflicts, AreWeighedAndSoMuchIsToldUnexplained) {
  const Ranking ranking = BenchLibrary::get().ranked(
      {"at: bell, sign: silent, checked: yes", "at: bell, sign: silent, answer: no, checked: yes"});
  expect_beliefs(ranking);
  EXPECT_FALSE(ranking.unexplained.empty());
}

std::string said_of(const std::string& text) { return BenchLibrary::get().mistakes_in(text); }

TEST(BadObservations, AreToldWithLineAndColumn) {
  const std::string head = "observations: bench-minimal\nseen:\n  - ";
  const struct {
    const char *entry, *place;
  } kCases[] = {{"{at: hall_clock, sign: slow, about: nan}", "told.yaml:3:41"},
                {"{at: hall_clock, sign: slow, about: inf}", "told.yaml:3:41"},
                {"{at: hall_clock, sign: slow, about: 1e300}", "told.yaml:3:41"},
                {"{at: hall_clock, sign: volts_low, reads: -1e40 V}", "told.yaml:3:46"},
                {"{at: hall_clock, sign: slow, about: 5 parsecs}", "told.yaml:3:41"},
                {"{at: hall_clock, sign: slow, about: [5]}", "told.yaml:3:41"},
                {"{at: Bücherei, sign: slow}", "told.yaml:3:10"},
                {"{at: hall_clock, sign: langsam∞}", "told.yaml:3:28"},
                {"{at: hall_clock, sign: ''}", "told.yaml:3:28"},
                {"{at: '', sign: slow}", "told.yaml:3:10"},
                {"{at: hall_clock}", "told.yaml:3:5"},
                {"{at: hall_clock, sign: slow, sign: fast}", "told.yaml:3:"},
                {"{at: hall_clock, sign: slow, answer: maybe}", "told.yaml:3:42"},
                {"{at: hall_clock, sign: slow, sine: 3}", "told.yaml:3:34"},
                {"5", "told.yaml:3:5"}};
  for (const auto& one : kCases) {
    const std::string said = said_of(head + one.entry + "\n");
    EXPECT_NE(said.find(one.place), std::string::npos) << one.entry << "\n" << said;
  }
}

TEST(BadObservations, WithATabOrBrokenTextAreToldWithTheirLine) {
  EXPECT_NE(said_of("observations: bench-minimal\nseen:\n\t- {at: bell, sign: silent}\n")
                .find("told.yaml:3:"),
            std::string::npos);
  EXPECT_NE(said_of("observations: bench-minimal\nseen:\n  - {at: \xff\xfe, sign: silent}\n")
                .find("told.yaml:3:"),
            std::string::npos);
}

TEST(BadObservations, OfTenMegabytesAreRefusedAtOnce) {
  std::string text = "observations: bench-minimal\nseen:\n";
  while (text.size() < 10'000'000) text += "  - {at: bell, sign: silent}\n";
  EXPECT_NE(said_of(text).find("told.yaml"), std::string::npos);
}

TEST(BadObservations, AreTooManyFrom501On) {
  std::string text = "observations: bench-minimal\nseen:\n";
  for (int k = 0; k < 501; ++k) text += "  - {at: bell, sign: silent}\n";
  EXPECT_NE(said_of(text).find("told.yaml:3"), std::string::npos);
}

TEST(BadObservations, ThatAreEmptyAreRefused) {
  for (const char* text :
       {"", "\n", "#\n", "observations:\n", "observations: bench-minimal\nseen:\n"})
    EXPECT_NE(said_of(text), "") << text;
}

}  // namespace
}  // namespace sixty::diagnose
