// What staff change at the display comes back, and nothing that goes wrong costs more than itself.
#include "gui/staff/staff_book.hpp"

#include <gmock/gmock.h>

#include "gui/staff/sheet_writer.hpp"
#include "tests/cli/folder.hpp"
#include "tests/staff/full_disk.hpp"

namespace sixty::gui {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

class StaffFile : public cli::FolderTest {
 protected:
  StaffDesk desk() { return {path("state/staff.yaml"), writer_}; }
  void put_book(const std::string& text) const {
    std::filesystem::create_directories(path("state"));
    put("state/staff.yaml", text);
  }
  static StaffBook some_book() {
    StaffBook book;
    book.volume = 35;
    book.languages = {"fr", "en"};
    book.opening = OpenBy::kClosed;
    book.out_of_order = true;
    book.texts[{"title", "en"}] = "Time: \"ours\" # not yours\nsecond line";
    book.texts[{"title", "fr"}] = "L'heure à nous";
    book.texts[{"yes", "no"}] = "- 7";
    return book;
  }
  SheetWriter writer_;
};

TEST_F(StaffFile, ComesBackAsItWasWritten) {
  {
    StaffDesk first = desk();
    first.change(some_book());
    EXPECT_EQ(first.book(), some_book());
    writer_.settle();
    EXPECT_EQ(first.note(), "");
  }
  const StaffDesk again = desk();
  EXPECT_EQ(again.note(), "");
  EXPECT_EQ(again.book(), some_book());
}

TEST_F(StaffFile, ThatIsNotThereIsNoMistake) {
  const StaffDesk first = desk();
  EXPECT_EQ(first.book(), StaffBook());
  EXPECT_EQ(first.note(), "");
}

TEST_F(StaffFile, LosesWrongValuesAloneAndIsKeptAside) {
  const std::string damaged =
      "volume: 300\nopening: closed\nlanguages: [de]\ntexts:\n  title: {de: [1]}\n  end: {de: "
      "Ende}\n"
      "colour: red\n";
  put_book(damaged);
  StaffDesk first = desk();
  StaffBook expected;
  expected.opening = OpenBy::kClosed;
  expected.languages = {"de"};
  expected.texts[{"end", "de"}] = "Ende";
  EXPECT_EQ(first.book(), expected);
  EXPECT_THAT(first.note(), HasSubstr("staff.yaml:1:"));
  EXPECT_THAT(first.note(), HasSubstr("staff.yaml:5:"));
  EXPECT_THAT(first.note(), HasSubstr("staff.yaml:7:"));
  EXPECT_EQ(get("state/staff.yaml.damaged"), damaged);
  first.change(some_book());
  writer_.settle();
  EXPECT_EQ(desk().book(), some_book());
}

TEST_F(StaffFile, ThatIsNoYamlIsAsNone) {
  put_book("volume: [\n\0");
  const StaffDesk first = desk();
  EXPECT_EQ(first.book(), StaffBook());
  EXPECT_NE(first.note(), "");
  EXPECT_TRUE(std::filesystem::exists(path("state/staff.yaml.damaged")));
}

TEST_F(StaffFile, OnAFullDiskHoldsInMemoryWithANote) {
  StaffDesk first = desk();
  StaffBook book;
  book.volume = 10;
  first.change(book);
  writer_.settle();
  {
    const FullDisk full(8);
    first.change(some_book());
    writer_.settle();
    EXPECT_EQ(first.book(), some_book());
    EXPECT_THAT(first.note(), HasSubstr("until the program ends"));
    EXPECT_EQ(desk().book().volume, 10) << "what was there is whole";
  }
  writer_.try_again();
  writer_.settle();
  EXPECT_EQ(first.note(), "");
  EXPECT_EQ(desk().book(), some_book());
}

// Where nothing can be made, as on a file system that is only to be read.
TEST_F(StaffFile, WithoutItsFolderHoldsInMemoryWithANote) {
  put("state", "a file, no folder");
  StaffDesk first = desk();
  first.change(some_book());
  writer_.settle();
  EXPECT_EQ(first.book(), some_book());
  EXPECT_THAT(first.note(), HasSubstr("until the program ends"));
}

TEST_F(StaffFile, WithoutANameHoldsInMemoryWithANote) {
  StaffDesk first("", writer_);
  first.change(some_book());
  EXPECT_EQ(first.book(), some_book());
  EXPECT_THAT(first.note(), HasSubstr("until the program ends"));
}

TEST_F(StaffFile, HoldsNothingThatItCouldNotRead) {
  StaffBook wild;
  wild.volume = 1000;
  wild.languages = {"de", "", "de", "\xff", std::string(500, 'x')};
  wild.texts[{"a", "de"}] = "bell\a and \x1b[2J";
  wild.texts[{"b", "de"}] = "\xc3";
  wild.texts[{"c", "de"}] = "  ";
  wild.texts[{"d", "de"}] = std::string(StaffBook::kMostText - 1, 'x') + "\xc3\xa4";
  for (int i = 0; i < 2000; ++i)
    wild.texts[{"z" + std::to_string(i), "de"}] = std::string(5000, '"');
  StaffDesk first = desk();
  first.change(wild);
  writer_.settle();
  EXPECT_EQ(first.book().volume, 100);
  EXPECT_THAT(first.book().languages, ElementsAre("de", std::string(64, 'x')));
  EXPECT_THAT(first.book().texts, SizeIs(StaffBook::kMostTexts));
  EXPECT_EQ(first.book().texts.at({"a", "de"}), "bell  and  [2J");
  EXPECT_EQ(first.book().texts.at({"d", "de"}), std::string(StaffBook::kMostText - 1, 'x'));
  EXPECT_EQ(first.book().texts.count({"b", "de"}), 0u);
  const StaffDesk again = desk();
  EXPECT_EQ(again.note(), "");
  EXPECT_EQ(again.book(), first.book());
}

TEST_F(StaffFile, OfTheLargestBookCanBeRead) {
  StaffBook large;
  for (std::size_t i = 0; i < StaffBook::kMostTexts; ++i) {
    std::string words = "\"";
    while (words.size() < StaffBook::kMostText) words += "\n\"\\\"";
    large.texts[{std::string(60, 'p') + std::to_string(i), std::string(64, 'l')}] = words;
  }
  StaffDesk first = desk();
  first.change(large);
  writer_.settle();
  const StaffDesk again = desk();
  EXPECT_EQ(again.note(), "");
  EXPECT_EQ(again.book(), first.book());
  EXPECT_THAT(again.book().texts, SizeIs(StaffBook::kMostTexts));
}

TEST(StateFolder, IsTheFirstThatTheEnvironmentNames) {
  EXPECT_EQ(state_folder({"/var/lib/a", "/x", "/home/u"}), "/var/lib/a");
  EXPECT_EQ(state_folder({"/var/lib/a:/var/lib/b", "/x", "/home/u"}), "/var/lib/a");
  EXPECT_EQ(state_folder({"", "/x", "/home/u"}), "/x/sixtybeats");
  EXPECT_EQ(state_folder({"relative", "also/relative", "/home/u"}),
            "/home/u/.local/state/sixtybeats");
  EXPECT_EQ(state_folder({}), "");
}

TEST(StateFolder, HoldsLogAndHeartbeatUnlessSystemdSaysOtherwise) {
  const StateEnvironment by_hand{"", "/x", "", "relative", ""};
  EXPECT_EQ(log_folder(by_hand), "/x/sixtybeats/log");
  EXPECT_EQ(heartbeat_folder(by_hand), "/x/sixtybeats");
  const StateEnvironment by_systemd{"/var/lib/a", "/x", "", "/var/log/a:/b", "/run/a"};
  EXPECT_EQ(log_folder(by_systemd), "/var/log/a");
  EXPECT_EQ(heartbeat_folder(by_systemd), "/run/a");
  EXPECT_EQ(log_folder({}), "");
  EXPECT_EQ(heartbeat_folder({}), "");
}

}  // namespace
}  // namespace sixty::gui
