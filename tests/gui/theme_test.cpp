// Texts can be read in both themes. Source: WCAG 2.1, success criterion 1.4.3: 4.5 to 1.
#include <gtest/gtest.h>

#include "gui/paint/theme.hpp"

namespace sixty::gui {
namespace {

constexpr double kLeast = 4.5;

class ThemeTest : public testing::TestWithParam<const Theme*> {};

TEST_P(ThemeTest, TextsStandOutFromAllThatTheyStandOn) {
  const Theme& t = *GetParam();
  for (const sf::Color ground : {t.ground, t.panel, t.raised}) {
    EXPECT_GE(contrast(t.text, ground), kLeast);
    EXPECT_GE(contrast(t.second_text, ground), kLeast);
  }
  EXPECT_GE(contrast(t.wrong, t.ground), kLeast);
  EXPECT_GE(contrast(t.right, t.ground), kLeast);
  const Finish& ink = t.finish(Material::kInk);
  EXPECT_GE(contrast(ink.top_left, t.finish(Material::kPaper).bottom_right), kLeast);
  EXPECT_GE(contrast(ink.top_left, t.finish(Material::kIvory).bottom_right), kLeast);
  EXPECT_GE(contrast(t.finish(Material::kIvory).top_left, t.finish(Material::kSlate).top_left),
            t.is_dark ? kLeast : 1.0);
}

TEST(Contrast, IsThatOfThePublishedFormula) {
  EXPECT_NEAR(contrast(sf::Color::White, sf::Color::Black), 21, 1e-9);
  // Worked values of the formula: #777777 on white is 4.48.
  EXPECT_NEAR(contrast(sf::Color(0x77, 0x77, 0x77), sf::Color::White), 4.48, 0.005);
}

INSTANTIATE_TEST_SUITE_P(Themes, ThemeTest, testing::Values(&dark_theme(), &light_theme()));

}  // namespace
}  // namespace sixty::gui
