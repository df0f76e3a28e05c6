// Traces that the built program writes.
#include <gmock/gmock.h>

#include <iomanip>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"
#include "tests/cli/vcd_file.hpp"

namespace sixty::cli {
namespace {

using nlohmann::ordered_json;
using testing::HasSubstr;

const std::string kBench = SIXTY_SOURCE_DIR "/tests/cli/scenes/bench.yaml";
constexpr std::size_t kColumns = 13;

class TraceTest : public FolderTest {
 protected:
  // Runs with a trace; returns the trace.
  std::string trace(const std::string& name, std::vector<std::string> words) {
    words.insert(words.begin(), "run");
    words.insert(words.end(), {"--trace", path(name), "--json"});
    last = run_program_with(std::move(words));
    EXPECT_EQ(last.code, 0) << last.err;
    return get(name);
  }
  Ended last;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  EXPECT_FALSE(lines.empty());
  if (lines.empty()) lines.emplace_back();
  return lines;
}

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  for (const char c : line) {
    if (c == ',') {
      fields.emplace_back();
    } else {
      fields.back() += c;
    }
  }
  return fields;
}

// The columns of events alone, of the lines that are events.
std::vector<std::string> events_of(const std::string& csv) {
  std::vector<std::string> events;
  for (const std::string& line : lines_of(csv)) {
    std::vector<std::string> fields = fields_of(line);
    fields.resize(kColumns);
    if (fields[1].empty()) continue;
    std::string event;
    for (const std::string& field : fields) event += field + ",";
    events.push_back(event);
  }
  return events;
}

TEST_F(TraceTest, CsvLinesHaveAllColumnsAndGoForward) {
  const auto lines = lines_of(trace("t.csv", {kMinimal, "--for", "5m", "--signals", "supply.*"}));
  const std::vector<std::string> head = fields_of(lines[0]);
  EXPECT_EQ(head[0], "time_s");
  EXPECT_EQ(head[kColumns], "supply.volts (V)");
  ASSERT_GT(lines.size(), 400U);
  std::string before = "0.000000000";
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const std::vector<std::string> fields = fields_of(lines[i]);
    ASSERT_EQ(fields.size(), head.size()) << lines[i];
    ASSERT_EQ(fields[0].size() - fields[0].find('.'), 10U) << lines[i];
    ASSERT_GE(std::make_pair(fields[0].size(), fields[0]), std::make_pair(before.size(), before));
    before = fields[0];
  }
}

TEST_F(TraceTest, EveryCauseIsAnEarlierEvent) {
  std::set<std::string> known = {"0"};
  const auto lines = lines_of(trace("t.csv", {kMinimal, "--for", "3m"}));
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const std::vector<std::string> fields = fields_of(lines[i]);
    EXPECT_EQ(known.count(fields[2]), 1U) << lines[i];
    EXPECT_TRUE(known.insert(fields[1]).second) << lines[i];
  }
}

TEST_F(TraceTest, TwoRunsGiveTheSameBytes) {
  for (const char* ending : {".csv", ".jsonl", ".vcd"}) {
    const std::vector<std::string> words = {kMinimal, "--for", "3m", "--signals", "movement.*"};
    EXPECT_EQ(trace(std::string("a") + ending, words), trace(std::string("b") + ending, words));
  }
}

TEST_F(TraceTest, SamplingAndSignalsChangeNoEvent) {
  const std::string plain = trace("a.csv", {kMinimal, "--for", "2m"});
  const std::string plain_report = last.out;
  const std::string sampled = trace(
      "b.csv", {kMinimal, "--for", "2m", "--signals", "supply.*,movement.*", "--sample", "7ms"});
  EXPECT_EQ(events_of(plain), events_of(sampled));
  ordered_json a = ordered_json::parse(plain_report);
  ordered_json b = ordered_json::parse(last.out);
  a.erase("wall_s");
  b.erase("wall_s");
  EXPECT_EQ(a.dump(), b.dump());
}

TEST_F(TraceTest, TracingChangesNothingThatIsReported) {
  for (const char* ending : {".csv", ".jsonl", ".vcd"}) {
    const std::vector<std::string> words = {kMinimal, "--until", "Mon 08:10:31.7"};
    ordered_json with = ordered_json::parse((trace(std::string("t") + ending, words), last.out));
    ordered_json without = ordered_json::parse(
        run_program_with({"run", kMinimal, "--until", "Mon 08:10:31.7", "--json"}).out);
    for (ordered_json* report : {&with, &without}) report->erase("wall_s");
    EXPECT_EQ(with.dump(1), without.dump(1)) << ending;
  }
}

// Events listed without a full trace are in the trace, under the same id and with the same cause.
TEST_F(TraceTest, AnIdIsTheSameWhetherOrNotATraceIsKept) {
  const ordered_json listed = ordered_json::parse(
      run_program_with({"events", kMinimal, "--to", "Mon 02:00", "--json"}).out);
  std::map<std::string, std::string> traced;
  for (const std::string& line : lines_of(trace("t.csv", {kMinimal, "--for", "2h"}))) {
    const std::vector<std::string> fields = fields_of(line);
    traced[fields[1]] = fields[0] + " " + fields[2] + " " + fields[3] + " " + fields[4];
  }
  ASSERT_GT(listed["events"].size(), 4000U);
  for (const ordered_json& event : listed["events"]) {
    const std::string id = event["event"];
    std::ostringstream found;
    found << std::fixed << std::setprecision(9) << event["time_s"].get<double>() << " "
          << event["cause"].get<std::string>() << " " << event["part"].get<std::string>() << " "
          << event["kind"].get<std::string>();
    ASSERT_EQ(found.str(), traced[id]) << id;
  }
}

TEST_F(TraceTest, SamplesStandAtEveryMultipleOfTheInterval) {
  const auto lines = lines_of(
      trace("t.csv", {kBench, "--for", "1s", "--signals", "relay.current", "--sample", "300ms"}));
  std::vector<std::string> times;
  for (const std::string& line : lines) {
    const std::vector<std::string> fields = fields_of(line);
    if (fields[1].empty()) times.push_back(fields[0]);
  }
  EXPECT_THAT(times,
              testing::ElementsAre("0.000000000", "0.300000000", "0.600000000", "0.900000000"));
  const auto exact = lines_of(
      trace("u.csv", {kBench, "--for", "1s", "--signals", "relay.current", "--sample", "500ms"}));
  EXPECT_EQ(fields_of(exact.back())[0], "1.000000000");
  EXPECT_EQ(fields_of(exact.back())[1], "");
}

TEST_F(TraceTest, AnEventsSignalsAreThoseOfASampleAtThatInstant) {
  const auto lines = lines_of(
      trace("t.csv", {kBench, "--for", "1s", "--signals", "relay.*,key.*", "--sample", "100ms"}));
  std::string event;
  std::string sample;
  for (const std::string& line : lines) {
    if (line.rfind("1.000000000,", 0) != 0) continue;
    std::vector<std::string> fields = fields_of(line);
    const bool is_event = !fields[1].empty();
    fields.erase(fields.begin(), fields.begin() + kColumns);
    (is_event ? event : sample) = testing::PrintToString(fields);
  }
  EXPECT_NE(event, "");
  EXPECT_EQ(event, sample);
}

TEST_F(TraceTest, JsonlHoldsWhatCsvHolds) {
  const auto csv = lines_of(trace("t.csv", {kMinimal, "--for", "2m"}));
  const auto jsonl = lines_of(trace("t.jsonl", {kMinimal, "--for", "2m"}));
  ASSERT_EQ(csv.size(), jsonl.size());
  const std::vector<std::string> head = fields_of(csv[0]);
  for (std::size_t i = 1; i < csv.size(); ++i) {
    const std::vector<std::string> fields = fields_of(csv[i]);
    const ordered_json object = ordered_json::parse(jsonl[i]);
    ASSERT_THAT(jsonl[i], HasSubstr("\"time_s\":" + fields[0] + ","));
    EXPECT_EQ(object["event"], fields[1]);
    EXPECT_EQ(object["part"], fields[3]);
    EXPECT_EQ(object["acted"].get<bool>(), fields[5] == "1");
    for (std::size_t k = 6; k < kColumns; ++k) {
      EXPECT_EQ(object.contains(head[k]), !fields[k].empty()) << jsonl[i];
    }
  }
}

TEST_F(TraceTest, JsonlGivesTheConditionsOfAFailure) {
  const auto lines =
      lines_of(trace("t.jsonl", {kBench, "--for", "2s", "--set", "supply.emf=12 V"}));
  bool found = false;
  for (const std::string& line : lines) {
    const ordered_json object = ordered_json::parse(line);
    if (object.value("kind", "") != "held") continue;
    found = true;
    EXPECT_EQ(object["acted"], false);
    EXPECT_LT(object["volts"], object["needed_v"]);
    EXPECT_FALSE(object["conditions"].empty());
  }
  EXPECT_TRUE(found);
}

// FMT-19 to FMT-24 (published): read by a strict reader; then held against the CSV trace.
TEST_F(TraceTest, VcdIsValidAndAgreesWithCsv) {
  const std::vector<std::string> words = {kBench, "--for", "2s", "--signals",
                                          "relay.current,relay.closed"};
  std::string error;
  const VcdFile vcd = read_vcd(trace("t.vcd", words), error);
  ASSERT_EQ(error, "");
  EXPECT_EQ(vcd.last_time, 2'000'000'000);
  const auto csv = lines_of(trace("t.csv", words));
  std::vector<std::pair<std::int64_t, std::string>> closed = {{0, "0"}};
  for (std::size_t i = 1; i < csv.size(); ++i) {
    const std::vector<std::string> fields = fields_of(csv[i]);
    const std::int64_t at = std::llround(std::stod(fields[0]) * 1e9);
    if (closed.back().second != fields.back()) closed.emplace_back(at, fields.back());
    EXPECT_FALSE(vcd.of("bench." + fields[3] + "." + fields[4]).empty()) << csv[i];
  }
  const auto changes = vcd.of("bench.relay.closed");
  ASSERT_EQ(changes.size(), closed.size());
  EXPECT_GE(closed.size(), 3U);  // open, made, broken
  for (std::size_t i = 0; i < closed.size(); ++i) {
    EXPECT_EQ(changes[i].at, closed[i].first);
    EXPECT_EQ(changes[i].value, closed[i].second);
  }
}

TEST_F(TraceTest, VcdOfAWholeInstallationIsValid) {
  std::string error;
  const VcdFile vcd =
      read_vcd(trace("t.vcd", {kMinimal, "--for", "9m59.5s", "--signals",
                               "supply.*,movement.*,minute_relay.*", "--sample", "1s"}),
               error);
  ASSERT_EQ(error, "");
  EXPECT_NEAR(static_cast<double>(vcd.of("bench_minimal.movement.beat").size()), 600, 1);
}

// With its unit where it has one: not a yes or no, and not a plain number.
TEST_F(TraceTest, ASignalTellsItsUnit) {
  const std::vector<std::string> words = {kBench, "--for", "1ms", "--signals",
                                          "relay.current,relay.speed,relay.closed,relay.pulls"};
  const std::vector<std::string> head = fields_of(lines_of(trace("t.csv", words))[0]);
  EXPECT_EQ(std::vector<std::string>(head.begin() + kColumns, head.end()),
            (std::vector<std::string>{"relay.current (A)", "relay.speed (m/s)", "relay.closed",
                                      "relay.pulls"}));
  const ordered_json first = ordered_json::parse(lines_of(trace("t.jsonl", words))[0]);
  EXPECT_EQ(first["units"].dump(), R"({"relay.current":"A","relay.speed":"m/s"})");
  const std::string vcd = trace("t.vcd", words);
  EXPECT_THAT(vcd, HasSubstr("$comment relay.current in A $end\n"));
  EXPECT_THAT(vcd, HasSubstr("$comment relay.speed in m/s $end\n"));
}

TEST_F(TraceTest, IsWrittenToWhereALinkPoints) {
  std::filesystem::create_symlink("target.csv", path("t.csv"));
  EXPECT_THAT(trace("t.csv", {kBench, "--for", "1ms"}), testing::StartsWith("time_s,"));
  EXPECT_TRUE(std::filesystem::is_symlink(path("t.csv")));
  EXPECT_TRUE(std::filesystem::is_regular_file(path("target.csv")));
}

TEST_F(TraceTest, AnOlderFileOfThatNameIsReplacedWhole) {
  put("t.csv", std::string(1'000'000, 'x'));
  EXPECT_THAT(trace("t.csv", {kBench, "--for", "1ms"}), testing::StartsWith("time_s,"));
  EXPECT_EQ(files(), 1U);
}

}  // namespace
}  // namespace sixty::cli
