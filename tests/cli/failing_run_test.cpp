// Runs that cannot go on, with a part made for it; so in this process.
#include <gmock/gmock.h>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;

// Goes round and round from the tenth second on, without time passing.
class Whirl final : public Part {
 public:
  void start(Ctx& ctx) const override { ctx.schedule(10 * kSecond, 0, Phase::kMotion); }
  void on_event(const Event& event, Ctx& ctx) const override {
    if (event.kind == 0) ctx.schedule(ctx.now(), 0, Phase::kMotion);
  }
};

class WhirlType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "whirl";
    d.help = "Goes round and round.";
    d.event(0, "turns", "it turns");
  }
  std::unique_ptr<const Part> make(Builder&) const override { return std::make_unique<Whirl>(); }
};

class FailingRunTest : public FolderTest {
 protected:
  void SetUp() override {
    FolderTest::SetUp();
    registry.add("whirl", type, "models/whirl");
    put("whirl.yaml", "scene: Whirl\nstart: 2026-01-05T00:00:00\nparts:\n  top: {type: whirl}\n");
  }
  int run(std::vector<std::string> words) {
    testing::internal::CaptureStdout();
    testing::internal::CaptureStderr();
    const int code = run_program(std::move(words), registry);
    out = testing::internal::GetCapturedStdout();
    err = testing::internal::GetCapturedStderr();
    return code;
  }
  WhirlType type;
  Registry registry;
  std::string out, err;
};

TEST_F(FailingRunTest, TellsWhereItFailedAndReportsNothing) {
  EXPECT_EQ(run({"run", path("whirl.yaml"), "--for", "20s"}), kRunFailed) << err;
  EXPECT_THAT(err, HasSubstr("the run failed: "));
  EXPECT_THAT(err, HasSubstr("top"));
  EXPECT_THAT(err, HasSubstr("Mon 00:00:10"));
  EXPECT_EQ(out, "");
}

TEST_F(FailingRunTest, KeepsItsTraceForLookingInto) {
  EXPECT_EQ(run({"run", path("whirl.yaml"), "--for", "20s", "--trace", path("t.csv")}), kRunFailed);
  EXPECT_THAT(get("t.csv"), HasSubstr("\n10.000000000,1,0,top,turns,1,"));
  EXPECT_EQ(files(), 2U);
}

TEST_F(FailingRunTest, IsNoFailureBeforeThatInstant) {
  EXPECT_EQ(run({"run", path("whirl.yaml"), "--for", "9s"}), kOk) << err;
  EXPECT_THAT(out, HasSubstr("0 events in"));
  EXPECT_EQ(run({"events", path("whirl.yaml"), "--to", "9s"}), kOk);
  EXPECT_EQ(err, "no such events\n");
}

}  // namespace
}  // namespace sixty::cli
