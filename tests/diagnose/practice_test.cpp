// Hidden faults, hunted by a best player, and what each deed is worth.
#include <gtest/gtest.h>

#include <algorithm>

#include "sim/practice/hunt.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::practice {
namespace {

using diagnose::BenchLibrary;
using diagnose::Proposal;

const diagnose::Library& library() { return BenchLibrary::get().library(); }

Case case_of(Level level, std::uint64_t seed = 3) {
  const auto hidden = draw_case(library(), level, seed);
  EXPECT_TRUE(hidden.has_value()) << name_of(level);
  return hidden.value_or(Case{});
}

Hunt hunt_of(Level level, std::uint64_t seed = 3) {
  return Hunt(library(), BenchLibrary::get().checks(), case_of(level, seed));
}

const Level kAll[] = {Level::kObvious, Level::kSubtle, Level::kIntermittent, Level::kTwo,
                      Level::kHands};

TEST(PracticeCase, TheSameSeedHidesTheSame) {
  for (const Level level : kAll) {
    const Case one = case_of(level), again = case_of(level);
    ASSERT_EQ(one.hidden.size(), level == Level::kTwo ? 2U : 1U);
    for (std::size_t k = 0; k < one.hidden.size(); ++k) {
      EXPECT_EQ(one.hidden[k].suspect, again.hidden[k].suspect);
      EXPECT_EQ(one.hidden[k].manner.severity, again.hidden[k].manner.severity);
    }
    EXPECT_EQ(one.departures, again.departures);
    EXPECT_FALSE(diagnose::complaints(one.reports).empty());
  }
}

TEST(PracticeCase, ALevelHidesWhatItSays) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const auto fault = [&](Level level) {
      return library().suspects[case_of(level, seed).hidden[0].suspect].fault;
    };
    EXPECT_FALSE(fault(Level::kHands)->acts.empty());
    EXPECT_TRUE(fault(Level::kObvious)->acts.empty());
    const Course::Kind course = case_of(Level::kIntermittent, seed).hidden[0].manner.course.kind;
    EXPECT_TRUE(course == Course::Kind::kRandom || course == Course::Kind::kKnocks);
  }
  EXPECT_EQ(level_named("subtle"), Level::kSubtle);
  EXPECT_FALSE(level_named("hard").has_value());
}

TEST(PracticeCase, WhyItShowedEndsAtAPartThatHasTheFault) {
  const Case one = case_of(Level::kObvious);
  const auto links = why_of(library(), one.hidden);
  ASSERT_FALSE(links.empty());
  EXPECT_EQ(links.back().part, library().suspects[one.hidden[0].suspect].part);
}

TEST(PracticeHunt, TheBestPlayerFindsMendsAndProvesEachLevel) {
  for (const Level level : kAll) {
    Hunt hunt = hunt_of(level);
    play_best(hunt);
    const Score score = hunt.score();
    EXPECT_TRUE(score.mended) << name_of(level);
    EXPECT_TRUE(score.proved) << name_of(level);
    EXPECT_EQ(score.premature + score.needless + score.harmful, 0U) << name_of(level);
    double minutes = 0;
    for (const Deed& deed : hunt.deeds()) minutes += deed.minutes;
    EXPECT_DOUBLE_EQ(score.minutes, minutes);
    EXPECT_EQ(hunt.deeds().back().worth, Worth::kHolds);
  }
}

TEST(PracticeHunt, WorkingAtASoundPartWithoutEvidenceIsToldSo) {
  Hunt hunt = hunt_of(Level::kObvious);
  const auto& ranked = hunt.ranking().ranked;
  const std::size_t unlikely = ranked.back().suspect;
  ASSERT_LT(ranked.back().probability, 0.1);
  EXPECT_EQ(hunt.mend(unlikely).worth, Worth::kPremature);
  EXPECT_EQ(hunt.prove().worth, Worth::kStillWrong);
  EXPECT_FALSE(hunt.is_over());
  for (const diagnose::Ranked& one : hunt.ranking().ranked)
    EXPECT_FALSE(one.suspect == unlikely && !one.second && one.probability > 0);
  const Score score = hunt.score();
  EXPECT_EQ(score.good_parts, 1U);
  EXPECT_EQ(score.premature, 1U);
  EXPECT_FALSE(score.mended);
}

TEST(PracticeHunt, MendingWhatIsTheMatterEndsItOnlyOnceItIsProved) {
  Hunt hunt = hunt_of(Level::kObvious);
  EXPECT_EQ(hunt.mend(hunt.hidden().hidden[0].suspect).worth, Worth::kMended);
  EXPECT_TRUE(hunt.is_mended());
  EXPECT_FALSE(hunt.is_over());
  EXPECT_FALSE(hunt.score().proved);
  EXPECT_EQ(hunt.prove().worth, Worth::kHolds);
  EXPECT_TRUE(hunt.is_over());
}

TEST(PracticeHunt, BehindARepairChecksShowNoMoreOfIt) {
  Hunt hunt = hunt_of(Level::kObvious);
  const Proposal first = hunt.best_checks(1).at(0);
  hunt.mend(hunt.hidden().hidden[0].suspect);
  hunt.check(first);
  for (const diagnose::Observation& one : hunt.known()) {
    EXPECT_FALSE(one.checked && one.is_there()) << one.sign;
  }
}

TEST(PracticeHunt, OfTwoTheSecondIsToldAnewOnceTheFirstIsMended) {
  Hunt hunt = hunt_of(Level::kTwo);
  hunt.mend(hunt.hidden().hidden[0].suspect);
  const Deed& proof = hunt.prove();
  EXPECT_EQ(proof.worth, Worth::kStillWrong);
  EXPECT_EQ(proof.found.size(), hunt.known().size());
  hunt.mend(hunt.hidden().hidden[1].suspect);
  EXPECT_EQ(hunt.prove().worth, Worth::kHolds);
}

TEST(PracticeHunt, ACheckMadeTwiceCouldChangeNothing) {
  Hunt hunt = hunt_of(Level::kSubtle);
  const Proposal first = hunt.best_checks(1).at(0);
  const Worth worth = hunt.check(first).worth;
  EXPECT_TRUE(worth == Worth::kSplits || worth == Worth::kHelps);
  EXPECT_GT(hunt.deeds()[0].expected_bits, 0.02);
  const std::vector<Proposal> left = hunt.checks();
  const auto least = std::find_if(left.begin(), left.end(), [&](const Proposal& one) {
    return one.check == first.check && one.place == first.place;
  });
  EXPECT_EQ(least, left.end());  // it is not offered again
  EXPECT_EQ(hunt.check(first).worth, Worth::kNothing);
}

}  // namespace
}  // namespace sixty::practice
