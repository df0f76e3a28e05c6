// What a command line gets wrong: the built program names the option, what was found and expected,
// and how to mend it, with exit code 2 and nothing written.
#include <gmock/gmock.h>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

using testing::HasSubstr;

const std::string kBench = SIXTY_SOURCE_DIR "/tests/cli/scenes/bench.yaml";
const std::string kSchool = SIXTY_SOURCE_DIR "/scenes/technical-school.yaml";

class RefusalTest : public FolderTest {
 protected:
  // Runs, expects a refusal that tells all that a person needs, and gives it back.
  std::string refusal(const Words& words) const {
    const Ended ended = run_program_with(words);
    EXPECT_EQ(ended.code, 2) << testing::PrintToString(words) << ended.out;
    EXPECT_EQ(ended.out, "");
    for (const char* line : {"\n  found:    ", "\n  expected: ", "\n  mend:     "}) {
      EXPECT_THAT(ended.err, HasSubstr(line)) << testing::PrintToString(words);
    }
    EXPECT_EQ(files(), 0U);
    return ended.err;
  }
};

TEST_F(RefusalTest, AnEmptyTextIsNotTheSameAsNoOption) {
  for (const char* option : {"--for", "--until", "--seed", "--trace", "--signals", "--sample",
                             "--set", "--do", "--fault"}) {
    EXPECT_THAT(refusal({"run", kBench, option, ""}),
                HasSubstr(std::string("command line: ") + option + ": the text given is empty"));
  }
  for (const char* option : {"--from", "--to", "--kind", "--part"}) {
    EXPECT_THAT(refusal({"events", kBench, option, ""}),
                HasSubstr(std::string("command line: ") + option + ": the text given is empty"));
  }
  EXPECT_THAT(refusal({"run", ""}), HasSubstr("SCENE: the text given is empty"));
  EXPECT_THAT(refusal({"check", kBench, ""}), HasSubstr("FILE: the text given is empty"));
  EXPECT_THAT(refusal({"parts", ""}), HasSubstr("PART: the text given is empty"));
}

TEST_F(RefusalTest, AnotherWorldIsForSelfTestsAlone) {
  for (const char* world : {"--variant", "--calibration"}) {
    EXPECT_THAT(refusal({"diagnose", kBench, "observations.yaml", world}),
                HasSubstr("--self-test"));
  }
  EXPECT_THAT(refusal({"diagnose", kBench, "--self-test", "1", "--variant", "--calibration"}),
              HasSubstr("--calibration"));
}

TEST_F(RefusalTest, AQuestionAboutAnUnknownZoneOrWordIsRefusedWithWhatThereIs) {
  const auto of = [&](const char* question) { return refusal({"why", kSchool, question}); };
  EXPECT_THAT(of("ring zone-9 @ Mon 07:00"), HasSubstr("zone_9"));
  EXPECT_THAT(of("rung zone-2 @ Mon 07:00"), HasSubstr("did you mean \"ring\"?"));
}

TEST_F(RefusalTest, AHandThatWouldActBehindTheEndOfTheRunIsRefused) {
  const std::string run = refusal(
      {"run", kBench, "--for", "2s", "--do", "1s key.close", "--do", "2.000000001s key.open"});
  EXPECT_THAT(run, HasSubstr("--do: the run ends before this hand acts"));
  EXPECT_THAT(run, HasSubstr("found:    2026-01-05T00:00:02.000000001 key.open\n"));
  EXPECT_THAT(run, HasSubstr("the run's end, 2026-01-05T00:00:02\n"));
  EXPECT_THAT(run, testing::Not(HasSubstr("key.close")));
  EXPECT_THAT(refusal({"events", kBench, "--to", "2s", "--do", "3s key.close"}),
              HasSubstr("--do: the run ends before this hand acts"));
  EXPECT_EQ(run_program_with({"run", kBench, "--for", "2s", "--do", "2s key.close"}).code, 0);
}

TEST_F(RefusalTest, AFaultThatCannotBePutInIsRefused) {
  const auto of = [&](const char* fault) {
    return refusal({"run", kMinimal, "--for", "1h", "--fault", fault});
  };
  EXPECT_THAT(of("F13"), HasSubstr("--fault: a fault and a part belong here"));
  EXPECT_THAT(of("F13@nobody"), HasSubstr("there is no part \"nobody\""));
  EXPECT_THAT(of("F13@bell"), HasSubstr("bell has no fault \"F13\""));
  EXPECT_THAT(of("F13@arm_b:2"), HasSubstr("out of range"));
  EXPECT_THAT(of("F13@arm_b:much"), HasSubstr("--fault: "));
  EXPECT_THAT(of("F13@arm_b,from=noon"), HasSubstr("--fault: "));
  EXPECT_THAT(of("F13@arm_b,form=10m"), HasSubstr("this says nothing of a fault"));
  EXPECT_THAT(of("F13@arm_b,from=10m,from=20m"), HasSubstr("said twice"));
  EXPECT_THAT(of("F13@arm_b,course=sometimes"), HasSubstr("this is no course of a fault"));
  EXPECT_THAT(of("F44@ring_key"), HasSubstr("this fault would change nothing there"));
  EXPECT_THAT(of("F13@arm_b,from=2h"), HasSubstr("the run ends before this is put in"));
  EXPECT_THAT(of("F13@arm_b,from=20m,until=10m"), HasSubstr("cleared before it is put in"));
  EXPECT_THAT(of("F13@arm_b,from=20m,until=20m"), HasSubstr("cleared before it is put in"));
  EXPECT_THAT(of("F13@arm_b,course=random 10 % for 1ms"), HasSubstr("come and go too fast"));
  for (const char* course :
       {"after knocks for 5s", "below 5 degC", "above 30 degC", "damper than 70 %"}) {
    EXPECT_THAT(of((std::string("F13@arm_b,course=") + course).c_str()),
                HasSubstr("that this course waits for"));
  }
  EXPECT_THAT(refusal({"compare", kMinimal, "--for", "1h", "--fault", "F13@arm_b,from=2h"}),
              HasSubstr("the run ends before this is put in"));
  EXPECT_THAT(
      refusal({"why", kMinimal, "starts hall_clock @ Mon 00:30", "--fault", "F13@arm_b,from=2h"}),
      HasSubstr("the run ends before this is put in"));
  EXPECT_THAT(refusal({"faults", "--about", "F99"}), HasSubstr("there is no such fault"));
}

TEST_F(RefusalTest, ASpanInWhichADigitalMeterShowsNothingIsRefused) {
  EXPECT_THAT(refusal({"measure", kMinimal, "--meter", "V:supply", "--during", "8h..8h1ms"}),
              HasSubstr("--during: too short for a digital meter"));
  EXPECT_EQ(
      run_program_with({"measure", kMinimal, "--meter", "V:supply", "--during", "10s..10s2ms"})
          .code,
      0);
}

TEST_F(RefusalTest, AQuestionAboutNoEventIsRefused) {
  const auto of = [&](const char* question) { return refusal({"why", kMinimal, question}); };
  EXPECT_THAT(of("starts"), HasSubstr("QUESTION: this asks about no event"));
  EXPECT_THAT(of("starts hall_clock at noon"), HasSubstr("QUESTION: this asks about no event"));
  EXPECT_THAT(of("starts hall_clok @ Mon 08:00"), HasSubstr("did you mean \"hall_clock\""));
  EXPECT_THAT(of("starts hall_clock @ noon"), HasSubstr("QUESTION"));
  EXPECT_THAT(of("start hall_clock @ Mon 08:00"), HasSubstr("did you mean \"starts\""));
}

TEST_F(RefusalTest, AHandThatWouldActBeforeTheStartIsRefused) {
  EXPECT_THAT(refusal({"run", kBench, "--do", "2026-01-04T23:59 key.close"}),
              HasSubstr("--do: \"2026-01-04T23:59\" lies before the scene's start"));
}

// The scene's own script may be for a week, of which a run takes an hour.
TEST_F(RefusalTest, ASceneMayHaveAScriptThatIsLongerThanTheRun) {
  EXPECT_EQ(run_program_with({"run", kBench, "--for", "1ms"}).code, 0);
}

TEST_F(RefusalTest, MoreThanTenMillionSamplesAreRefused) {
  const auto words = [this](const char* span, const char* sample) {
    return Words{"run",         kBench,      "--for",     span,       "--trace",
                 path("t.csv"), "--signals", "relay.gap", "--sample", sample};
  };
  const std::string second = refusal(words("1s", "1ns"));
  EXPECT_THAT(second, HasSubstr("--sample: these would be too many samples"));
  EXPECT_THAT(second, HasSubstr("1ns in a run of 1s: 1000000001 samples"));
  EXPECT_THAT(second, HasSubstr("at most 10000000 samples"));
  EXPECT_THAT(second, HasSubstr("run for less than 10ms, or sample every 200ns or more rarely"));
  refusal(words("10ms", "1ns"));
  EXPECT_EQ(run_program_with(words("9.999999ms", "200ns")).code, 0);
}

TEST_F(RefusalTest, MistakesInTimesTellWhatIsExpectedAndHowToMendThem) {
  for (const char* span : {"5", "5 x", "1,5s", "-1s", "300y", "0.1ns", "1h1d", "soon"}) {
    EXPECT_THAT(refusal({"run", kBench, "--for", span}), HasSubstr("command line: --for: "));
    EXPECT_THAT(refusal({"run", kBench, "--until", span}), HasSubstr("command line: --until: "));
  }
  for (const char* time : {"Mun 10:00", "Mon 25:00", "24:00", "2026-02-30", "2025-01-01", "10:15Z",
                           "10:15:05,5", "Mon 10:15:05.0000000001", "9999-01-01"}) {
    EXPECT_THAT(refusal({"events", kBench, "--from", time}),
                testing::AllOf(HasSubstr("command line: --from: "), HasSubstr("Mon 10:15:05.02")));
  }
}

TEST_F(RefusalTest, TheOptionAtFaultIsNamed) {
  EXPECT_THAT(refusal({"run", kBench, "--trace", path("t.csv"), "--signals", "rely.gap"}),
              HasSubstr("command line: --signals: the scene has no part of this name"));
  EXPECT_THAT(refusal({"events", kBench, "--part", "rely"}),
              HasSubstr("command line: --part: the scene has no part of this name"));
  EXPECT_THAT(refusal({"run", kBench, "--set", "rely.turns=3"}),
              HasSubstr("command line: --set: there is no part \"rely\""));
  EXPECT_THAT(refusal({"run", kBench, "--do", "1s kye.close"}),
              HasSubstr("command line: --do: there is no part \"kye\""));
}

TEST_F(RefusalTest, AValueThatIsSetTwiceIsRefusedNamingBoth) {
  const std::string text =
      refusal({"run", kBench, "--set", "supply.emf=12 V", "--set", "supply.emf=24 V"});
  EXPECT_THAT(text, HasSubstr("--set: supply.emf is set twice"));
  EXPECT_THAT(text, HasSubstr("supply.emf=12 V"));
  EXPECT_THAT(text, HasSubstr("supply.emf=24 V"));
}

TEST_F(RefusalTest, HandsAreRefusedWhatNoHandCanSet) {
  const auto with = [&](const char* action) {
    return refusal({"run", kMinimal, "--for", "2m", "--do", std::string("1m ") + action});
  };
  EXPECT_THAT(with("tape.set_row 1e9 row"),
              testing::AllOf(HasSubstr("--do: set_row: out of range\n  found:    1e9 row\n"),
                             HasSubstr("a whole number from 0 rows to 1439 rows\n")));
  EXPECT_THAT(with("tape.set_row 7.5 row"), HasSubstr("take the nearest, 8 rows"));
  EXPECT_THAT(with("week_wheel.set_place 14"), HasSubstr("a whole number from 0 to 13\n"));
  EXPECT_THAT(with("week_wheel.set_place 2.5"), HasSubstr("a whole number belongs here"));
  EXPECT_THAT(with("movement.start 11 deg"), HasSubstr("from 0.1 deg to 10 deg\n"));
  EXPECT_THAT(with("movement.turn_nut 61 turn"), HasSubstr("from -60 turns to 60 turns\n"));
  EXPECT_THAT(with("hall_clock.set 13 h"), HasSubstr("from 0 s to 12 h in steps of 60 s\n"));
  EXPECT_THAT(with("hall_clock.set 90 s"), HasSubstr("between two steps"));
}

TEST_F(RefusalTest, CountsTakeNoFractions) {
  EXPECT_THAT(refusal({"run", kMinimal, "--set", "arm_a.dwell=2.5"}),
              testing::AllOf(HasSubstr("--set: arm_a.dwell: a whole number belongs here"),
                             HasSubstr("a whole number from 1 beat to 59 beats\n")));
  EXPECT_THAT(refusal({"run", kMinimal, "--set", "arm_a.makes_at=36.1 beat"}),
              HasSubstr("take the nearest, 36 beats"));
  EXPECT_THAT(refusal({"run", kMinimal, "--set", "hall_clock.wrong_at_start=61 s"}),
              HasSubstr("take the nearest, 60 s"));
}

}  // namespace
}  // namespace sixty::cli
