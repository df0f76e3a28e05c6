// Words in another language: what is looked up, what is filled in, and what happens where there is
// nothing. The catalogue is the shipped German one.
#include "sim/words/words.hpp"

#include <gtest/gtest.h>

#include <thread>

#include "sim/words/spoken.hpp"

namespace sixty {
namespace {

/// German, until a test ends.
class Words : public testing::Test {
 protected:
  void SetUp() override { speak(*find_language("de")); }
  void TearDown() override { speak(*find_language("en")); }
};

TEST_F(Words, LanguagesAreEnglishAndThoseThatHaveACatalogue) {
  ASSERT_GE(languages().size(), 2U);
  EXPECT_EQ(languages().front().code, "en");
  EXPECT_EQ(find_language("de")->name, "Deutsch");
  EXPECT_EQ(find_language("de")->decimal_sign, ',');
  EXPECT_EQ(find_language("xx"), nullptr);
  EXPECT_EQ(find_language(""), nullptr);
}

TEST_F(Words, AreThoseOfTheSpokenLanguage) {
  EXPECT_STREQ(tr("Mon"), "Mo");
  speak(*find_language("en"));
  EXPECT_STREQ(tr("Mon"), "Mon");
}

TEST_F(Words, WithoutATranslationAreTheEnglishOnes) {
  EXPECT_STREQ(tr("no catalogue has these words"), "no catalogue has these words");
  EXPECT_EQ(say("{} of these words {:.1f}", "none", 0.5), "none of these words 0,5");
  EXPECT_STREQ(tr(""), "");  // and not the head of the catalogue
  EXPECT_EQ(words_in(*find_language("de"), "no catalogue has these words"), nullptr);
  EXPECT_EQ(words_in(*find_language("en"), "Mon"), nullptr);
}

TEST_F(Words, NumbersHaveTheDecimalSignOfTheLanguage) {
  EXPECT_EQ(say("x {:.3g} y {:>8.2f} z {}", 0.25, 1.5F, 3), "x 0,25 y     1,50 z 3");
  EXPECT_EQ(say("x {:.{}f}", 2.25, 1), "x 2,2");
  EXPECT_EQ(spoken_number("0.5 of 1.5."), "0,5 of 1,5.");
  EXPECT_EQ(spoken_number(".5"), ".5");
  EXPECT_EQ(spoken_quantity(18.25, "V"), "18,25 V");
  speak(*find_language("en"));
  EXPECT_EQ(say("x {:.3g}", 0.25), "x 0.25");
  EXPECT_EQ(spoken_quantity(18.25, "V"), "18.25 V");
}

TEST_F(Words, TimesHaveTheDayOfTheLanguage) {
  const CivilClock clock;
  EXPECT_EQ(spoken_weekday_time(clock, kHour + kSecond / 2, 1).substr(0, 3),
            "Do ");  // 1 January 1970
  EXPECT_NE(spoken_weekday_time(clock, kHour + kSecond / 2, 1).find(":00,5"), std::string::npos);
  EXPECT_EQ(spoken_duration(1500 * kMillisecond), "1,5s");
  EXPECT_EQ(spoken_duration(kNever), "nie");
}

TEST_F(Words, OneAndManyAreToldApart) {
  EXPECT_EQ(spoken_times(0), "nie");
  EXPECT_EQ(spoken_times(1), "einmal");
  EXPECT_EQ(spoken_times(2), "2-mal");
  EXPECT_EQ(say_counted("{} nothing of the kind", "{} things of the kind", 1),
            "1 nothing of the kind");
  EXPECT_EQ(say_counted("{} nothing of the kind", "{} things of the kind", 5),
            "5 things of the kind");
  EXPECT_EQ(say_counted("{} nothing of {}", "{} things of {}", 5, "it"), "5 things of it");
}

TEST_F(Words, WithOtherBracesThanTheSourceHasAreNotUsed) {
  const double half = 0.5;
  EXPECT_EQ(say_with("{} and {} and {}", "only {}", fmt::make_format_args(half)), "only 0.5");
  EXPECT_EQ(say_with("{:d}", "only {}", fmt::make_format_args(half)), "only 0.5");
  EXPECT_EQ(say_with("{", "only {}", fmt::make_format_args(half)), "only 0.5");
}

TEST_F(Words, OfAllThreadsAreInOneLanguage) {
  std::string there;
  std::thread([&] { there = tr("Mon"); }).join();
  EXPECT_EQ(there, "Mo");
}

}  // namespace
}  // namespace sixty
