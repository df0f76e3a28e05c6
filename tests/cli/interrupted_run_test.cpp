// A request to end that comes at a known instant of the run, from a part made for it. Each run is
// in a process of its own, which the request ends.
#include <gmock/gmock.h>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/interrupt.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

// Turns every second; at the fifth turn somebody has enough of it.
class Top final : public Part {
 public:
  explicit Top(int signal) : signal_(signal) {}
  void start(Ctx& ctx) const override { ctx.schedule(kSecond, 0, Phase::kMotion); }
  void on_event(const Event&, Ctx& ctx) const override {
    if (ctx.now() == 5 * kSecond && !asked().exchange(true)) std::raise(signal_);
    ctx.schedule(ctx.now() + kSecond, 0, Phase::kMotion);
  }

 private:
  /// Of two runs side by side only one asks.
  static std::atomic<bool>& asked() {
    static std::atomic<bool> asked = false;
    return asked;
  }

  int signal_;
};

class TopType final : public PartType {
 public:
  explicit TopType(int signal) : signal_(signal) {}
  void declare(Declaration& d) const override {
    d.title = "top";
    d.help = "Turns every second.";
    d.event(0, "turns", "it turns");
  }
  std::unique_ptr<const Part> make(Builder&) const override {
    return std::make_unique<Top>(signal_);
  }

 private:
  int signal_;
};

class InterruptedRunTest : public FolderTest, public testing::WithParamInterface<int> {
 protected:
  // Ends with the program's code; what it prints goes to a file.
  [[noreturn]] void run(std::vector<std::string> words) const {
    const TopType type(GetParam());
    Registry registry;
    registry.add("top", type, "models/top");
    if (std::freopen(path("out").c_str(), "w", stdout) == nullptr) std::_Exit(99);
    watch_for_interrupts();
    const int code = run_program(std::move(words), registry);
    std::fflush(stdout);
    std::_Exit(code);
  }
  void SetUp() override {
    FolderTest::SetUp();
    GTEST_FLAG_SET(death_test_style, "fast");
    put("top.yaml", "scene: Top\nstart: 2026-01-05T00:00:00\nparts:\n  top: {type: top}\n");
  }
};

TEST_P(InterruptedRunTest, EndsAtTheInstantOfTheRequestWithReportAndTraceUntilThen) {
  EXPECT_EXIT(
      run({"run", path("top.yaml"), "--for", "100000d", "--json", "--trace", path("t.csv")}),
      testing::ExitedWithCode(kInterrupted), "");
  const auto report = nlohmann::json::parse(get("out"));
  EXPECT_EQ(report["simulated_s"], 5.0);
  EXPECT_EQ(report["events"], 5);
  EXPECT_THAT(report["warnings"].back(), testing::HasSubstr("interrupted"));
  EXPECT_THAT(get("t.csv"), testing::HasSubstr("\n5.000000000,"));
  EXPECT_THAT(get("t.csv"), testing::Not(testing::HasSubstr("\n6.000000000,")));
}

TEST_P(InterruptedRunTest, EndsAListOfEventsThereToo) {
  EXPECT_EXIT(run({"events", path("top.yaml"), "--to", "100000d"}),
              testing::ExitedWithCode(kInterrupted), "");
  EXPECT_THAT(get("out"), testing::EndsWith(" <- turns top @ Mon 00:00:04\n"));
}

TEST_P(InterruptedRunTest, EndsAComparisonAndAQuestionWithoutAnAnswer) {
  EXPECT_EXIT(run({"compare", path("top.yaml"), "--for", "100000d"}),
              testing::ExitedWithCode(kInterrupted), "interrupted: there is no answer yet");
  EXPECT_EQ(get("out"), "");
  EXPECT_EXIT(run({"why", path("top.yaml"), "turns top @ 100000d"}),
              testing::ExitedWithCode(kInterrupted), "interrupted: there is no answer yet");
  EXPECT_EQ(get("out"), "");
}

INSTANTIATE_TEST_SUITE_P(BothRequests, InterruptedRunTest, testing::Values(SIGINT, SIGTERM));

}  // namespace
}  // namespace sixty::cli
