#include "sim/base/text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

namespace sixty {
namespace {

const std::vector<std::string> kKeys{"resistance", "inductance", "turns", "preload", "gap"};

TEST(NearestNameTest, FindsWhatWasMeant) {
  EXPECT_EQ(nearest_name("resistence", kKeys), "resistance");
  EXPECT_EQ(nearest_name("Resistance", kKeys), "resistance");
  EXPECT_EQ(nearest_name("trun", kKeys), "turns");
  EXPECT_EQ(nearest_name("pre_load", kKeys), "preload");
  EXPECT_EQ(nearest_name("gpa", kKeys), "gap");
  EXPECT_EQ(did_you_mean("indutance", kKeys), "did you mean \"inductance\"?");
}

TEST(NearestNameTest, ACaseIsNearerThanALetter) {
  EXPECT_EQ(nearest_name("Kohm", {"ohm", "Mohm", "kohm"}), "kohm");
}

TEST(NearestNameTest, TheFirstOfTwoEquallyNearIsTaken) {
  EXPECT_EQ(nearest_name("cot", {"cat", "cut"}), "cat");
  EXPECT_EQ(nearest_name("cot", {"cut", "cat"}), "cut");
}

TEST(NearestNameTest, NothingIsSuggestedForWhatIsFarOff) {
  EXPECT_FALSE(nearest_name("colour", kKeys));
  EXPECT_FALSE(nearest_name("", kKeys));
  EXPECT_FALSE(nearest_name("gap", {}));
  EXPECT_FALSE(nearest_name(std::string(1'000'000, 'a'), kKeys));
  EXPECT_EQ(did_you_mean("colour", kKeys), "");
}

RC_GTEST_PROP(NearestNameTest, OneWrongLetterInAKeyIsAlwaysForgiven, ()) {
  const std::string key = *rc::gen::elementOf(kKeys);
  std::string wrong = key;
  wrong[*rc::gen::inRange<std::size_t>(0, key.size())] = 'q';
  RC_ASSERT(nearest_name(wrong, kKeys) == key);
}

TEST(Utf8Test, WellFormedTextIsAccepted) {
  const std::string texts[] = {"",
                               "plain",
                               "\xC2\x80",
                               "\xDF\xBF",
                               "\xE0\xA0\x80",
                               "\xED\x9F\xBF",
                               "\xEE\x80\x80",
                               "\xEF\xBF\xBF",
                               "\xF0\x90\x80\x80",
                               "\xF4\x8F\xBF\xBF",
                               std::string("a\0b", 3)};
  for (const std::string& text : texts) EXPECT_EQ(find_invalid_utf8(text), std::string::npos);
}

TEST(Utf8Test, TheFirstBadByteIsFound) {
  const std::string bad[] = {"\x80",              // continuation without lead
                             "\xBF",              //
                             "\xC0\x80",          // overlong
                             "\xC1\xBF",          //
                             "\xE0\x9F\xBF",      //
                             "\xF0\x8F\xBF\xBF",  //
                             "\xED\xA0\x80",      // surrogate
                             "\xF4\x90\x80\x80",  // above U+10FFFF
                             "\xF5\x80\x80\x80",  //
                             "\xFE",              //
                             "\xFF",              //
                             "\xC2",              // cut short
                             "\xE2\x82",          //
                             "\xF0\x9F\x98",      //
                             "\xE2\x28\xA1",      // lead without continuation
                             "\xF0\x9F\x28\x80"};
  for (const std::string& text : bad) {
    EXPECT_EQ(find_invalid_utf8(text), 0U) << printable(text);
    EXPECT_EQ(find_invalid_utf8("ab\xC3\xA9" + text), 4U) << printable(text);
    EXPECT_EQ(find_invalid_utf8(text + "ab"), 0U) << printable(text);
  }
}

TEST(PrintableTest, ControlsAndBrokenBytesAreEscaped) {
  EXPECT_EQ(printable("plain \xC3\xA9"), "plain \xC3\xA9");
  EXPECT_EQ(printable("a\nb\tc\r"), "a\\nb\\tc\\x0d");
  EXPECT_EQ(printable("\x1b[2J"), "\\x1b[2J");
  EXPECT_EQ(printable("\xFF\x7F"), "\\xff\\x7f");
  EXPECT_EQ(printable("\xC2\x9B"), "\\xc2\\x9b");  // a control of the second set
  EXPECT_EQ(printable(std::string("\0", 1)), "\\x00");
}

TEST(PrintableTest, LongTextIsCutBetweenCharacters) {
  EXPECT_EQ(printable("abcdef", 6), "abcdef");
  EXPECT_EQ(printable("abcdefg", 6), "abcdef...");
  EXPECT_EQ(printable("abcde\xC3\xA9", 6), "abcde...");
}

RC_GTEST_PROP(PrintableTest, WhatIsShownIsAlwaysWellFormedAndWithoutControls, ()) {
  const auto bytes = *rc::gen::container<std::string>(rc::gen::arbitrary<char>());
  const std::string shown = printable(bytes);
  RC_ASSERT(find_invalid_utf8(shown) == std::string::npos);
  for (const char c : shown) RC_ASSERT((static_cast<unsigned char>(c) >= 0x20 && c != 0x7F));
}

TEST(CountedTest, OneIsNoPlural) {
  EXPECT_EQ(counted(0, "ring"), "0 rings");
  EXPECT_EQ(counted(1, "ring"), "1 ring");
  EXPECT_EQ(counted(12, "full stroke"), "12 full strokes");
  EXPECT_EQ(happened("rang", 0), "never rang");
  EXPECT_EQ(happened("rang", 1), "rang once");
  EXPECT_EQ(happened("rang", 2), "rang 2 times");
}

}  // namespace
}  // namespace sixty
