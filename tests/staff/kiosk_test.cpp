// The files that make of a bare machine a display: whole, without a way out, and their script does
// what it says, once.
#include <gmock/gmock.h>
#include <sys/wait.h>

#include <cstdio>
#include <regex>
#include <sstream>

#include "tests/cli/folder.hpp"

namespace sixty::gui {
namespace {

using testing::AnyOf;
using testing::Contains;
using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

const std::string kKiosk = std::string(SIXTY_SOURCE_DIR) + "/gui/exhibit/kiosk/";

struct Said {
  std::string text;
  int status = -1;
};

/// What a command line of the shell writes, mistakes too.
Said said_by(const std::string& command) {
  Said said;
  FILE* pipe = ::popen(("LC_ALL=C; exec 2>&1 </dev/null; " + command).c_str(), "r");
  if (pipe == nullptr) return said;
  char block[4096];
  for (std::size_t got = 0; (got = std::fread(block, 1, sizeof block, pipe)) > 0;)
    said.text.append(block, got);
  const int status = ::pclose(pipe);
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return said;
}

std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

class Kiosk : public cli::FolderTest {
 protected:
  void SetUp() override {
    cli::FolderTest::SetUp();
    std::filesystem::create_directories(path("content/pictures"));
    put("content/exhibit.yaml", "title: ours\n");
    put("content/pictures/a b.png", "picture");
  }
  Said set_up(const std::string& arguments) const {
    return said_by("'" + kKiosk + "set-up' " + arguments);
  }
  std::string into() const {
    return "--into '" + path("image") + "' --content '" + path("content") + "' --program /bin/true";
  }
};

TEST_F(Kiosk, UnitSaysWhatADisplayNeeds) {
  const std::vector<std::string> lines = lines_of(text_of(kKiosk + "sixtybeats-exhibit.service"));
  for (const char* line : {"Type=notify", "NotifyAccess=all", "User=sixtybeats", "Restart=always",
                           "StartLimitIntervalSec=0", "TTYPath=/dev/tty1", "ProtectSystem=strict",
                           "ProtectHome=yes", "IPAddressDeny=any", "RuntimeDirectory=sixtybeats",
                           "Conflicts=getty@tty1.service", "WantedBy=multi-user.target",
                           "Environment=STATE_DIRECTORY=/var/lib/sixtybeats "
                           "LOGS_DIRECTORY=/var/log/sixtybeats"})
    EXPECT_THAT(lines, Contains(line));
  EXPECT_THAT(lines, Contains(ContainsRegex("^WatchdogSec=[0-9]+$")));
  EXPECT_THAT(lines, Contains(ContainsRegex("^RestartSec=[1-5]$")));
  EXPECT_THAT(lines, Contains(ContainsRegex("^ExecStart=/usr/bin/xinit .*/sixtybeats-bench "
                                            "--exhibit /etc/sixtybeats/exhibit.yaml -- ")));
  // With these the client's messages would not be heard, or the X server could not open the screen,
  // or a network or a lost partition be waited for.
  for (const char* never :
       {"^PAMName=", "^NoNewPrivileges=", "^(Lock|Memory|SystemCall|RestrictNam|PrivateDev)",
        "network-online", "time-sync", "^StateDirectory="})
    EXPECT_THAT(lines, Not(Contains(ContainsRegex(never))));
}

TEST_F(Kiosk, UnitIsUnderstoodBySystemd) {
  if (said_by("command -v systemd-analyze").status != 0) GTEST_SKIP() << "no systemd-analyze here";
  const Said said =
      said_by("systemd-analyze verify --man=no '" + kKiosk + "sixtybeats-exhibit.service'");
  for (const std::string& line : lines_of(said.text)) {
    if (line.find("sixtybeats-exhibit.service") == std::string::npos) continue;
    EXPECT_THAT(line, HasSubstr("xinit is not executable")) << "what is missing here alone";
  }
}

TEST_F(Kiosk, ScreenHasNoWayOutAndIsNeverDarkByItself) {
  const std::string text = text_of(kKiosk + "90-sixtybeats.conf");
  std::map<std::string, std::string> options;
  const std::regex option(R"re(\n *Option +"(\w+)" +"(\w+)")re");
  for (std::sregex_iterator at(text.begin(), text.end(), option), end; at != end; ++at) {
    std::string name = (*at)[1];
    for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    options[name] = (*at)[2];
  }
  EXPECT_EQ(options, (std::map<std::string, std::string>{{"dontvtswitch", "true"},
                                                         {"dontzap", "true"},
                                                         {"dontzoom", "true"},
                                                         {"blanktime", "0"},
                                                         {"standbytime", "0"},
                                                         {"suspendtime", "0"},
                                                         {"offtime", "0"},
                                                         {"dpms", "Disable"}}));
  const auto count = [&](const std::string& word) {
    const std::vector<std::string> lines = lines_of(text);
    return std::count_if(lines.begin(), lines.end(),
                         [&](const std::string& line) { return line.starts_with(word); });
  };
  EXPECT_EQ(count("Section"), count("EndSection"));
}

TEST_F(Kiosk, ScriptIsWellFormed) {
  EXPECT_EQ(said_by("bash -n '" + kKiosk + "set-up'").text, "");
  EXPECT_EQ(set_up("--help").status, 0);
  EXPECT_EQ(set_up("--what").status, 1);
  EXPECT_THAT(set_up("--what").text, HasSubstr("unknown: --what"));
  EXPECT_THAT(set_up("--content").text, HasSubstr("--content needs a value"));
}

// Whatever could change the machine is another program here, which tells on it.
TEST_F(Kiosk, DryRunSaysAllAndDoesNothing) {
  std::filesystem::create_directory(path("stand-ins"));
  for (const char* name : {"install", "mv", "apt-get", "systemctl", "useradd", "chgrp", "chmod"}) {
    const std::string stand_in = std::string("stand-ins/") + name;
    put(stand_in, "#!/bin/sh\necho \"$0 $*\" >>'" + path("done") + "'\n");
    std::filesystem::permissions(path(stand_in), std::filesystem::perms(0755));
  }
  const Said said =
      said_by("PATH='" + path("stand-ins") + "':$PATH; '" + kKiosk +
              "set-up' --dry-run --content '" + path("content") + "' --program /bin/true");
  EXPECT_EQ(said.status, 0) << said.text;
  for (const char* told :
       {"/usr/local/bin/sixtybeats-bench", "/etc/systemd/system/sixtybeats-exhibit.service",
        "/etc/X11/xorg.conf.d/90-sixtybeats.conf", "/etc/X11/Xwrapper.config",
        "/etc/sixtybeats/exhibit.yaml", "/etc/sixtybeats/pictures/a b.png",
        "would run: systemctl enable sixtybeats-exhibit.service",
        "would run: systemctl disable getty@tty1.service", "apt-daily.timer",
        "Nothing was changed."})
    EXPECT_THAT(said.text, HasSubstr(told));
  EXPECT_THAT(said.text, AnyOf(HasSubstr("would run: useradd"), HasSubstr("is there already")));
  for (const std::string& line : lines_of(said.text))
    EXPECT_THAT(line, Not(ContainsRegex("^(copy:|Installing|Reading)")));
  EXPECT_EQ(get("done"), "");
}

TEST_F(Kiosk, DryRunIntoAnImageMakesNoFile) {
  EXPECT_EQ(set_up("--dry-run " + into()).status, 0);
  EXPECT_FALSE(std::filesystem::exists(path("image")));
}

TEST_F(Kiosk, FilesAreWhereTheUnitLooksForThem) {
  const Said said = set_up(into());
  ASSERT_EQ(said.status, 0) << said.text;
  EXPECT_EQ(get("image/etc/sixtybeats/exhibit.yaml"), "title: ours\n");
  EXPECT_EQ(get("image/etc/sixtybeats/pictures/a b.png"), "picture");
  EXPECT_EQ(get("image/etc/systemd/system/sixtybeats-exhibit.service"),
            text_of(kKiosk + "sixtybeats-exhibit.service"));
  EXPECT_THAT(get("image/etc/X11/Xwrapper.config"), HasSubstr("\nallowed_users=anybody\n"));
  namespace fs = std::filesystem;
  const auto mode = [&](const char* name) { return fs::status(path(name)).permissions(); };
  EXPECT_EQ(mode("image/usr/local/bin/sixtybeats-bench"), fs::perms(0755));
  EXPECT_EQ(mode("image/etc/sixtybeats/exhibit.yaml"), fs::perms(0640)) << "it holds a PIN's hash";
}

TEST_F(Kiosk, SecondRunChangesNothing) {
  set_up(into());
  const auto before =
      std::filesystem::last_write_time(path("image/usr/local/bin/sixtybeats-bench"));
  const Said again = set_up(into());
  EXPECT_EQ(again.status, 0);
  EXPECT_THAT(again.text, Not(HasSubstr("copy:")));
  EXPECT_EQ(std::filesystem::last_write_time(path("image/usr/local/bin/sixtybeats-bench")), before);
}

TEST_F(Kiosk, WorkOfTheCuratorIsNeverWrittenOver) {
  set_up(into());
  put("image/etc/sixtybeats/exhibit.yaml", "title: changed by hand\n");
  const Said again = set_up(into());
  EXPECT_EQ(again.status, 0);
  EXPECT_EQ(get("image/etc/sixtybeats/exhibit.yaml"), "title: changed by hand\n");
  EXPECT_EQ(get("image/etc/sixtybeats/exhibit.yaml.new"), "title: ours\n");
}

TEST_F(Kiosk, ScriptSaysWhatIsMissing) {
  const Said no_program = set_up("--into '" + path("image") + "' --program /nowhere");
  EXPECT_EQ(no_program.status, 1);
  EXPECT_THAT(no_program.text, HasSubstr("/nowhere is not there; build it first"));
  std::filesystem::remove(path("content/exhibit.yaml"));
  EXPECT_THAT(set_up(into()).text, HasSubstr("holds no exhibit.yaml"));
  const Said none = set_up("--into '" + path("image") + "' --program /bin/true");
  EXPECT_EQ(none.status, 1);
  EXPECT_THAT(none.text, HasSubstr("--content FOLDER"));
}

/// What the README names is there.
TEST_F(Kiosk, ReadmeTellsOfAllFiles) {
  const std::string text = text_of(kKiosk + "README.md");
  for (const char* told :
       {"--make-pin", "set-up --dry-run", "timedatectl", "overlayroot", "TransformationMatrix",
        "alsamixer", "/run/sixtybeats/heartbeat", "counts-YEAR-MONTH.csv", "back up", "Local codes",
        "licensed", "91-display.conf"})
    EXPECT_THAT(text, HasSubstr(told));
}

}  // namespace
}  // namespace sixty::gui
