// The built program as others see it: exit codes, what goes where, and the contract of its reports.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

using nlohmann::ordered_json;
using testing::HasSubstr;

const std::string kBench = SIXTY_SOURCE_DIR "/tests/cli/scenes/bench.yaml";

class ProgramTest : public FolderTest {
 protected:
  static ordered_json report_of(std::vector<std::string> words) {
    words.emplace_back("--json");
    const Ended ended = run_program_with(std::move(words));
    EXPECT_EQ(ended.code, 0) << ended.err;
    EXPECT_EQ(ended.err, "");
    ordered_json report = ordered_json::parse(ended.out);
    EXPECT_TRUE(report["wall_s"].is_number());
    report["wall_s"] = 0;  // the only key that may differ between equal runs
    return report;
  }
};

std::vector<std::string> keys_of(const ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) keys.push_back(item.key());
  return keys;
}

TEST_F(ProgramTest, ReportHasTheKeysOfItsContract) {
  const ordered_json report = report_of({"run", kMinimal, "--for", "8h10m"});
  for (const char* key :
       {"format", "scene", "seed", "simulated_s", "wall_s", "events", "beats", "master", "rewind",
        "secondaries", "bells", "rings", "tape", "supply", "warnings"}) {
    EXPECT_TRUE(report.contains(key)) << key;
  }
  EXPECT_THAT(keys_of(report["master"]),
              testing::ElementsAre("rate_s_per_day", "semi_arc_deg", "beat_error_ms", "stopped_at",
                                   "shows", "error_s"));
  EXPECT_THAT(keys_of(report["rewind"]), testing::ElementsAre("strokes", "missed", "spring_teeth"));
  EXPECT_THAT(keys_of(report["secondaries"][0]),
              testing::ElementsAre("id", "loop", "steps", "missed", "extra", "error_min"));
  EXPECT_THAT(keys_of(report["bells"][0]),
              testing::ElementsAre("id", "zone", "rings", "missed", "unasked", "strokes"));
  EXPECT_THAT(keys_of(report["rings"][0]), testing::ElementsAre("at", "zone", "for_s", "asked"));
  EXPECT_THAT(keys_of(report["tape"]),
              testing::UnorderedElementsAre("row", "week_place", "places_behind", "slipped",
                                            "jumps", "spark_j"));
  EXPECT_THAT(keys_of(report["zones"][0]),
              testing::ElementsAre("timetable", "zone", "asked", "rung", "missed", "unasked"));
  EXPECT_THAT(keys_of(report["supply"]), testing::ElementsAre("min_v", "max_a", "charge_ah"));
  EXPECT_EQ(report["simulated_s"], 8 * 3600 + 600.0);
  EXPECT_EQ(report["scene"], "bench-minimal");
}

// Every key that a run gives is documented where a reader looks for it.
TEST_F(ProgramTest, EveryKeyOfTheReportIsDocumented) {
  std::string documents;
  for (const char* file : {"/sim/cli/README.md", "/models/README.md"}) {
    std::ifstream in(std::string(SIXTY_SOURCE_DIR) + file);
    documents.append(std::istreambuf_iterator<char>(in), {});
  }
  const auto is_documented = [&](const std::string& key) {
    return std::regex_search(documents, std::regex("[`.]" + key + "(\\[\\])?[`.]"));
  };
  for (const std::string& scene : {kMinimal, kBench}) {
    const ordered_json report = report_of({"run", scene, "--for", "8h10m"});
    for (const auto& section : report.items()) {
      EXPECT_TRUE(is_documented(section.key())) << section.key();
      const ordered_json& value = section.value();
      if (!value.is_structured() || value.empty()) continue;
      const ordered_json& row = value.is_array() ? value[0] : value;
      if (!row.is_object()) continue;
      for (const auto& cell : row.items()) EXPECT_TRUE(is_documented(cell.key())) << cell.key();
    }
  }
}

TEST_F(ProgramTest, RoomsOfThePlanAndOfThePartsAreReported) {
  put("rooms.yaml", R"(scene: Two rooms
start: 2026-01-05T00:00:00
rooms: {office: {floor: 0, x: 1 m, y: 2 m, width: 4 m, height: 3 m}, loft: {floor: 2, x: 9 m, y: 2 m}}
parts:
  supply: {type: supply, sheet: bench_24v, room: office}
lines:
  up:
    kind: parallel
    from: supply.plus
    to: supply.minus
    run: {type: wire, sheet: clock_line, set: {conductors: 2}}
    each: {type: secondary, sheet: parallel_24v}
    places: [{name: one, room: loft}, {name: two, length: 3 m}]
)");
  const ordered_json report = report_of({"run", path("rooms.yaml"), "--for", "1s"});
  EXPECT_EQ(report["rooms"][0].dump(),
            R"({"name":"office","floor":0,"x_m":1.0,"y_m":2.0,"width_m":4.0,"height_m":3.0})");
  EXPECT_EQ(report["rooms"][1]["floor"], 2);
  EXPECT_EQ(report["supplies"][0]["room"], "office");
  EXPECT_EQ(report["secondaries"][0]["room"], "loft");
  EXPECT_TRUE(report["secondaries"][1]["room"].is_null());
}

TEST_F(ProgramTest, EqualRunsGiveEqualReports) {
  const std::vector<std::string> words = {"run", kMinimal, "--for", "2h", "--seed", "5"};
  EXPECT_EQ(report_of(words).dump(), report_of(words).dump());
}

TEST_F(ProgramTest, SeedSpanAndReuseAreTakenFromTheCommandLine) {
  const ordered_json report = report_of({"run", kMinimal, "--until", "Mon 00:30", "--seed", "9"});
  EXPECT_EQ(report["seed"], 9);
  EXPECT_EQ(report["simulated_s"], 1800.0);
  EXPECT_EQ(report_of({"run", kMinimal, "--for", "30m", "--seed", "9", "--no-reuse"}).dump(),
            report.dump());
}

TEST_F(ProgramTest, ValuesAndActionsAreTakenFromTheCommandLine) {
  EXPECT_EQ(report_of({"run", kBench, "--for", "2s"})["relays"][0]["pulls"], 1);
  EXPECT_EQ(report_of({"run", kBench, "--for", "2s", "--do", "1.2s key.close", "--do",
                       "1500ms key.open"})["relays"][0]["pulls"],
            2);
  const ordered_json weak = report_of({"run", kBench, "--for", "2s", "--set", "supply.emf=12 V"});
  EXPECT_EQ(weak["relays"][0]["pulls"], 0);
  EXPECT_EQ(weak["relays"][0]["held"], 1);
  EXPECT_EQ(weak["warnings"].size(), 1U);
}

TEST_F(ProgramTest, TextReportNamesSceneSpanAndSeed) {
  const Ended ended = run_program_with({"run", kBench, "--for", "1d"});
  EXPECT_EQ(ended.code, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_THAT(ended.out,
              testing::StartsWith("A relay on the bench\nScene bench, seed 1: 1d simulated,\n"
                                  "Mon 2026-01-05 00:00:00 to Tue 2026-01-06 00:00:00\n"));
  EXPECT_THAT(ended.out, HasSubstr("\nRelays\n  relay: "));
  EXPECT_THAT(ended.out, testing::ContainsRegex("\n[0-9,]+ events in [0-9.]+ s of computing\n$"));
}

TEST_F(ProgramTest, AllMistakesOfTheCommandLineAreShownInOneGo) {
  const Ended ended =
      run_program_with({"run", kBench, "--for", "5x", "--seed", "-1", "--sample", "0s", "--set",
                        "supply.emff=3 V", "--trace", "t.txt", "--signals", "suply.volts"});
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.out, "");
  for (const char* said : {"--for", "--seed", "--sample", "did you mean \"emf\"?", "FILE.vcd"}) {
    EXPECT_THAT(ended.err, HasSubstr(said));
  }
}

TEST_F(ProgramTest, BadInputIsRefusedWithTwo) {
  const std::vector<std::vector<std::string>> bad = {
      {},
      {"rnu", kBench},
      {"run"},
      {"run", path("none.yaml")},
      {"run", folder()},
      {"run", kBench, "--for", "-1s"},
      {"run", kBench, "--for", "300y"},
      {"run", kBench, "--until", "Mun 10:00"},
      {"run", kBench, "--seed", "1e3"},
      {"run", kBench, "--seed", "18446744073709551616"},
      {"run", kBench, "--do", "1s key.klose"},
      {"run", kBench, "--signals", "relay.gap"},
      {"run", kBench, "--trace", path("t.csv"), "--sample", "1ms"},
      {"run", kBench, "--trace", path("t.csv"), "--signals", "relay.gap", "--sample", "0.1ns"},
      {"run", kBench, "--trace", path("t.csv"), "--signals", "relay.gup"},
      {"events", kBench, "--kind", "maks", "--to", "2s"},
      {"events", kBench, "--part", "rely"},
      {"events", kBench, "--from", "2s", "--to", "1s"},
      {"check", kBench, path("none.yaml")},
      {"parts", "rely"},
  };
  for (const auto& words : bad) {
    const Ended ended = run_program_with(words);
    EXPECT_EQ(ended.code, 2) << testing::PrintToString(words) << ended.err;
    EXPECT_NE(ended.err, "") << testing::PrintToString(words);
  }
  EXPECT_EQ(files(), 0U);
}

TEST_F(ProgramTest, MistakesOfASceneBearTheirPlace) {
  put("bad.yaml", "scene: Bad\nstart: 2026-01-05T00:00:00\nparts:\n  a: {typ: supply}\n");
  for (const char* command : {"run", "check", "events"}) {
    const Ended ended = run_program_with({command, path("bad.yaml")});
    EXPECT_EQ(ended.code, 2);
    EXPECT_THAT(ended.err, HasSubstr(path("bad.yaml") + ":4:"));
    EXPECT_EQ(ended.out, "");
  }
}

TEST_F(ProgramTest, CheckGoesThroughAllFiles) {
  const Ended ended = run_program_with({"check", path("none.yaml"), kBench, kMinimal});
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.out, kBench + ": ok\n" + kMinimal + ": ok\n");
  EXPECT_EQ(run_program_with({"check", kBench}).code, 0);
  EXPECT_EQ(run_program_with({"check", SIXTY_SOURCE_DIR "/scenes/tours/overview.yaml"}).code, 0);
}

TEST_F(ProgramTest, AFullDiskIsReportedWithThree) {
  Child child;
  child.words = {"run", kBench, "--for", "2s"};
  child.output = "/dev/full";
  const Ended ended = child.run();
  EXPECT_EQ(ended.code, 3);
  EXPECT_THAT(ended.err, HasSubstr("cannot write to standard output"));
}

TEST_F(ProgramTest, ATraceThatCannotBeWrittenIsReportedWithThreeAndLeavesNothing) {
  for (const char* name : {"t.csv", "t.jsonl", "t.vcd"}) {
    Child child;
    child.words = {"run",      kBench,      "--for",   "2s",       "--trace",
                   path(name), "--signals", "relay.*", "--sample", "100us"};
    child.largest_file = 50'000;
    const Ended ended = child.run();
    EXPECT_EQ(ended.code, 3) << ended.err;
    EXPECT_NE(ended.err, "");
    EXPECT_EQ(ended.out, "");
    EXPECT_EQ(files(), 0U) << name;
  }
  const Ended nowhere = run_program_with({"run", kBench, "--trace", path("none/t.csv")});
  EXPECT_EQ(nowhere.code, 3);
  EXPECT_THAT(nowhere.err, HasSubstr("none/t.csv"));
}

TEST_F(ProgramTest, ARunWhoseTraceCannotBeWrittenEndsSoon) {
  Child child;
  child.words = {"run", kMinimal, "--for", "100000d", "--trace", path("t.csv")};
  child.largest_file = 50'000;
  EXPECT_EQ(child.run().code, 3);
  EXPECT_EQ(files(), 0U);
}

TEST_F(ProgramTest, InterruptedItReportsWhatWasRun) {
  Child child;
  child.words = {"run", kMinimal, "--for", "100000d", "--json", "--trace", path("t.csv")};
  child.interrupt_at_file = folder();
  const Ended ended = child.run();
  EXPECT_EQ(ended.code, 130) << ended.err;
  const ordered_json report = ordered_json::parse(ended.out);
  EXPECT_LT(report["simulated_s"], 100000 * 86400.0);
  ASSERT_FALSE(report["warnings"].empty());
  EXPECT_THAT(report["warnings"].back(), HasSubstr("interrupted"));
  EXPECT_THAT(get("t.csv"), testing::EndsWith("\n"));
  EXPECT_EQ(files(), 1U);
}

TEST_F(ProgramTest, EventsBearAddressMeasurementAndCause) {
  const Ended ended = run_program_with({"events", kBench, "--to", "2s", "--part", "relay"});
  EXPECT_EQ(ended.code, 0) << ended.err;
  EXPECT_THAT(ended.out,
              testing::ContainsRegex(
                  "(^|\n)starts relay @ Mon 00:00:00\\.10[0-9]+ +0\\.1[0-9]+ A, [0-9.]+ V"
                  ", gap 2 mm  <- close key @ Mon 00:00:00\\.1\n"));
  EXPECT_THAT(ended.out, testing::ContainsRegex("\nseats relay @ [^\n]+ <- starts relay @ Mon"));
  EXPECT_THAT(ended.out, HasSubstr("\nreturns relay @ "));
}

// An address can be given back as a time: the same event, and only it, comes out again.
TEST_F(ProgramTest, AnAddressLeadsBackToItsEvent) {
  const ordered_json listed = ordered_json::parse(
      run_program_with({"events", kBench, "--to", "2s", "--json", "--kind", "seats"}).out);
  EXPECT_EQ(listed["format"], "sixtybeats-events/1");
  const std::string address = listed["events"][0]["address"];
  const std::string time = address.substr(address.find(" @ ") + 3);
  const ordered_json again = ordered_json::parse(
      run_program_with({"events", kBench, "--from", time, "--to", time, "--json"}).out);
  ASSERT_EQ(again["events"].size(), 1U);
  EXPECT_EQ(again["events"][0], listed["events"][0]);
}

TEST_F(ProgramTest, FullEventsTellWhatHeldThemBack) {
  const Ended ended = run_program_with(
      {"events", kBench, "--to", "2s", "--set", "supply.emf=12 V", "--full", "--kind", "held"});
  EXPECT_EQ(ended.code, 0);
  EXPECT_THAT(ended.out, HasSubstr("did not act"));
  EXPECT_THAT(ended.out, HasSubstr("NOT MET"));
}

TEST_F(ProgramTest, ThatNothingHappenedIsNoMistake) {
  const Ended text = run_program_with({"events", kBench, "--to", "2s", "--kind", "held"});
  EXPECT_EQ(text.code, 0);
  EXPECT_EQ(text.err, "no such events\n");
  const Ended json = run_program_with({"events", kBench, "--to", "50ms", "--json"});
  EXPECT_EQ(ordered_json::parse(json.out)["events"], ordered_json::array());
}

TEST_F(ProgramTest, PartsAreDescribedWithTheirSheets) {
  const Ended list = run_program_with({"parts"});
  EXPECT_THAT(list.out, HasSubstr("\nrelay "));
  const ordered_json all = ordered_json::parse(run_program_with({"parts", "--json"}).out);
  EXPECT_EQ(all["format"], "sixtybeats-parts/1");
  for (const ordered_json& part : all["parts"]) {
    const std::string name = part["name"];
    const Ended one = run_program_with({"parts", name});
    EXPECT_EQ(one.code, 0);
    for (const ordered_json& value : part["values"]) {
      EXPECT_THAT(one.out, HasSubstr("\n  " + value["name"].get<std::string>() + "\n")) << name;
    }
    for (const ordered_json& sheet : part["sheets"]) {
      EXPECT_THAT(one.out, HasSubstr("  " + sheet["name"].get<std::string>() + ": ")) << name;
      for (const auto& value : sheet["values"].items()) {
        EXPECT_TRUE(value.value()["source"].is_string()) << name << " " << value.key();
      }
    }
  }
}

TEST_F(ProgramTest, SchemaIsJson) {
  const Ended ended = run_program_with({"schema"});
  EXPECT_EQ(ended.code, 0);
  EXPECT_TRUE(ordered_json::parse(ended.out).contains("$schema"));
}

}  // namespace
}  // namespace sixty::cli
