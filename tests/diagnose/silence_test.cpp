// What people did not say counts too, but not more than it is worth.
#include "sim/diagnose/silence.hpp"

#include <gtest/gtest.h>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

/// Departures with these signs clearly there.
std::vector<float> showing(const std::vector<std::string>& texts) {
  const BenchLibrary& bench = BenchLibrary::get();
  std::vector<float> all(bench.library().usual.size());
  for (const std::string& text : texts) {
    for (const std::size_t k : bench.observed(text).which) {
      const bool below = bench.library().signs[k].sign->side == Side::kBelow;
      all[k] = below ? -20 : 20;
    }
  }
  return all;
}

double chance(const std::vector<std::string>& told, const std::vector<std::string>& shown) {
  const BenchLibrary& bench = BenchLibrary::get();
  std::vector<Observation> all;
  for (const std::string& text : told) all.push_back(bench.observed(text));
  const Vagueness vagueness;
  return Silence(bench.library(), all, vagueness).chance(showing(shown));
}

const std::string kBell = "at: bell, sign: silent", kStands = "at: all secondary, sign: stands";
const std::string kHall = "at: hall_clock, sign: stands";

TEST(Silence, IsCertainWhereNothingElseShows) { EXPECT_EQ(chance({kBell}, {kBell}), 1); }

TEST(Silence, IsUnlikelyWhereMuchElseShows) {
  EXPECT_LT(chance({kBell}, {kBell, kStands}), 0.5);
  EXPECT_GT(chance({kBell}, {kBell, kStands}), 0.05);  // people leave things out
}

TEST(Silence, IsBrokenByAnAnswerWhateverItIs) {
  EXPECT_EQ(chance({kBell, kStands + ", answer: no"}, {kBell, kStands}), 1);
  EXPECT_EQ(chance({kBell, kStands + ", answer: not looked at"}, {kBell, kStands}), 1);
}

TEST(Silence, WhoNamesOneClockHasSeenTheOthersRightAsARule) {
  EXPECT_LT(chance({kHall}, {kStands}), chance({kHall}, {kHall}));
}

TEST(Silence, WhereMoreShowsThanAnybodyTellsSomeOfItIsLeftOut) {
  const std::vector<std::string> few{kBell, kStands};
  std::vector<std::string> many = few;
  for (const char* text :
       {"at: movement, sign: stands", "at: tape, sign: stands", "at: rewind, sign: misses",
        "at: timetable, sign: missed", "at: bell, sign: mute", "at: all relay, sign: misses",
        "at: all contact_arm, sign: misses", "at: movement, sign: arc_small"})
    many.emplace_back(text);
  const double of_each = chance({kBell}, many) / chance({kBell}, few);
  EXPECT_GT(of_each, 1e-5);
  EXPECT_LT(of_each, 1);
}

}  // namespace
}  // namespace sixty::diagnose
