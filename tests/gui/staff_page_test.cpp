// The way in for staff: a corner or keys, and a PIN.
#include "gui/exhibit/staff_page.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <thread>

namespace sixty::gui {
namespace {

using Wish = StaffPage::Wish;

class StaffPageTest : public testing::Test {
 protected:
  static constexpr std::int64_t kNow = 1'800'000'000;

  void type(const std::string& digits) {
    for (const char digit : digits)
      page_.press(digit == '0' ? 10 : static_cast<std::size_t>(digit - '1'), kNow);
    page_.press(11, kNow);
    while (!page_.pass(0.01, kNow)) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }

  exhibit::StaffDoor door_{exhibit::StaffDoor::Corner::kUpperLeft, 5, hashed_pin("2580"), {}};
  StaffPage page_{door_, ""};
};

TEST_F(StaffPageTest, ACornerThatIsHeldLongEnoughAsksForThePin) {
  page_.hold(4.9, kNow);
  EXPECT_FALSE(page_.is_shown());
  page_.hold(5, kNow);
  EXPECT_TRUE(page_.is_shown());
  EXPECT_FALSE(page_.is_open());
  EXPECT_EQ(page_.buttons(false).size(), 13U);
}

TEST_F(StaffPageTest, OnlyTheRightPinOpens) {
  page_.knock(kNow);
  type("2581");
  EXPECT_FALSE(page_.is_open());
  EXPECT_EQ(page_.text(), "That was not it.");
  type("2580");
  ASSERT_TRUE(page_.is_open());
  EXPECT_EQ(page_.press(0, kNow), Wish::kQuieter);
  EXPECT_EQ(page_.press(3, kNow), Wish::kEnd);
  page_.press(4, kNow);
  EXPECT_FALSE(page_.is_shown());
}

TEST_F(StaffPageTest, WhoeverTriesWaitsAlsoAfterARestart) {
  page_.knock(kNow);
  for (int k = 0; k < 6; ++k) type("1111");
  EXPECT_NE(page_.text().find("Too many tries"), std::string::npos) << page_.text();
  type("2580");
  EXPECT_FALSE(page_.is_open());
  StaffPage restarted(door_, page_.gate_line());
  restarted.knock(kNow + 1);
  EXPECT_NE(restarted.text().find("Too many tries"), std::string::npos) << restarted.text();
}

TEST_F(StaffPageTest, LeftAloneItShuts) {
  page_.knock(kNow);
  page_.pass(StaffPage::kShutsAfter_s - 1, kNow);
  EXPECT_TRUE(page_.is_shown());
  page_.pass(2, kNow);
  EXPECT_FALSE(page_.is_shown());
}

TEST_F(StaffPageTest, WithoutAPinTheKeysAloneOpen) {
  door_.pin.clear();
  page_.hold(60, kNow);
  EXPECT_FALSE(page_.is_shown());
  page_.knock(kNow);
  EXPECT_TRUE(page_.is_open());
}

TEST_F(StaffPageTest, ItsButtonsAreLargeAndOnTheScreen) {
  for (const Pixel size : {Pixel(1280, 800), Pixel(1080, 1920)}) {
    const ScreenSizes sizes = sizes_on({0.3, 0.6, false}, size);
    const StaffPlan plan(13, size, sizes);
    for (const sf::FloatRect& box : plan.buttons) {
      EXPECT_GE(box.width, sizes.target);
      EXPECT_GE(box.height, sizes.target);
      EXPECT_GE(box.top, plan.words.top + plan.words.height);
      EXPECT_LE(box.top + box.height, size.y);
      EXPECT_GE(box.left, 0);
      EXPECT_LE(box.left + box.width, size.x);
    }
  }
}

TEST(StaffKeys, AreSeveralAtOnce) {
  const auto chord = exhibit::read_chord("Ctrl+Alt+F9");
  ASSERT_TRUE(chord);
  EXPECT_TRUE(chord->control && chord->alt && !chord->shift);
  EXPECT_EQ(chord->key, "F9");
  for (const char* wrong : {"", "F9", "Ctrl+", "Ctrl+f9", "Super+A", "Ctrl+F13", "+"})
    EXPECT_FALSE(exhibit::read_chord(wrong)) << wrong;
}

}  // namespace
}  // namespace sixty::gui
