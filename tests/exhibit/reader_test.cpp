// Exhibits' files: what is shipped is true, and what is wrong is told.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/part_list.hpp"
#include "sim/exhibit/exhibit.hpp"
#include "sim/exhibit/exhibit_schema.hpp"
#include "sim/exhibit/hours_reader.hpp"
#include "sim/exhibit/rehearsal.hpp"
#include "sim/words/words.hpp"

namespace sixty::exhibit {
namespace {

const std::string kScenes = std::string(SIXTY_SOURCE_DIR) + "/scenes/";

/// All that is found in an exhibit of the smallest scene with this text.
std::string mistakes_in(const std::string& text) {
  static const Registry registry = models::registry();
  Diagnostics diagnostics;
  const std::string path = kScenes + "exhibits/test.yaml";
  const auto root = parse_yaml(text, path, diagnostics);
  if (root) check_exhibit(*root, path, registry, diagnostics);
  return diagnostics.to_text();
}

const std::string kPiece =
    "{name: one, text: {en: A minute.}, at: Mon 08:00:30, to: Mon 08:00:40, answer: {en: So.}}";

std::string exhibit_with(const std::string& more, const std::string& first = kPiece,
                         const std::string& story = "") {
  return "exhibit: {en: Title}\nscene: bench-minimal\nstory:\n  - {name: now, live: yes, text: "
         "{en: Now.}}\n" +
         story + "things:\n  - name: ring\n    title: {en: Ring}\n    first: " + first + "\n" +
         more;
}

TEST(ExhibitFile, TheSmallestIsTaken) { EXPECT_EQ(mistakes_in(exhibit_with("")), ""); }

TEST(ExhibitFile, WhatIsWrongIsToldWithItsPlace) {
  const auto holds = [](const std::string& text, const std::string& wanted) {
    const std::string mistakes = mistakes_in(text);
    EXPECT_NE(mistakes.find(wanted), std::string::npos) << text << "\n" << mistakes;
  };
  holds(exhibit_with("time_zone: Middle/Nowhere\n"), "there is no such zone here");
  holds(exhibit_with("languages: [en, xx]\n"), "the program does not speak it");
  holds(exhibit_with("languages: [en, en]\n"), "it is there twice");
  holds(exhibit_with("accent: red\n"), "this is no colour");
  holds(exhibit_with("sound: {volume: 90 %, most: 50 %}\n"), "louder than it may be");
  holds(exhibit_with("staff: {pin: \"1234\"}\n"), "this is no hashed PIN");
  holds(exhibit_with("open: {Mon: \"17:00-09:00\"}\n"), "this is no span of a day");
  holds(exhibit_with("open: {Someday: closed}\n"), "this is no day");
  holds(exhibit_with("dial: nothing\n"), "nothing");
  holds(exhibit_with("colour: red\n"), "colour");
  holds(exhibit_with("", "{name: now, text: {en: A.}, at: Mon 08:00, to: Mon 08:01}"),
        "is there twice");
  holds(exhibit_with("", "{name: one, text: {en: A.}, at: Mon 08:01, to: Mon 08:00}"),
        "it ends before it begins");
  holds("exhibit: {en: A}\nscene: nowhere\nstory: []\nthings: []\n", "there is no such scene");
  holds("exhibit: {en: A}\nscene: bench-minimal\nstory: []\nthings: []\n",
        "there cannot be so many");
}

TEST(ExhibitFile, LongSentencesAreRefused) {
  std::string words;
  for (int k = 0; k < 26; ++k) words += "word ";
  EXPECT_NE(mistakes_in(exhibit_with("", "{name: one, text: {en: \"" + words +
                                             "\"}, at: Mon 08:00, to: Mon 08:01}"))
                .find("a sentence has 26 words"),
            std::string::npos);
}

TEST(ExhibitFile, WhatTheRunDoesNotBearOutIsAMistake) {
  const std::string first =
      "{name: one, text: {en: A.}, at: Mon 08:00:30, to: Mon 08:00:40, proves: [{event: "
      "arm_b.makes, is: 1}]}";
  EXPECT_EQ(mistakes_in(exhibit_with("", first)), "");
  std::string wrong = first;
  wrong.replace(wrong.find("is: 1"), 5, "is: 2");
  EXPECT_NE(mistakes_in(exhibit_with("", wrong)).find("the run does not bear it out"),
            std::string::npos);
}

TEST(ExhibitHours, DaysRangesAndDatesAreKept) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  TreeReader reader("test", mistakes);
  const auto node = parse_yaml(
      "{Mon-Fri: \"09:00-17:30\", Sat: [\"10:00-12:00\", \"14:00-16:00\"], 2026-12-24: closed}",
      "test", diagnostics);
  const Hours hours = read_hours(&*node, "open", reader);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  const auto open = [&](const std::string& text) {
    std::string error;
    return hours.hold(*parse_calendar_time(text, error));
  };
  EXPECT_TRUE(open("2026-12-01T09:00"));
  EXPECT_FALSE(open("2026-12-01T08:59:59"));
  EXPECT_FALSE(open("2026-12-01T17:30"));
  EXPECT_FALSE(open("2026-12-05T13:00"));
  EXPECT_TRUE(open("2026-12-05T15:59"));
  EXPECT_FALSE(open("2026-12-06T12:00"));
  EXPECT_FALSE(open("2026-12-24T12:00"));  // a Thursday
  EXPECT_FALSE(Hours().are_given());
}

/// Every number that visitors read is a number of the run, and all that it is said to show is so.
TEST(ShippedExhibit, IsBorneOutByItsRun) {
  static const Registry registry = models::registry();
  Diagnostics diagnostics;
  const Opened opened = open_exhibit(kScenes + "exhibits/school-hall.yaml", registry, diagnostics);
  ASSERT_NE(opened.exhibit, nullptr) << diagnostics.to_text();
  for (const Flaw& flaw : flaws_of(opened)) ADD_FAILURE() << flaw.take->name << ": " << flaw.what;
  EXPECT_GE(opened.exhibit->things.size(), 5U);
  EXPECT_LE(opened.exhibit->things.size(), 7U);
}

/// Labels of 75 words are read, longer ones are not. Source: Smithsonian guidelines for accessible
/// exhibition design.
TEST(ShippedExhibit, NothingIsLong) {
  static const Registry registry = models::registry();
  Diagnostics diagnostics;
  const Opened opened = open_exhibit(kScenes + "exhibits/school-hall.yaml", registry, diagnostics);
  ASSERT_NE(opened.exhibit, nullptr) << diagnostics.to_text();
  for (const Take* take : takes_of(*opened.exhibit)) {
    for (const Sayings* sayings : {&take->text, &take->answer}) {
      for (const auto& [language, saying] : *sayings) {
        std::size_t spaces = 0;
        for (const Saying::Piece& piece : saying.pieces)
          spaces +=
              static_cast<std::size_t>(std::count(piece.words.begin(), piece.words.end(), ' '));
        EXPECT_LT(spaces, 75U) << take->name << " " << language;
      }
    }
  }
}

}  // namespace
}  // namespace sixty::exhibit
