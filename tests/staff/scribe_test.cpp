// Files come whole or not at all, and what could not be written is written later.
#include "gui/staff/scribe.hpp"

#include <gmock/gmock.h>

#include "tests/cli/folder.hpp"
#include "tests/staff/full_disk.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;

class ScribeFile : public cli::FolderTest {};

TEST_F(ScribeFile, IsWrittenAndItsFolderMade) {
  Scribe scribe;
  scribe.write(path("a/b/c.txt"), "one\n");
  scribe.settle();
  EXPECT_EQ(get("a/b/c.txt"), "one\n");
  EXPECT_EQ(scribe.trouble(), "");
}

TEST_F(ScribeFile, IsTheNewestText) {
  Scribe scribe;
  for (int i = 0; i < 50; ++i) scribe.write(path("c.txt"), std::to_string(i));
  scribe.settle();
  EXPECT_EQ(get("c.txt"), "49");
  EXPECT_EQ(files(), 1u);
}

TEST_F(ScribeFile, IsWrittenWhenItCanBeAgain) {
  Scribe scribe;
  put("in_the_way", "a file, no folder");
  const std::string name = path("in_the_way/c.txt");
  scribe.write(name, "kept");
  scribe.write(path("other.txt"), "well");
  scribe.settle();
  EXPECT_THAT(scribe.trouble(name), HasSubstr("in_the_way"));
  EXPECT_EQ(scribe.trouble(), scribe.trouble(name));
  EXPECT_EQ(scribe.trouble(path("other.txt")), "");
  EXPECT_EQ(get("other.txt"), "well");

  std::filesystem::remove(path("in_the_way"));
  scribe.settle();
  EXPECT_FALSE(std::filesystem::exists(name)) << "nobody said that it should be tried again";
  scribe.try_again();
  scribe.settle();
  EXPECT_EQ(get("in_the_way/c.txt"), "kept");
  EXPECT_EQ(scribe.trouble(), "");
}

TEST_F(ScribeFile, IsWrittenBeforeTheScribeGoes) {
  {
    Scribe scribe;
    for (int i = 0; i < 20; ++i) scribe.write(path(std::to_string(i)), "x");
  }
  EXPECT_EQ(files(), 20u);
}

TEST_F(ScribeFile, ThatFailedIsTriedOnceMoreBeforeTheScribeGoes) {
  put("in_the_way", "a file, no folder");
  {
    Scribe scribe;
    scribe.write(path("in_the_way/c.txt"), "kept");
    scribe.settle();
    std::filesystem::remove(path("in_the_way"));
  }
  EXPECT_EQ(get("in_the_way/c.txt"), "kept");
}

TEST_F(ScribeFile, LosesWhatAKilledProgramLeftBesideIt) {
  // No process has a number above 4194304, by proc(5), "pid_max".
  put(".c.txt.9999999-0.part", "half");
  put(".c.txt." + std::to_string(::getpid()) + "-7.part", "of one that runs");
  put(".other.txt.9999999-0.part", "half of another");
  put(".c.txt.part", "no number");
  Scribe scribe;
  scribe.write(path("c.txt"), "x");
  scribe.settle();
  EXPECT_FALSE(std::filesystem::exists(path(".c.txt.9999999-0.part")));
  EXPECT_EQ(files(), 4u);
}

TEST_F(ScribeFile, StaysAsItWasOnAFullDisk) {
  Scribe scribe;
  scribe.write(path("c.txt"), "old");
  scribe.settle();
  {
    const FullDisk full(4);
    scribe.write(path("c.txt"), "new and longer");
    scribe.settle();
  }
  EXPECT_EQ(get("c.txt"), "old");
  EXPECT_EQ(files(), 1u) << "nothing is left lying about";
  EXPECT_THAT(scribe.trouble(), HasSubstr("c.txt"));
  scribe.try_again();
  scribe.settle();
  EXPECT_EQ(get("c.txt"), "new and longer");
}

}  // namespace
}  // namespace sixty::gui
