// The tour's guide: which step is due, and what stops and moves it.
#include "gui/tour/guide.hpp"

#include <gtest/gtest.h>

namespace sixty::gui {
namespace {

using Way = Guide::Way;

TEST(Guide, StepsFollowEachOtherAndTheLastStays) {
  Guide guide({10, 5}, Way::kOnce);
  EXPECT_EQ(guide.begun(), 1U);
  guide.pass(4);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_DOUBLE_EQ(guide.share(), 0.4);
  guide.pass(6);
  EXPECT_EQ(guide.step(), 1U);
  EXPECT_EQ(guide.begun(), 2U);
  EXPECT_TRUE(guide.runs());
  guide.pass(5);
  EXPECT_TRUE(guide.is_over());
  EXPECT_FALSE(guide.runs());
  guide.pass(10 * Guide::kPatience_s);
  EXPECT_TRUE(guide.is_over());
}

TEST(Guide, ALoopBeginsAgain) {
  Guide guide({10, 5}, Way::kLoop, 1);
  guide.pass(5);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_FALSE(guide.is_over());
}

TEST(Guide, ATouchStopsItUntilItIsToldToGoOnFromTheStepsBeginning) {
  Guide guide({10, 5}, Way::kOnce);
  guide.pass(9);
  guide.touch();
  guide.pass(1000);
  EXPECT_TRUE(guide.stands());
  EXPECT_EQ(guide.step(), 0U);
  guide.go_on();
  EXPECT_FALSE(guide.stands());
  EXPECT_EQ(guide.share(), 0);
  EXPECT_EQ(guide.begun(), 2U);
}

TEST(Guide, ALoopThatNobodyTouchesAnyMoreGoesOnByItself) {
  Guide guide({10, 5}, Way::kLoop);
  guide.touch();
  guide.pass(Guide::kPatience_s - 1);
  guide.touch();
  guide.pass(Guide::kPatience_s - 1);
  EXPECT_TRUE(guide.stands());
  guide.pass(2);
  EXPECT_FALSE(guide.stands());
}

TEST(Guide, InATalkEachStepStaysUntilTheNextIsAskedFor) {
  Guide guide({10, 5}, Way::kTalk);
  guide.pass(100);
  EXPECT_EQ(guide.step(), 0U);
  EXPECT_FALSE(guide.runs());
  EXPECT_EQ(guide.share(), 1);
  guide.next();
  EXPECT_EQ(guide.step(), 1U);
  EXPECT_TRUE(guide.runs());
  guide.next();
  EXPECT_EQ(guide.step(), 1U);
  guide.back();
  EXPECT_EQ(guide.step(), 0U);
}

}  // namespace
}  // namespace sixty::gui
