#include "sim/base/diagnostic.hpp"

#include <gtest/gtest.h>

namespace sixty {
namespace {

TEST(DiagnosticTest, PlaceMistakeAndMendAreOneBlock) {
  EXPECT_EQ(to_text({"a.yaml", 3, 7, "no unit", "24", "volts", "write \"24 V\""}),
            "a.yaml:3:7: no unit\n  found:    24\n  expected: volts\n  mend:     write \"24 V\"");
}

TEST(DiagnosticTest, WhatIsInNoFileStandsOnTheCommandLine) {
  EXPECT_EQ(to_text({"", 0, 0, "no unit", "", "", ""}), "command line: no unit");
}

TEST(DiagnosticTest, MistakesAreSortedByPlace) {
  Diagnostics all;
  EXPECT_TRUE(all.empty());
  all.add({"b", 1, 1, "fourth", "", "", ""});
  all.add({"a", 10, 1, "third", "", "", ""});
  all.add({"a", 9, 2, "second", "", "", ""});
  all.add({"a", 9, 1, "first", "", "", ""});
  EXPECT_EQ(all.to_text(), "a:9:1: first\na:9:2: second\na:10:1: third\nb:1:1: fourth\n");
  EXPECT_EQ(all.list().size(), 4U);
}

TEST(DiagnosticTest, NothingInAMessageSteersTheTerminal) {
  EXPECT_EQ(to_text({"\x1b[2J", 1, 1, "\x07", "a\nb", "", "\xFF"}),
            "\\x1b[2J:1:1: \\x07\n  found:    a\\nb\n  mend:     \\xff");
}

}  // namespace
}  // namespace sixty
