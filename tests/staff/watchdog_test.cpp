// What systemd hears of the program, on a real socket of the kind it listens at.
#include "gui/staff/watchdog.hpp"

#include <gmock/gmock.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstdlib>

#include "tests/cli/folder.hpp"

namespace sixty::gui {
namespace {

class WatchdogSocket : public cli::FolderTest {
 protected:
  void SetUp() override {
    cli::FolderTest::SetUp();
    socket_ = ::socket(AF_UNIX, SOCK_DGRAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    ASSERT_GE(socket_, 0);
    sockaddr_un address = {};
    address.sun_family = AF_UNIX;
    const std::string name = path("notify");
    ASSERT_LT(name.size(), sizeof address.sun_path);
    name.copy(address.sun_path, name.size());
    ASSERT_EQ(::bind(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    ::setenv("NOTIFY_SOCKET", name.c_str(), 1);
  }
  void TearDown() override {
    ::unsetenv("NOTIFY_SOCKET");
    if (socket_ >= 0) ::close(socket_);
    cli::FolderTest::TearDown();
  }
  /// What has come since the last time; empty if nothing.
  std::string heard() const {
    char bytes[2000];
    const ssize_t size = ::recv(socket_, bytes, sizeof bytes, 0);
    return size < 0 ? "" : std::string(bytes, static_cast<std::size_t>(size));
  }

 private:
  int socket_ = -1;
};

TEST_F(WatchdogSocket, HearsThatTheDisplayIsUpAndThatItEnds) {
  Watchdog watchdog(nullptr);
  EXPECT_TRUE(watchdog.ready("all dials show 10:15"));
  EXPECT_EQ(heard(), "READY=1\nSTATUS=all dials show 10:15");
  EXPECT_TRUE(watchdog.status("closed\nREADY=0"));
  EXPECT_EQ(heard(), "STATUS=closed\\nREADY=0");
  EXPECT_TRUE(watchdog.stopping());
  EXPECT_EQ(heard(), "STOPPING=1");
}

TEST_F(WatchdogSocket, HearsOfItAtHalfOfItsTime) {
  Watchdog watchdog("10000000");
  EXPECT_EQ(watchdog.interval(), 5000);
  EXPECT_TRUE(watchdog.alive(100));
  EXPECT_EQ(heard(), "WATCHDOG=1");
  EXPECT_FALSE(watchdog.alive(5099));
  EXPECT_EQ(heard(), "");
  EXPECT_TRUE(watchdog.alive(5100));
  EXPECT_EQ(heard(), "WATCHDOG=1");
  EXPECT_FALSE(watchdog.alive(5101));
  EXPECT_TRUE(watchdog.alive(50)) << "the clock was set back";
  EXPECT_EQ(heard(), "WATCHDOG=1");
}

TEST_F(WatchdogSocket, HearsNothingWithoutAWatchdog) {
  for (const char* none : {"", "0", "x", "-5", "5000000s", "1999"}) {
    Watchdog watchdog(none);
    EXPECT_EQ(watchdog.interval(), 0) << none;
    EXPECT_FALSE(watchdog.alive(0)) << none;
  }
  EXPECT_EQ(heard(), "");
}

TEST_F(WatchdogSocket, ThatIsGoneStopsNothing) {
  Watchdog watchdog("10000000");
  std::filesystem::remove(path("notify"));
  EXPECT_FALSE(watchdog.ready("up"));
  EXPECT_FALSE(watchdog.alive(0));
}

TEST(Watchdog, TellsNobodyOutsideOfSystemd) {
  ::unsetenv("NOTIFY_SOCKET");
  Watchdog watchdog("10000000");
  EXPECT_FALSE(watchdog.ready("up"));
  EXPECT_FALSE(watchdog.alive(0));
  EXPECT_FALSE(watchdog.stopping());
}

}  // namespace
}  // namespace sixty::gui
