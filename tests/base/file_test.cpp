#include "sim/base/file.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace sixty {
namespace {

namespace fs = std::filesystem;

// A folder of its own for each test, so that tests may run at the same time.
class FileTest : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = ::testing::TempDir() + "sixty-file-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string path(const std::string& name) const { return folder_ + "/" + name; }
  void put(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
  }
  std::string get(const std::string& name) const {
    std::ifstream in(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  std::size_t files() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), {}));
  }
  std::string refusal(const std::string& name, std::size_t limit = 100) const {
    Diagnostics diagnostics;
    EXPECT_FALSE(read_file_bounded(path(name), limit, diagnostics));
    EXPECT_EQ(diagnostics.list().size(), 1U);
    return diagnostics.to_text();
  }

  std::string folder_;
};

TEST_F(FileTest, BytesAreReadAsTheyStand) {
  const std::string bytes("a\0b\r\n\xFF", 6);
  put("f", bytes);
  Diagnostics diagnostics;
  EXPECT_EQ(read_file_bounded(path("f"), 6, diagnostics), bytes);
  put("empty", "");
  EXPECT_EQ(read_file_bounded(path("empty"), 0, diagnostics), "");
  put("large", std::string(100'000, 'x'));
  EXPECT_EQ(read_file_bounded(path("large"), 100'000, diagnostics)->size(), 100'000U);
  EXPECT_TRUE(diagnostics.empty());
}

TEST_F(FileTest, OneByteTooManyIsRefused) {
  put("f", std::string(101, 'x'));
  EXPECT_NE(refusal("f").find("too large"), std::string::npos);
}

TEST_F(FileTest, AMissingFileIsRefused) {
  EXPECT_NE(refusal("missing").find("cannot be read"), std::string::npos);
  EXPECT_NE(refusal("").find("a folder"), std::string::npos);
}

TEST_F(FileTest, AFolderIsRefused) {
  fs::create_directory(path("folder"));
  EXPECT_NE(refusal("folder").find("a folder"), std::string::npos);
}

TEST_F(FileTest, APipeIsRefusedWithoutWaiting) {
  ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
  EXPECT_NE(refusal("pipe").find("a pipe"), std::string::npos);
}

TEST_F(FileTest, ADeviceIsRefused) {
  Diagnostics diagnostics;
  EXPECT_FALSE(read_file_bounded("/dev/zero", 100, diagnostics));
  EXPECT_NE(diagnostics.to_text().find("a device"), std::string::npos);
}

TEST_F(FileTest, ANameWithAZeroByteIsRefused) {
  put("f", "x");
  EXPECT_NE(refusal(std::string("f\0.yaml", 7)).find("zero byte"), std::string::npos);
}

TEST_F(FileTest, AWholeFileIsWritten) {
  std::string error;
  EXPECT_TRUE(write_file_whole(path("f"), "bytes", error)) << error;
  EXPECT_EQ(get("f"), "bytes");
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileTest, AnOlderFileIsReplacedAndKeepsItsPermissions) {
  put("f", "older and longer");
  ASSERT_EQ(::chmod(path("f").c_str(), 0640), 0);
  std::string error;
  EXPECT_TRUE(write_file_whole(path("f"), "new", error)) << error;
  EXPECT_EQ(get("f"), "new");
  struct stat facts {};
  ASSERT_EQ(::stat(path("f").c_str(), &facts), 0);
  EXPECT_EQ(facts.st_mode & 0777, 0640U);
}

TEST_F(FileTest, NothingAppearsBeforeTheCommit) {
  put("f", "older");
  {
    WholeFile file;
    std::string error;
    ASSERT_TRUE(file.open(path("f"), error)) << error;
    EXPECT_TRUE(file.write(std::string(1'000'000, 'x')));
    EXPECT_EQ(get("f"), "older");
    EXPECT_EQ(files(), 2U);
  }
  EXPECT_EQ(get("f"), "older");
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileTest, ManySmallPiecesArriveInOrder) {
  WholeFile file;
  std::string error;
  ASSERT_TRUE(file.open(path("f"), error)) << error;
  std::string expected;
  for (int i = 0; i < 50'000; ++i) {
    const std::string piece = std::to_string(i) + "\n";
    ASSERT_TRUE(file.write(piece));
    expected += piece;
  }
  EXPECT_TRUE(file.commit(error)) << error;
  EXPECT_EQ(get("f"), expected);
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileTest, ALinkIsFollowedAndStaysALink) {
  put("f", "older");
  fs::create_symlink(path("f"), path("link"));
  std::string error;
  EXPECT_TRUE(write_file_whole(path("link"), "new", error)) << error;
  EXPECT_TRUE(fs::is_symlink(path("link")));
  EXPECT_EQ(get("f"), "new");
}

// A link may be laid before the first file that it is to lead to.
TEST_F(FileTest, ALinkToAFileThatIsNotThereYetStaysALink) {
  fs::create_directory(path("folder"));
  fs::create_symlink("folder/second", path("first"));
  fs::create_symlink(path("f"), path("folder/second"));
  std::string error;
  EXPECT_TRUE(write_file_whole(path("first"), "new", error)) << error;
  EXPECT_TRUE(fs::is_symlink(path("first")));
  EXPECT_TRUE(fs::is_symlink(path("folder/second")));
  EXPECT_EQ(get("f"), "new");
}

TEST_F(FileTest, LinksThatLeadRoundInACircleAreRefusedAndStay) {
  fs::create_symlink("b", path("a"));
  fs::create_symlink("a", path("b"));
  std::string error;
  EXPECT_FALSE(write_file_whole(path("a"), "x", error));
  EXPECT_NE(error.find(path("a")), std::string::npos) << error;
  EXPECT_TRUE(fs::is_symlink(path("a")));
}

TEST_F(FileTest, WhatCannotBeWrittenIsRefusedAndLeavesNothing) {
  std::string error;
  EXPECT_FALSE(write_file_whole(path("missing/f"), "x", error));
  EXPECT_NE(error.find("No such file"), std::string::npos) << error;
  fs::create_directory(path("folder"));
  EXPECT_FALSE(write_file_whole(path("folder"), "x", error));
  EXPECT_NE(error.find("a folder"), std::string::npos) << error;
  EXPECT_FALSE(write_file_whole("", "x", error));
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileTest, ADeviceIsNeverReplaced) {
  std::string error;
  EXPECT_FALSE(write_file_whole("/dev/null", "x", error));
  EXPECT_NE(error.find("a device"), std::string::npos) << error;
}

// A limit on the size of files stands in for a full disk.
TEST_F(FileTest, AFullDiskLeavesTheOlderFile) {
  put("f", "older");
  struct rlimit before {};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const struct rlimit small { 10'000, before.rlim_max };
  const auto handler = ::signal(SIGXFSZ, SIG_IGN);
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
  std::string error;
  const bool written = write_file_whole(path("f"), std::string(1'000'000, 'x'), error);
  ::setrlimit(RLIMIT_FSIZE, &before);
  ::signal(SIGXFSZ, handler);
  EXPECT_FALSE(written);
  EXPECT_NE(error.find("cannot write"), std::string::npos) << error;
  EXPECT_EQ(get("f"), "older");
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileTest, ACommitWithoutAnOpenFileIsRefused) {
  WholeFile file;
  std::string error;
  EXPECT_FALSE(file.write("x"));
  EXPECT_FALSE(file.commit(error));
  EXPECT_FALSE(error.empty());
}

}  // namespace
}  // namespace sixty
