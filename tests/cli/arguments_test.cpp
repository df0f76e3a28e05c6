#include "sim/cli/arguments.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sixty::cli {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

template <class A>
A accepted(std::vector<std::string> words) {
  Diagnostics mistakes;
  const Arguments arguments = parse_arguments(std::move(words), mistakes);
  EXPECT_EQ(mistakes.to_text(), "");
  const A* wanted = std::get_if<A>(&arguments);
  EXPECT_NE(wanted, nullptr);
  return wanted == nullptr ? A() : *wanted;
}

std::string refusal(std::vector<std::string> words) {
  Diagnostics mistakes;
  parse_arguments(std::move(words), mistakes);
  EXPECT_FALSE(mistakes.empty());
  return mistakes.to_text();
}

TEST(ArgumentsTest, RunTakesEverythingInAnyOrder) {
  const auto run = accepted<RunArguments>({"run", "--seed", "3", "--set", "a.b=1 V", "hall.yaml",
                                           "--set", "c.d=2", "--do", "Mon 10:15 key.close",
                                           "--for=7d", "--json", "--trace", "t.csv", "--signals",
                                           "a.x,b.*", "--sample", "50us", "--no-reuse"});
  EXPECT_EQ(run.scene.path, "hall.yaml");
  EXPECT_EQ(run.scene.seed, "3");
  EXPECT_THAT(run.scene.set, ElementsAre("a.b=1 V", "c.d=2"));
  EXPECT_THAT(run.scene.action, ElementsAre("Mon 10:15 key.close"));
  EXPECT_EQ(run.span, "7d");
  EXPECT_EQ(run.trace, "t.csv");
  EXPECT_THAT(run.signals, ElementsAre("a.x,b.*"));
  EXPECT_EQ(run.sample, "50us");
  EXPECT_TRUE(run.json);
  EXPECT_TRUE(run.no_reuse);
}

TEST(ArgumentsTest, ValuesMayBeginWithAMinusAndHoldBrackets) {
  const auto run = accepted<RunArguments>({"run", "s", "--set", "a.b=[1, 2]", "--for", "-3s"});
  EXPECT_THAT(run.scene.set, ElementsAre("a.b=[1, 2]"));
  EXPECT_EQ(run.span, "-3s");
}

TEST(ArgumentsTest, AFileMayHaveTheNameOfACommand) {
  EXPECT_THAT(accepted<CheckArguments>({"check", "run", "parts"}).files,
              ElementsAre("run", "parts"));
  EXPECT_EQ(accepted<PartsArguments>({"parts", "check"}).part, "check");
}

TEST(ArgumentsTest, EventsTakesKindsAndParts) {
  const auto events = accepted<EventsArguments>(
      {"events", "s", "--kind", "a", "--kind", "b", "--part", "p", "--from", "1s", "--full"});
  EXPECT_THAT(events.kinds, ElementsAre("a", "b"));
  EXPECT_THAT(events.parts, ElementsAre("p"));
  EXPECT_EQ(events.from, "1s");
  EXPECT_TRUE(events.full);
}

TEST(ArgumentsTest, HelpHasExamplesForEachCommand) {
  EXPECT_THAT(accepted<TextWanted>({"--help"}).text, HasSubstr("Exit codes: 0 "));
  EXPECT_THAT(accepted<TextWanted>({"--help"}).text, HasSubstr("\nCommands:\n"));
  for (const char* command : {"run", "events", "check", "parts", "schema"}) {
    const std::string help = accepted<TextWanted>({command, "--help"}).text;
    EXPECT_THAT(help, HasSubstr("Example")) << command;
    EXPECT_THAT(help, HasSubstr(std::string("  sixtybeats ") + command)) << command;
  }
}

TEST(ArgumentsTest, VersionIsOneLine) {
  EXPECT_THAT(accepted<TextWanted>({"--version"}).text,
              testing::MatchesRegex("sixtybeats [0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST(ArgumentsTest, AnUnknownCommandIsRefused) {
  EXPECT_THAT(refusal({"rnu", "s"}), HasSubstr("did you mean \"run\"?"));
  EXPECT_THAT(refusal({}), HasSubstr("no command is given"));
}

TEST(ArgumentsTest, AnUnknownOptionIsRefused) {
  const std::string text = refusal({"run", "--fro", "5d", "hall.yaml", "--sed=4"});
  EXPECT_THAT(text, HasSubstr("found:    --fro"));
  EXPECT_THAT(text, HasSubstr("did you mean \"--for\"?"));
  EXPECT_THAT(text, HasSubstr("did you mean \"--seed\"?"));
  EXPECT_THAT(refusal({"--json", "run", "s"}), HasSubstr("give options after the command"));
}

TEST(ArgumentsTest, AWordTooManyIsRefused) {
  EXPECT_THAT(refusal({"run", "s", "t"}), HasSubstr("one word too many"));
}

TEST(ArgumentsTest, WhatIsMissingIsRefused) {
  EXPECT_THAT(refusal({"run"}), HasSubstr("SCENE"));
  EXPECT_THAT(refusal({"run", "s", "--for"}), HasSubstr("--for"));
  EXPECT_THAT(refusal({"check"}), HasSubstr("FILE"));
}

TEST(ArgumentsTest, ContradictionsAreRefused) {
  EXPECT_THAT(refusal({"run", "s", "--for", "1d", "--until", "2d"}), HasSubstr("--until"));
  EXPECT_THAT(refusal({"run", "s", "--for", "1d", "--for", "2d"}),
              HasSubstr("--for: given more than once"));
}

}  // namespace
}  // namespace sixty::cli
