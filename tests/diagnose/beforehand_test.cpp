// What is known of an installation before anything is looked at speaks for some faults and against
// others, and is never lost.
#include "sim/diagnose/beforehand.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

struct Told {
  std::vector<Observation> all;
  std::string mistakes;
};

/// `known`: what stands under it, in braces.
Told told(const std::string& known, const std::string& seen = "{at: bell, sign: silent}") {
  const Library& library = BenchLibrary::get().library();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  Told told;
  const auto root =
      parse_yaml("observations: bench-minimal\nknown: " + known + "\nseen: [" + seen + "]\n",
                 "told.yaml", diagnostics);
  if (root)
    told.all = read_observations(*root, "told.yaml", *library.installation, library.signs,
                                 library.watch, mistakes);
  told.mistakes = diagnostics.to_text();
  return told;
}

double weight(const std::string& known, const std::string& fault, const std::string& part) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Told t = told(known);
  EXPECT_EQ(t.mistakes, "");
  return weights_of(known_with(t.all), bench.library().suspects,
                    *bench.library().installation)[bench.suspect(fault, part)];
}

double belief(const std::string& known, const std::string& fault, const std::string& part) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Ranking ranking = rank(bench.library(), told(known).all, {});
  expect_beliefs(ranking);
  for (const Ranked& one : ranking.ranked) {
    if (one.suspect == bench.suspect(fault, part) && !one.second) return one.probability;
  }
  return 0;
}

TEST(Beforehand, AFilmIsLikelierWhereDampWasAndLessLikelyWhereItWasCleaned) {
  const double plain = belief("{}", "F41", "bell");
  EXPECT_GT(belief("{weather: [damp]}", "F41", "bell"), plain);
  EXPECT_LT(belief("{done: [{what: cleaned, at: bell}]}", "F41", "bell"), plain);
}

TEST(Beforehand, ACircumstanceCountsForEachCauseItsShare) {
  // Of dirt, wear, damp alone the last is four times as likely.
  EXPECT_NEAR(weight("{weather: [damp]}", "F41", "bell"), (1 + 1 + 4) / 3.0, 1e-12);
  EXPECT_EQ(weight("{}", "F41", "bell"), 1);
}

TEST(Beforehand, WhatWasDoneSpeaksOnlyOfWhereItWasDone) {
  EXPECT_LT(weight("{done: [{what: cleaned, at: bell}]}", "F41", "bell"), 1);
  EXPECT_EQ(weight("{done: [{what: cleaned, at: hall_clock}]}", "F41", "bell"), 1);
}

TEST(Beforehand, WhatWasDoneWithoutAPlaceSpeaksOnlyOfPartsThatItConcerns) {
  EXPECT_LT(weight("{done: [{what: new cells}]}", "F22", "supply"), 1);
  EXPECT_EQ(weight("{done: [{what: new cells}]}", "F62", "hall_clock"), 1);
}

TEST(Beforehand, WhatWasDoneLongAgoSpeaksLess) {
  const std::string lately = "{done: [{what: adjusted, at: bell, ago: today}]}";
  const std::string before = "{done: [{what: adjusted, at: bell, ago: 3 months}]}";
  EXPECT_NEAR(weight(lately, "F69", "bell"), 5, 1e-12);
  EXPECT_NEAR(weight(before, "F69", "bell"), std::sqrt(5.0), 1e-9);
}

TEST(Beforehand, AgeSpeaksForWhatGetsOldAndServiceLongAgoForDirt) {
  EXPECT_GT(weight("{age: 120 years}", "F68", "bell"), 1);
  EXPECT_LT(weight("{age: 5 years}", "F68", "bell"), 1);
  EXPECT_GT(weight("{serviced: 20 years ago}", "F67", "bell"), 1);
  EXPECT_GT(weight("{serviced: yesterday}", "F69", "bell"), 2);
}

TEST(Beforehand, BuiltCountsUpToTheScenesOwnStart) {
  const int year =
      std::stoi(format_iso(BenchLibrary::get().library().installation->clock, 0, 0).substr(0, 4));
  EXPECT_NEAR(weight("{built: " + std::to_string(year - 40) + "}", "F68", "bell"),
              weight("{age: 40 years}", "F68", "bell"), 1e-9);
  EXPECT_NE(told("{built: " + std::to_string(year + 1) + "}").mistakes, "");
}

TEST(Beforehand, NothingIsEverRuledOutOrCertain) {
  std::string much = "{done: [";
  for (int k = 0; k < 90; ++k) much += "{what: adjusted}, {what: renewed},";
  const std::string known = much.substr(0, much.size() - 1) + "]}";
  EXPECT_NE(told(known).mistakes, "");  // more than can be weighed
  std::string some = "{done: [";
  for (int k = 0; k < 40; ++k) {
    const std::string by = ", by: '" + std::to_string(k) + "'},";
    some += "{what: adjusted" + by + "{what: cleaned" + by;
  }
  some = some.substr(0, some.size() - 1) + "]}";
  EXPECT_EQ(weight(some, "F69", "bell"), 20);
  EXPECT_EQ(weight(some, "F67", "bell"), 0.05);
}

TEST(Beforehand, WhatIsToldTwiceCountsOnce) {
  EXPECT_EQ(weight("{done: [{what: adjusted}, {what: adjusted}]}", "F69", "bell"), 5);
}

TEST(Beforehand, IsPutDownAndReadBackTheSame) {
  const Library& library = BenchLibrary::get().library();
  const std::string known =
      "{built: 1931, serviced: 18 months ago, weather: [damp, frost], done: [{what: new batteries, "
      "at: supply, ago: 2 weeks, by: 'the \"old\" caretaker \\ Zoë'}, {what: wedding}]}";
  const Told first = told(known, "{at: bell, sign: silent}, {at: movement, sign: stands}");
  ASSERT_EQ(first.mistakes, "");
  const std::string text =
      observations_text(first.all, library.signs, "bench-minimal", *library.installation);
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root = parse_yaml(text, "again", diagnostics);
  ASSERT_TRUE(root) << text << diagnostics.to_text();
  const auto again = read_observations(*root, "again", *library.installation, library.signs,
                                       library.watch, mistakes);
  EXPECT_EQ(diagnostics.to_text(), "") << text;
  EXPECT_EQ(beforehand_words(known_with(again)), beforehand_words(known_with(first.all)));
  EXPECT_EQ(beforehand_words(known_with(again)).size(), 6u);
  EXPECT_EQ(observations_text(again, library.signs, "bench-minimal", *library.installation), text);
}

TEST(Beforehand, IsToldInOneSentence) {
  const Told t = told(
      "{built: 1931, serviced: 3 years, weather: [frost], done: [{what: oiled, at: movement, "
      "ago: 2 weeks, by: the verger}, {what: wedding, ago: yesterday}]}");
  EXPECT_EQ(
      beforehand_sentence(known_with(t.all)),
      "what was known beforehand: built 1931; last serviced 3 years ago; weather: frost; oiled at "
      "movement, 2 weeks ago (the verger); wedding, yesterday");
  EXPECT_EQ(beforehand_sentence(known_with(told("{}").all)), "");
}

TEST(Beforehand, StaysWithWhatIsLeftWhereSomethingIsTakenOut) {
  Told t = told("{weather: [damp]}", "{at: bell, sign: silent}, {at: movement, sign: stands}");
  t.all.erase(t.all.begin());
  EXPECT_EQ(beforehand_words(known_with(t.all)).size(), 1u);
}

TEST(Beforehand, MistakesAreToldWithLineAndColumn) {
  const struct {
    const char *known, *place, *says;
  } kCases[] = {
      {"{built: soon}", "told.yaml:2:16", "1800"},
      {"{built: nan}", "told.yaml:2:16", ""},
      {"{built: 1931, age: 90 years}", "told.yaml:2:27", "leave one out"},
      {"{serviced: -3 days}", "told.yaml:2:19", "18 months ago"},
      {"{serviced: inf years}", "told.yaml:2:19", ""},
      {"{age: 1e9 years}", "told.yaml:2:14", ""},
      {"{weather: [damq]}", "told.yaml:2:19", "damp"},
      {"{weather: damp}", "told.yaml:2:18", ""},
      {"{done: [{what: oild}]}", "told.yaml:2:23", "oiled"},
      {"{done: [{what: damp}]}", "told.yaml:2:23", ""},
      {"{done: [{at: bell}]}", "told.yaml:2:16", "what"},
      {"{done: [{what: oiled, at: bel}]}", "told.yaml:2:34", "bell"},
      {"{done: [{what: oiled, ago: long}]}", "told.yaml:2:35", "3 days ago"},
      {"{done: [oiled]}", "told.yaml:2:16", ""},
      {"{bilt: 1931}", "told.yaml:2:9", "built"},
      {"[1]", "told.yaml:2:8", ""},
  };
  for (const auto& one : kCases) {
    const std::string said = told(one.known).mistakes;
    EXPECT_NE(said.find(one.place), std::string::npos) << one.known << "\n" << said;
    EXPECT_NE(said.find(one.says), std::string::npos) << one.known << "\n" << said;
  }
}

TEST(Days, AreReadAsPeopleSayThem) {
  EXPECT_EQ(read_days("today"), 0.0);
  EXPECT_EQ(read_days("Yesterday"), 1.0);
  EXPECT_EQ(read_days("2 weeks ago"), 14.0);
  EXPECT_EQ(read_days("1 week"), 7.0);
  EXPECT_NEAR(*read_days("18 months ago"), 547.875, 1e-9);
  for (const char* text :
       {"", "ago", "3", "3 moons", "-1 day", "nan days", "1e400 days", "501 years"})
    EXPECT_FALSE(read_days(text)) << text;
}

TEST(Circumstances, OfTheTreeHaveNoMistakeAndEachWordOneMeaning) {
  const Registry registry = models::registry();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const CircumstanceBook book(registry.circumstances(), mistakes);
  EXPECT_EQ(diagnostics.to_text(), "");
  EXPECT_GT(book.all().size(), 15u);
  for (const Circumstance& one : book.all()) {
    EXPECT_EQ(book.find(one.name, one.weather), &one);
    for (const std::string& word : one.words) EXPECT_EQ(book.find(word, one.weather), &one) << word;
  }
}

TEST(Circumstances, EveryFaultSaysWhatItComesOfAndEveryCauseIsSpokenOf) {
  const Registry registry = models::registry();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const FaultBook faults(registry, mistakes);
  const CircumstanceBook book(registry.circumstances(), mistakes);
  std::set<Cause> of_faults;
  for (const auto& fault : faults.all()) {
    EXPECT_FALSE(fault->comes_of.empty()) << full_name(*fault) << " of " << fault->kind->name;
    of_faults.insert(fault->comes_of.begin(), fault->comes_of.end());
  }
  EXPECT_EQ(of_faults.size(), kCauses);
  for (std::size_t c = 0; c < kCauses; ++c) {
    bool spoken_of = false;
    for (const Circumstance& one : book.all()) spoken_of = spoken_of || one.factor[c] != 1;
    EXPECT_TRUE(spoken_of) << cause_words()[c];
  }
}

}  // namespace
}  // namespace sixty::diagnose
