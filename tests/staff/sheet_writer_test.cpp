// Files come whole or not at all, and what could not be written is written later.
#include "gui/staff/sheet_writer.hpp"

#include <gmock/gmock.h>

#include "tests/cli/folder.hpp"
#include "tests/staff/full_disk.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;

class SheetFile : public cli::FolderTest {};

TEST_F(SheetFile, IsWrittenAndItsFolderMade) {
  SheetWriter writer;
  writer.write(path("a/b/c.txt"), "one\n");
  writer.settle();
  EXPECT_EQ(get("a/b/c.txt"), "one\n");
  EXPECT_EQ(writer.trouble(), "");
}

TEST_F(SheetFile, IsTheNewestText) {
  SheetWriter writer;
  for (int i = 0; i < 50; ++i) writer.write(path("c.txt"), std::to_string(i));
  writer.settle();
  EXPECT_EQ(get("c.txt"), "49");
  EXPECT_EQ(files(), 1u);
}

TEST_F(SheetFile, IsWrittenWhenItCanBeAgain) {
  SheetWriter writer;
  put("in_the_way", "a file, no folder");
  const std::string name = path("in_the_way/c.txt");
  writer.write(name, "kept");
  writer.write(path("other.txt"), "well");
  writer.settle();
  EXPECT_THAT(writer.trouble(name), HasSubstr("in_the_way"));
  EXPECT_EQ(writer.trouble(), writer.trouble(name));
  EXPECT_EQ(writer.trouble(path("other.txt")), "");
  EXPECT_EQ(get("other.txt"), "well");

  std::filesystem::remove(path("in_the_way"));
  writer.settle();
  EXPECT_FALSE(std::filesystem::exists(name)) << "nobody said that it should be tried again";
  writer.try_again();
  writer.settle();
  EXPECT_EQ(get("in_the_way/c.txt"), "kept");
  EXPECT_EQ(writer.trouble(), "");
}

TEST_F(SheetFile, IsWrittenBeforeTheWriterGoes) {
  {
    SheetWriter writer;
    for (int i = 0; i < 20; ++i) writer.write(path(std::to_string(i)), "x");
  }
  EXPECT_EQ(files(), 20u);
}

TEST_F(SheetFile, ThatFailedIsTriedOnceMoreBeforeTheWriterGoes) {
  put("in_the_way", "a file, no folder");
  {
    SheetWriter writer;
    writer.write(path("in_the_way/c.txt"), "kept");
    writer.settle();
    std::filesystem::remove(path("in_the_way"));
  }
  EXPECT_EQ(get("in_the_way/c.txt"), "kept");
}

TEST_F(SheetFile, LosesWhatAKilledProgramLeftBesideIt) {
  // No process has a number above 4194304, by proc(5), "pid_max".
  put(".c.txt.9999999-0.part", "half");
  put(".c.txt." + std::to_string(::getpid()) + "-7.part", "of one that runs");
  put(".other.txt.9999999-0.part", "half of another");
  put(".c.txt.part", "no number");
  SheetWriter writer;
  writer.write(path("c.txt"), "x");
  writer.settle();
  EXPECT_FALSE(std::filesystem::exists(path(".c.txt.9999999-0.part")));
  EXPECT_EQ(files(), 4u);
}

TEST_F(SheetFile, StaysAsItWasOnAFullDisk) {
  SheetWriter writer;
  writer.write(path("c.txt"), "old");
  writer.settle();
  {
    const FullDisk full(4);
    writer.write(path("c.txt"), "new and longer");
    writer.settle();
  }
  EXPECT_EQ(get("c.txt"), "old");
  EXPECT_EQ(files(), 1u) << "nothing is left lying about";
  EXPECT_THAT(writer.trouble(), HasSubstr("c.txt"));
  writer.try_again();
  writer.settle();
  EXPECT_EQ(get("c.txt"), "new and longer");
}

}  // namespace
}  // namespace sixty::gui
