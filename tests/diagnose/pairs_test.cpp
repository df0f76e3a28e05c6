// Two faults at once.
#include <gtest/gtest.h>

#include <set>

#include "sim/diagnose/ranking.hpp"
#include "sim/diagnose/wording.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

Ranking ranked(const std::vector<std::string>& texts) { return BenchLibrary::get().ranked(texts); }

std::set<std::string> parts_of(const Ranked& one) {
  const Library& library = BenchLibrary::get().library();
  std::set<std::string> names;
  for (const std::size_t suspect : one.suspects())
    names.insert(library.installation->parts[library.suspects[suspect].part].name);
  return names;
}

const std::vector<std::string> kTwoThings = {"at: hall_clock, sign: fast, about: 20",
                                             "at: hall_clock, sign: gains, answer: no",
                                             "at: workshop_clock, sign: fast, answer: no",
                                             "at: workshop_clock, sign: slow, answer: no",
                                             "at: bell, sign: mute",
                                             "at: bell, sign: silent",
                                             "at: timetable, sign: missed, about: 16",
                                             "at: bell, sign: ohms_odd, answer: no, checked: yes"};

TEST(Pairs, ExplainWhatNoOneFaultDoes) {
  const Ranking ranking = ranked(kTwoThings);
  bool found = false;
  for (std::size_t k = 0; k < 5; ++k)
    found = found || (ranking.ranked[k].second && parts_of(ranking.ranked[k]).count("hall_clock"));
  EXPECT_TRUE(found);
}

TEST(Pairs, AreNotLookedForWhereOneFaultExplainsAll) {
  for (const Ranked& one : ranked({"at: bell, sign: silent"}).ranked) EXPECT_FALSE(one.second);
}

TEST(Pairs, AreWeighedWithTheRest) {
  const Ranking ranking = ranked(kTwoThings);
  expect_beliefs(ranking);
}

TEST(Pairs, AreToldWithBothNamesAndEachCautionOnce) {
  const Library& library = BenchLibrary::get().library();
  for (const Ranked& one : ranked(kTwoThings).ranked) {
    if (!one.second) continue;
    const std::string words = fault_words(one, library);
    for (const std::size_t suspect : one.suspects()) {
      EXPECT_NE(words.find(library.suspects[suspect].fault->name), std::string::npos) << words;
      const std::string& caution = library.suspects[suspect].fault->caution;
      if (caution.empty()) continue;
      const std::string care = care_of(one, library);
      const std::size_t at = care.find(caution);
      EXPECT_NE(at, std::string::npos);
      EXPECT_EQ(care.find(caution, at + 1), std::string::npos) << care;
    }
  }
}

}  // namespace
}  // namespace sixty::diagnose
