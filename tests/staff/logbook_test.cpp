// The log goes on whatever becomes of its file, and keeps to its size.
#include "gui/staff/logbook.hpp"

#include <gmock/gmock.h>
#include <sys/stat.h>

#include "gui/staff/sheet_writer.hpp"
#include "gui/staff/utc.hpp"
#include "tests/cli/folder.hpp"
#include "tests/staff/full_disk.hpp"

namespace sixty::gui {
namespace {

using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::int64_t kNow = 1'796'096'806;  // 2026-12-01T03:46:46Z, by date -u -d @1796096806

class LogFile : public cli::FolderTest {
 protected:
  LogPlan plan(const std::string& name = "log/exhibit.log") const { return {path(name)}; }
};

TEST(Utc, IsToldByTheSecond) {
  EXPECT_EQ(utc_text(kNow), "2026-12-01T03:46:46Z");
  EXPECT_EQ(utc_text(-1), "1969-12-31T23:59:59Z");
  EXPECT_EQ(date_text(0), "1970-01-01");
  EXPECT_EQ(date_text(20'788), "2026-12-01");
  EXPECT_EQ(date_text(std::numeric_limits<std::int64_t>::max()), "9999-12-31");
}

TEST_F(LogFile, HasEachLineWithItsTimeAtOnce) {
  Logbook log(plan());
  log.note(LogLevel::kInfo, "opens", kNow);
  log.note(LogLevel::kWarning, "two\nlines\x1b[2J", kNow + 1);
  log.note(LogLevel::kError, "stops", kNow + 2);
  EXPECT_EQ(get("log/exhibit.log"),
            "2026-12-01T03:46:46Z info opens\n"
            "2026-12-01T03:46:47Z warning two\\nlines\\x1b[2J\n"
            "2026-12-01T03:46:48Z error stops\n");
  EXPECT_EQ(log.trouble(), "");
  EXPECT_EQ(log.lost(), 0);
  ASSERT_EQ(log.recent().size(), 3u);
  EXPECT_EQ(log.recent().back(), "2026-12-01T03:46:48Z error stops");
}

TEST_F(LogFile, GoesOnBehindWhatIsThere) {
  { Logbook(plan()).note(LogLevel::kInfo, "first", kNow); }
  { Logbook(plan()).note(LogLevel::kInfo, "second", kNow + 9); }
  EXPECT_EQ(get("log/exhibit.log"),
            "2026-12-01T03:46:46Z info first\n2026-12-01T03:46:55Z info second\n");
}

TEST_F(LogFile, IsPutAsideWhenFullAndTheOldestGoes) {
  LogPlan small = plan("exhibit.log");
  small.most_bytes = 1000;
  small.kept = 2;
  Logbook log(small);
  for (int i = 0; i < 500; ++i) log.note(LogLevel::kInfo, "line " + std::to_string(i), kNow + i);
  EXPECT_EQ(files(), 3u);
  for (const char* name : {"exhibit.log", "exhibit.1.log", "exhibit.2.log"})
    EXPECT_LE(get(name).size(), 1000u) << name;
  EXPECT_THAT(get("exhibit.log"), EndsWith("line 499\n"));
  EXPECT_EQ(log.trouble(), "");
  EXPECT_EQ(log.recent().size(), Logbook::kRecent);
}

TEST_F(LogFile, IsCutWhereALineIsEndless) {
  Logbook log(plan("exhibit.log"));
  log.note(LogLevel::kInfo, std::string(1'000'000, 'x'), kNow);
  EXPECT_LT(get("exhibit.log").size(), Logbook::kMostLine + 100);
}

// A folder that cannot be made, as on a file system that is only to be read.
TEST_F(LogFile, ThatCannotBeMadeIsTriedAgainEachMinute) {
  put("log", "a file, no folder");
  Logbook log(plan());
  log.note(LogLevel::kInfo, "one", kNow);
  log.note(LogLevel::kInfo, "two", kNow + 1);
  EXPECT_THAT(log.trouble(), HasSubstr("log"));
  EXPECT_EQ(log.lost(), 2);
  EXPECT_EQ(log.recent().size(), 2u);
  std::filesystem::remove(path("log"));
  log.note(LogLevel::kInfo, "three", kNow + 30);
  EXPECT_EQ(log.lost(), 3) << "it is tried once a minute only";
  log.note(LogLevel::kInfo, "four", kNow + 60);
  EXPECT_EQ(log.trouble(), "");
  EXPECT_EQ(log.lost(), 3);
  const std::string text = get("log/exhibit.log");
  EXPECT_THAT(text, HasSubstr("warning 3 lines before this one could not be written"));
  EXPECT_THAT(text, EndsWith("info four\n"));
}

TEST_F(LogFile, IsTriedAgainAtOnceWhenTheClockWasSetBack) {
  put("log", "a file, no folder");
  Logbook log(plan());
  log.note(LogLevel::kInfo, "one", kNow);
  std::filesystem::remove(path("log"));
  log.note(LogLevel::kInfo, "two", kNow - 86'400);
  EXPECT_EQ(log.trouble(), "");
}

TEST_F(LogFile, OnAFullDiskCostsItsLinesAlone) {
  Logbook log(plan("exhibit.log"));
  log.note(LogLevel::kInfo, "before", kNow);
  {
    const FullDisk full(64);
    for (int i = 1; i < 200; ++i) log.note(LogLevel::kInfo, "meanwhile", kNow + i);
    EXPECT_THAT(log.trouble(), HasSubstr("exhibit.log"));
    EXPECT_GE(log.lost(), 190);
  }
  log.note(LogLevel::kInfo, "too soon", kNow + 201);
  EXPECT_NE(log.trouble(), "") << "a disk in trouble is not asked at each line";
  log.note(LogLevel::kInfo, "after", kNow + 300);
  EXPECT_EQ(log.trouble(), "");
  EXPECT_THAT(get("exhibit.log"), HasSubstr("info before\n"));
  EXPECT_THAT(get("exhibit.log"), EndsWith("info after\n"));
}

TEST_F(LogFile, ThatSomebodyRemovesIsThereAgainWithinAMinute) {
  Logbook log(plan("exhibit.log"));
  log.note(LogLevel::kInfo, "one", kNow);
  std::filesystem::remove(path("exhibit.log"));
  log.note(LogLevel::kInfo, "two", kNow + 60);
  EXPECT_EQ(get("exhibit.log"), "2026-12-01T03:47:46Z info two\n");
}

TEST_F(LogFile, ThatIsAPipeIsNotWaitedFor) {
  ASSERT_EQ(::mkfifo(path("exhibit.log").c_str(), 0600), 0);
  Logbook log(plan("exhibit.log"));
  log.note(LogLevel::kInfo, "one", kNow);
  EXPECT_THAT(log.trouble(), HasSubstr("no regular file"));
}

Minute some_minute() {
  Minute minute;
  minute.uptime = 3600;
  minute.visits = 12;
  minute.median_stay = 94;
  minute.language = "de";
  return minute;
}

TEST(MinuteLine, TellsWhatAMonitorWants) {
  Minute minute = some_minute();
  EXPECT_EQ(minute_line(minute),
            "alive uptime=3600s visits=12 median_stay=94s language=de faults=0");
  minute.median_stay.reset();
  minute.language = "d e";
  EXPECT_EQ(minute_line(minute),
            "alive uptime=3600s visits=12 median_stay=none language=d?e faults=0");
}

TEST_F(LogFile, OfTheHeartbeatIsReplacedWhole) {
  SheetWriter writer;
  write_heartbeat(path("heartbeat"), kNow, some_minute(), writer);
  writer.settle();
  EXPECT_EQ(get("heartbeat"),
            "unix=1796096806\ntime=2026-12-01T03:46:46Z\nuptime_s=3600\nvisits=12\n"
            "median_stay_s=94\nlanguage=de\nfaults=0\n");
  write_heartbeat(path("heartbeat"), kNow + 60, some_minute(), writer);
  writer.settle();
  EXPECT_THAT(get("heartbeat"), HasSubstr("unix=1796096866\n"));
  EXPECT_EQ(files(), 1u);
}

}  // namespace
}  // namespace sixty::gui
