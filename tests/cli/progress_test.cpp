// How far a run has come is told on a terminal's standard error, and nowhere else. Each run is in a
// process of its own, with a part in it that takes its time.
#include <gmock/gmock.h>
#include <pty.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <thread>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;

class Snail final : public Part {
 public:
  void start(Ctx& ctx) const override { ctx.schedule(kSecond, 0, Phase::kMotion); }
  void on_event(const Event&, Ctx& ctx) const override {
    std::this_thread::sleep_for(std::chrono::milliseconds(60));
    ctx.schedule(ctx.now() + kSecond, 0, Phase::kMotion);
  }
};

class SnailType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "snail";
    d.help = "Moves on every second, slowly.";
    d.event(0, "moves", "it moves on");
  }
  std::unique_ptr<const Part> make(Builder&) const override { return std::make_unique<Snail>(); }
};

class ProgressTest : public FolderTest {
 protected:
  void SetUp() override {
    FolderTest::SetUp();
    GTEST_FLAG_SET(death_test_style, "fast");
    put("snail.yaml", "scene: Snail\nstart: 2026-01-05T00:00:00\nparts:\n  snail: {type: snail}\n");
  }
  // Ends with the program's code; the report goes to a file, standard error where `err` leads.
  [[noreturn]] void run(int err) const {
    const SnailType type;
    Registry registry;
    registry.add("snail", type, "models/snail");
    if (std::freopen(path("out").c_str(), "w", stdout) == nullptr) std::_Exit(99);
    ::dup2(err, STDERR_FILENO);
    const int code = run_program({"run", path("snail.yaml"), "--for", "8s"}, registry);
    std::fflush(stdout);
    std::_Exit(code);
  }
};

std::string said_on(int terminal) {
  std::string said;
  std::array<char, 4096> some{};
  for (ssize_t n; (n = ::read(terminal, some.data(), some.size())) > 0;) {
    said.append(some.data(), static_cast<std::size_t>(n));
  }
  return said;
}

TEST_F(ProgressTest, IsToldOnATerminalAndWipedAtTheEnd) {
  int ours = -1;
  int theirs = -1;
  ASSERT_EQ(::openpty(&ours, &theirs, nullptr, nullptr, nullptr), 0);
  EXPECT_EXIT(run(theirs), testing::ExitedWithCode(kOk), "");
  ::close(theirs);
  const std::string said = said_on(ours);
  ::close(ours);
  EXPECT_THAT(said, testing::StartsWith("\r\033[K"));
  EXPECT_THAT(said, HasSubstr(" %  2026-01-05T00:00:0"));
  EXPECT_THAT(said, testing::EndsWith("s\r\033[K"));
  EXPECT_THAT(get("out"), HasSubstr("8s simulated"));
  EXPECT_THAT(get("out"), testing::Not(HasSubstr(" %  ")));
}

TEST_F(ProgressTest, LeavesAFileAlone) {
  std::FILE* file = std::fopen(path("err").c_str(), "w");
  ASSERT_NE(file, nullptr);
  EXPECT_EXIT(run(::fileno(file)), testing::ExitedWithCode(kOk), "");
  std::fclose(file);
  EXPECT_EQ(get("err"), "");
  EXPECT_THAT(get("out"), HasSubstr("8s simulated"));
}

}  // namespace
}  // namespace sixty::cli
