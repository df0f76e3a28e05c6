// How often what was done on a day: kept by the minute, whatever becomes of the file.
#include "gui/staff/counts.hpp"

#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "gui/staff/sheet_writer.hpp"
#include "tests/cli/folder.hpp"
#include "tests/staff/full_disk.hpp"

namespace sixty::gui {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::int64_t kDay = 20'787;  // 2026-11-30, by date -u -d "1970-01-01 + 20787 days"
constexpr std::int64_t kNow = 1'796'096'806;
constexpr const char* kNovember = "counts-2026-11.csv";
constexpr const char* kDecember = "counts-2026-12.csv";

class CountFile : public cli::FolderTest {
 protected:
  Counts counts() { return {folder(), writer_}; }
  void keep(Counts& some) {
    some.keep();
    writer_.settle();
  }
  SheetWriter writer_;
};

TEST_F(CountFile, HasALineForEachDayLanguageAndAction) {
  Counts some = counts();
  some.count(kDay, "en", "ring");
  some.count(kDay, "de", "ring");
  some.count(kDay, "de", "ring");
  some.count(kDay - 1, "de", "visit");
  keep(some);
  EXPECT_EQ(get(kNovember),
            "date,language,action,count\n2026-11-29,de,visit,1\n2026-11-30,de,ring,2\n"
            "2026-11-30,en,ring,1\n");
  EXPECT_EQ(some.total(kDay, "ring"), 3);
  EXPECT_EQ(some.total(kDay, "visit"), 0);
  EXPECT_THAT(some.rows(kDay),
              ElementsAre(CountRow{kDay, "de", "ring", 2}, CountRow{kDay, "en", "ring", 1}));
}

TEST_F(CountFile, GoesOnAfterARestart) {
  {
    Counts some = counts();
    some.count(kDay, "de", "ring");
    some.count_stay(kDay, "de", 50);
    keep(some);
  }
  Counts some = counts();
  EXPECT_EQ(some.total(kDay, "ring"), 1);
  EXPECT_TRUE(some.median_stay(kDay).has_value());
  some.count(kDay, "de", "ring");
  keep(some);
  EXPECT_EQ(get(kNovember),
            "date,language,action,count\n2026-11-30,de,ring,2\n2026-11-30,de,stay_45s,1\n");
  EXPECT_EQ(some.note(), "");
}

TEST_F(CountFile, IsAnotherWhenAMonthBegins) {
  Counts some = counts();
  some.count(kDay, "de", "ring");
  some.count(kDay + 1, "de", "ring");
  some.count(kDay, "de", "ring");
  keep(some);
  EXPECT_EQ(get(kNovember), "date,language,action,count\n2026-11-30,de,ring,2\n");
  EXPECT_EQ(get(kDecember), "date,language,action,count\n2026-12-01,de,ring,1\n");
}

TEST_F(CountFile, IsWrittenWithinAMinuteAndNotAtEachTouch) {
  Counts some = counts();
  some.look(kNow);
  some.count(kDay, "de", "ring");
  std::int64_t at = kNow;
  for (; at < kNow + 120 && files() == 0; ++at) {
    some.look(at);
    writer_.settle();
  }
  EXPECT_GT(at, kNow + 40);
  EXPECT_LE(at, kNow + 60);
  std::filesystem::remove(path(kNovember));
  for (; at < kNow + 500; ++at) some.look(at);
  writer_.settle();
  EXPECT_EQ(files(), 0u) << "nothing was counted, nothing is written";
}

TEST_F(CountFile, IsWrittenThoughTheClockIsSetBack) {
  Counts some = counts();
  some.look(kNow);
  some.count(kDay, "de", "ring");
  some.look(kNow - 86'400);
  writer_.settle();
  EXPECT_EQ(files(), 1u);
}

TEST_F(CountFile, ThatIsDamagedIsKeptAsideAndWhatCanBeReadGoesOn) {
  const std::string damaged = "date,language,action,count\n2026-11-30,de,ring,7\n2026-11-30,de,vis";
  put(kNovember, damaged);
  Counts some = counts();
  some.count(kDay, "de", "ring");
  EXPECT_EQ(some.total(kDay, "ring"), 8);
  EXPECT_THAT(some.note(), HasSubstr("line 3"));
  keep(some);
  EXPECT_EQ(get(std::string(kNovember) + ".damaged"), damaged);
  EXPECT_EQ(get(kNovember), "date,language,action,count\n2026-11-30,de,ring,8\n");
}

TEST_F(CountFile, IsDamagedInManyWays) {
  for (const char* line :
       {"2026-11-30,de,ring,-7", "2026-11-30,de,ring,0", "2026-11-30,de,ring", "2026-11-31,de,a,1",
        "2026-12-01,de,a,1", "2026-11-30,de,ring,1,1", "2026-11-30,DE,a,1", "2026-11-30,de,,1",
        "2026-11-30,de,ring,99999999999999999999", ";;;", "2026-11-30,de,a,1x"}) {
    put(kNovember, std::string("date,language,action,count\n") + line + "\n");
    Counts some = counts();
    EXPECT_THAT(some.rows(kDay), ElementsAre()) << line;
    EXPECT_THAT(some.note(), HasSubstr("line 2")) << line;
  }
  for (const char* text : {"", "\0\0\0", "2026-11-30,de,ring,1\n"}) {
    put(kNovember, text);
    Counts some = counts();
    some.rows(kDay);
    EXPECT_THAT(some.note(), HasSubstr("line 1")) << text;
  }
}

TEST_F(CountFile, ThatIsAFolderIsNoEnd) {
  std::filesystem::create_directory(path(kNovember));
  Counts some = counts();
  some.count(kDay, "de", "ring");
  EXPECT_NE(some.note(), "");
  keep(some);
  EXPECT_EQ(some.total(kDay, "ring"), 1);
}

TEST_F(CountFile, IsWrittenWhenTheDiskHasRoomAgain) {
  Counts some = counts();
  {
    const FullDisk full(8);
    some.count(kDay, "de", "ring");
    keep(some);
    EXPECT_NE(writer_.trouble(), "");
  }
  EXPECT_EQ(files(), 0u);
  some.count(kDay, "de", "ring");
  keep(some);
  EXPECT_EQ(get(kNovember), "date,language,action,count\n2026-11-30,de,ring,2\n");
  EXPECT_EQ(writer_.trouble(), "");
}

TEST_F(CountFile, HoldsNothingThatSomebodyMayHaveTyped) {
  Counts some = counts();
  some.count(kDay, "de,en", "Ring");
  some.count(kDay, "", "a\nb");
  some.count(kDay, "de", std::string(41, 'a'));
  some.count(-5, "de", "ring");
  keep(some);
  EXPECT_EQ(get(kNovember),
            "date,language,action,count\n2026-11-30,de,other,1\n2026-11-30,other,other,2\n");
  EXPECT_EQ(get("counts-1970-01.csv"), "date,language,action,count\n1970-01-01,de,ring,1\n");
}

TEST_F(CountFile, HasABoundForItsLines) {
  Counts some = counts();
  for (std::size_t i = 0; i < Counts::kMostRows + 500; ++i)
    some.count(kDay, "de", "a" + std::to_string(i));
  EXPECT_EQ(some.rows(kDay).size(), Counts::kMostRows);
  keep(some);
  EXPECT_EQ(counts().rows(kDay).size(), Counts::kMostRows);
}

TEST(CountsNowhere, AreKeptInMemory) {
  SheetWriter writer;
  Counts some("", writer);
  some.count(kDay, "de", "ring");
  some.keep();
  writer.settle();
  EXPECT_EQ(writer.trouble(), "");
  EXPECT_EQ(some.total(kDay, "ring"), 1);
}

TEST_F(CountFile, TellsTheMedianStayOfADay) {
  Counts some = counts();
  EXPECT_EQ(some.median_stay(kDay), std::nullopt);
  for (const std::int64_t stay : {3, 62, 80, 85, 5000}) some.count_stay(kDay, "de", stay);
  // Half of five is 2.5: 1.5 of the three between 60 and 90 s.
  EXPECT_EQ(some.median_stay(kDay), 75);
  EXPECT_EQ(some.median_stay(kDay + 1), std::nullopt);
  some.count_stay(kDay + 1, "en", -4);
  EXPECT_EQ(some.median_stay(kDay + 1), 3) << "the middle of 0 to 5 s";
  some.count_stay(kDay + 2, "en", 1'000'000);
  EXPECT_EQ(some.median_stay(kDay + 2), 2700) << "the middle of 1800 to 3600 s";
}

// What is there after a kill is whole, and no older than a minute.
TEST_F(CountFile, OutlivesAKillAtAnyMoment) {
  for (int round = 0; round < 20; ++round) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      SheetWriter writer;
      Counts some(folder(), writer);
      while (true) {
        for (int i = 0; i < 100; ++i) some.count(kDay, "de", "a" + std::to_string(i));
        some.keep();
      }
    }
    // Slow machines write their first file late.
    for (int i = 0; i < 3000 && !std::filesystem::exists(path(kNovember)); ++i) ::usleep(10'000);
    ::usleep(static_cast<useconds_t>(3000 + 1700 * round));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    Counts some = counts();
    const std::vector<CountRow> rows = some.rows(kDay);
    EXPECT_EQ(some.note(), "");
    for (const CountRow& row : rows) EXPECT_EQ(row.count, rows[0].count);
  }
  Counts some = counts();
  some.count(kDay, "de", "a0");
  EXPECT_GT(some.total(kDay, "a0"), 1);
  keep(some);
  EXPECT_EQ(files(), 1u) << "nothing that was killed half-way lies about";
}

}  // namespace
}  // namespace sixty::gui
