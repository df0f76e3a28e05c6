// What the bench keeps of its own: it comes back, and nothing that goes wrong costs more than
// itself.
#include "gui/keep/settings.hpp"

#include <gmock/gmock.h>

#include <cstdlib>

#include "gui/keep/paths.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::gui {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// A variable of the environment that is as before when it goes.
class Variable {
 public:
  Variable(const char* name, const std::string& value) : name_(name) {
    if (const char* before = std::getenv(name)) before_ = before;
    ::setenv(name, value.c_str(), 1);
  }
  ~Variable() { ::setenv(name_, before_.c_str(), 1); }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;

 private:
  const char* name_;
  std::string before_;
};

class SettingsFile : public cli::FolderTest {
 protected:
  Settings read() {
    mistakes_ = {};
    return read_settings(path("settings.yaml"), mistakes_);
  }
  bool write(const Settings& settings) {
    error_.clear();
    return write_settings(path("settings.yaml"), settings, error_);
  }
  static Settings others() {
    Settings s;
    s.theme = "light";
    s.scale = 1.25;
    s.card_share = 0.31;
    s.strip_share = 0.2;
    s.greets = false;
    s.width = 1600;
    s.height = 1000;
    s.recent = {"/a/one \"two\".yaml", "/b/three: four#.yaml"};
    return s;
  }
  Diagnostics mistakes_;
  std::string error_;
};

TEST_F(SettingsFile, ComesBackAsItWasWritten) {
  ASSERT_TRUE(write(others())) << error_;
  EXPECT_EQ(read(), others());
  EXPECT_TRUE(mistakes_.empty()) << mistakes_.to_text();
}

TEST_F(SettingsFile, ThatIsNotThereIsNoMistake) {
  EXPECT_EQ(read(), Settings{});
  EXPECT_TRUE(mistakes_.empty());
}

TEST_F(SettingsFile, LosesOneWrongValueAlone) {
  put("settings.yaml", "theme: light\nscale: 99\nwidth: 1600\n");
  Settings expected;
  expected.theme = "light";
  expected.width = 1600;
  EXPECT_EQ(read(), expected);
  ASSERT_EQ(mistakes_.list().size(), 1u);
  EXPECT_EQ(mistakes_.list()[0].line, 2);
  EXPECT_THAT(mistakes_.to_text(), HasSubstr("from 0.75 to 4"));
}

TEST_F(SettingsFile, ThatIsDamagedIsKeptBesideTheNewOne) {
  const std::string damaged = "theme: [light\n\x01";
  put("settings.yaml", damaged);
  EXPECT_EQ(read(), Settings{});
  EXPECT_FALSE(mistakes_.empty());
  ASSERT_TRUE(write(others())) << error_;
  EXPECT_EQ(read(), others());
  EXPECT_EQ(get("settings.yaml.damaged"), damaged);
}

TEST_F(SettingsFile, ASoundOneIsNotSetAside) {
  ASSERT_TRUE(write(others()));
  ASSERT_TRUE(write(Settings{}));
  EXPECT_EQ(files(), 1u);
}

TEST_F(SettingsFile, WhereNoFolderCanBeMadeItIsSaid) {
  put("home", "a file, no folder");
  EXPECT_FALSE(write_settings(path("home/sixtybeats/settings.yaml"), others(), error_));
  EXPECT_THAT(error_, HasSubstr("cannot be made"));
  EXPECT_EQ(get("home"), "a file, no folder");
}

TEST_F(SettingsFile, OnAFullDiskTheOldOneStays) {
  std::string error;
  EXPECT_FALSE(write_settings("/dev/full", others(), error));
  EXPECT_FALSE(error.empty());
}

TEST_F(SettingsFile, LiesWhereTheEnvironmentSays) {
  const Variable home("HOME", "/home/somebody");
  {
    const Variable base("XDG_CONFIG_HOME", "/etc/own");
    EXPECT_EQ(settings_file(), "/etc/own/sixtybeats/settings.yaml");
  }
  const Variable base("XDG_CONFIG_HOME", "not/whole");
  EXPECT_EQ(settings_file(), "/home/somebody/.config/sixtybeats/settings.yaml");
  const Variable no_home("HOME", "");
  EXPECT_EQ(settings_file(), "");
  EXPECT_FALSE(write_settings("", others(), error_));
  EXPECT_THAT(error_, HasSubstr("HOME"));
}

TEST(RecentFiles, TheLastOneOpenedIsFirstAndThereOnce) {
  Settings s;
  for (const char* file : {"/a.yaml", "/b.yaml", "/c/../a.yaml"}) remember(file, s);
  EXPECT_THAT(s.recent, ElementsAre("/a.yaml", "/b.yaml"));
  remember("/\xff.yaml", s);
  EXPECT_EQ(s.recent.size(), 2u);
  for (int k = 0; k < 40; ++k) remember("/" + std::to_string(k), s);
  EXPECT_EQ(s.recent.size(), kMostRecent);
  EXPECT_EQ(s.recent.front(), "/39");
}

class Paths : public cli::FolderTest {};

TEST_F(Paths, GoOnAsFoldersAndYamlFiles) {
  put("school.yaml", "");
  put("school.txt", "");
  put("schooner.yml", "");
  put(".hidden.yaml", "");
  std::filesystem::create_directory(path("schools"));
  const auto found = completions(path("sch"));
  EXPECT_THAT(found, ElementsAre(path("school.yaml"), path("schools/"), path("schooner.yml")));
  EXPECT_EQ(completed(path("sch"), found), path("schoo"));
  EXPECT_THAT(completions(path("")), testing::SizeIs(3));
  EXPECT_THAT(completions(path(".h")), ElementsAre(path(".hidden.yaml")));
  EXPECT_THAT(completions(path("no/such/folder/")), IsEmpty());
  EXPECT_EQ(completed("x", {}), "x");
}

TEST_F(Paths, KnowTheHomeFolder) {
  put("a.yaml", "");
  const Variable home("HOME", folder());
  EXPECT_THAT(completions("~/"), ElementsAre("~/a.yaml"));
  EXPECT_EQ(with_home("~/a.yaml"), path("a.yaml"));
}

}  // namespace
}  // namespace sixty::gui
