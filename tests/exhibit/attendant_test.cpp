// What an exhibit does for who stands in front of it.
#include "sim/exhibit/attendant.hpp"

#include <gtest/gtest.h>

namespace sixty::exhibit {
namespace {

using Place = Attendant::Place;

Take take(const std::string& name) {
  Take made;
  made.name = name;
  made.to = kSecond;
  made.least_s = 8;
  return made;
}

/// Two pieces of a story, a thing with a hand, and a hunt of two cases.
std::shared_ptr<const Exhibit> exhibit() {
  auto made = std::make_shared<Exhibit>();
  made->story = {take("now"), take("minute")};
  made->story[0].live = true;
  Take right = take("right");
  right.right = true;
  made->things = {
      {"ring", {}, std::nullopt, {{take("ring-one"), {take("ring-two")}}}},
      {"hunt",
       {},
       std::nullopt,
       {{take("first"), {right, take("wrong")}}, {take("second"), {take("no"), right}}}}};
  return made;
}

class AttendantTest : public testing::Test {
 protected:
  void wait(double seconds, bool arrived = true) {
    for (double gone = 0; gone < seconds; gone += 0.5) attendant_.pass(0.5, arrived);
  }
  std::shared_ptr<const Exhibit> exhibit_ = exhibit();
  Attendant attendant_{exhibit_, {"en", "de"}};
};

TEST_F(AttendantTest, TheStoryGoesRoundWhileNobodyIsThere) {
  EXPECT_EQ(attendant_.take().name, "now");
  wait(8);
  EXPECT_EQ(attendant_.take().name, "minute");
  wait(7.5);
  EXPECT_EQ(attendant_.take().name, "minute");
  wait(1);
  EXPECT_EQ(attendant_.take().name, "now");
  wait(600);
  EXPECT_FALSE(attendant_.asks());
}

TEST_F(AttendantTest, APieceOfTheStoryIsSeenToItsEnd) {
  wait(8);
  wait(60, false);
  EXPECT_EQ(attendant_.take().name, "minute");
}

TEST_F(AttendantTest, ATouchBringsItToTheVisitorAtOnce) {
  attendant_.touch();
  EXPECT_EQ(attendant_.place(), Place::kHall);
  const std::uint64_t before = attendant_.begun();
  attendant_.choose(0);
  EXPECT_EQ(attendant_.place(), Place::kThing);
  EXPECT_EQ(attendant_.take().name, "ring-one");
  EXPECT_GT(attendant_.begun(), before);
  attendant_.press(0);
  EXPECT_EQ(attendant_.take().name, "ring-two");
}

TEST_F(AttendantTest, WhatIsNotOfferedIsNotTaken) {
  attendant_.choose(7);
  EXPECT_EQ(attendant_.place(), Place::kStory);
  attendant_.press(0);
  EXPECT_EQ(attendant_.place(), Place::kStory);
  attendant_.speak(9);
  EXPECT_EQ(attendant_.language(), "en");
  attendant_.choose(0);
  attendant_.press(5);
  EXPECT_EQ(attendant_.take().name, "ring-one");
  attendant_.another();
  EXPECT_EQ(attendant_.thing(), 0U);
}

/// Source: idle warning 45 to 60 s after the last touch, reset 15 to 20 s later; common practice,
/// no source.
TEST_F(AttendantTest, LeftAloneItAsksAndThenGoesHomeInTheFirstLanguage) {
  attendant_.choose(0);
  attendant_.speak(1);
  wait(exhibit_->ask_after_s - 1);
  EXPECT_FALSE(attendant_.asks());
  wait(1.5);
  ASSERT_TRUE(attendant_.asks());
  EXPECT_NEAR(*attendant_.asks(), exhibit_->answer_within_s, 1);
  wait(exhibit_->answer_within_s);
  EXPECT_EQ(attendant_.place(), Place::kStory);
  EXPECT_EQ(attendant_.language(), "en");
  EXPECT_EQ(attendant_.take().name, "now");
  ASSERT_TRUE(attendant_.take_stay());
}

TEST_F(AttendantTest, OneTouchStopsTheCountdown) {
  attendant_.choose(0);
  wait(exhibit_->ask_after_s + 5);
  ASSERT_TRUE(attendant_.asks());
  attendant_.touch();
  EXPECT_FALSE(attendant_.asks());
  EXPECT_EQ(attendant_.take().name, "ring-one");
  wait(exhibit_->ask_after_s - 1);
  EXPECT_EQ(attendant_.place(), Place::kThing);
}

TEST_F(AttendantTest, WhoWatchesAPieceIsNotAskedAndAPieceThatNeverEndsIsLeft) {
  attendant_.choose(0);
  wait(100, false);
  EXPECT_FALSE(attendant_.asks());
  wait(20 + exhibit_->ask_after_s + exhibit_->answer_within_s + 2, false);
  EXPECT_EQ(attendant_.place(), Place::kStory);
}

TEST_F(AttendantTest, InAHuntTheRightGuessLeadsToAnotherCase) {
  attendant_.choose(1);
  EXPECT_EQ(attendant_.take().name, "first");
  attendant_.press(1);
  wait(1);
  EXPECT_FALSE(attendant_.offers_another());
  attendant_.press(0);
  EXPECT_FALSE(attendant_.offers_another());
  wait(1);
  ASSERT_TRUE(attendant_.offers_another());
  attendant_.another();
  EXPECT_EQ(attendant_.take().name, "second");
}

TEST_F(AttendantTest, AnotherLanguageLeavesEverythingWhereItIs) {
  attendant_.choose(0);
  attendant_.press(0);
  const std::uint64_t before = attendant_.begun();
  attendant_.speak(1);
  EXPECT_EQ(attendant_.language(), "de");
  EXPECT_EQ(attendant_.begun(), before);
  EXPECT_EQ(attendant_.take().name, "ring-two");
}

TEST_F(AttendantTest, WhatIsUsedIsCountedByName) {
  attendant_.choose(0);
  attendant_.press(0);
  attendant_.speak(1);
  EXPECT_EQ(attendant_.take_uses(),
            (std::vector<std::string>{"visit", "ring", "ring-two", "language de"}));
  EXPECT_TRUE(attendant_.take_uses().empty());
}

/// Whatever is done, in whatever order: left alone, it is home again.
TEST_F(AttendantTest, FromEveryPlaceSilenceLeadsHome) {
  std::uint64_t state = 1;
  const auto draw = [&](std::uint64_t below) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::size_t>((state >> 33) % below);
  };
  for (int round = 0; round < 300; ++round) {
    for (std::size_t k = draw(12); k > 0; --k) {
      switch (draw(5)) {
        case 0:
          attendant_.choose(draw(3));
          break;
        case 1:
          attendant_.press(draw(4));
          break;
        case 2:
          attendant_.another();
          break;
        case 3:
          attendant_.speak(draw(3));
          break;
        default:
          wait(static_cast<double>(draw(30)), draw(2) == 0);
      }
    }
    wait(120 + exhibit_->ask_after_s + exhibit_->answer_within_s + 1, draw(2) == 0);
    ASSERT_EQ(attendant_.place(), Place::kStory);
    ASSERT_EQ(attendant_.language(), "en");
  }
}

}  // namespace
}  // namespace sixty::exhibit
