// Two changes of one text, put together.
#include "gui/keep/line_merge.hpp"

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

namespace sixty::gui {
namespace {

Merged merge(const std::string& base, const std::string& ours, const std::string& theirs) {
  return merge_lines(base, ours, theirs).value();
}

TEST(LineMerge, BothChangesAreMade) {
  const Merged m = merge("a\nb\nc\nd\ne\n", "# mine\na\nb\nc\nd\ne\nf\n", "a\nb\nC\nc2\ne\n");
  EXPECT_EQ(m.text, "# mine\na\nb\nC\nc2\ne\nf\n");
  EXPECT_EQ(m.conflict_line, 0);
}

TEST(LineMerge, TheSameChangeTwiceIsMadeOnce) {
  EXPECT_EQ(merge("a\nb\nc\n", "a\nx\nc\n", "a\nx\nc\n").text, "a\nx\nc\n");
}

TEST(LineMerge, WhatIsWrittenBesideAChangeStays) {
  EXPECT_EQ(merge("a\nb\nc\n", "a\n# mine\nb\nc\n", "a\ny\nc\n").text, "a\n# mine\ny\nc\n");
  EXPECT_EQ(merge("a\nb\nc\n", "a\nb\nmine\nc\n", "a\ny\nz\nc\n").text, "a\ny\nz\nmine\nc\n");
  EXPECT_EQ(merge("a\nb: 1\nc\n", "a\nb: 1  # so\nc\n", "a\nb: 2\nc\n").text, "a\nb: 2  # so\nc\n");
}

TEST(LineMerge, WhereBothChangedALineItIsTold) {
  EXPECT_EQ(merge("a\nb\nc\n", "a\nx\nc\n", "a\ny\nc\n").conflict_line, 2);
  EXPECT_EQ(merge("a\nb\nc\n", "a\nc\n", "a\ny\nc\n").conflict_line, 2);
}

std::string any_text() {
  std::string text;
  for (const int k : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 4)))
    text += std::string(1, static_cast<char>('a' + k)) + "\n";
  return text;
}

RC_GTEST_PROP(LineMerge, WhatOneLeftIsAsTheOtherMadeIt, ()) {
  const std::string base = any_text(), other = any_text();
  RC_ASSERT(merge(base, base, other).text == other);
  RC_ASSERT(merge(base, other, base).text == other);
  RC_ASSERT(merge(base, other, other).text == other);
}

}  // namespace
}  // namespace sixty::gui
