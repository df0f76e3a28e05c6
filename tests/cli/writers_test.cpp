#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "sim/cli/record_text.hpp"
#include "tests/cli/fake_run.hpp"
#include "tests/cli/folder.hpp"
#include "tests/cli/vcd_file.hpp"

namespace sixty::cli {
namespace {

const std::string kHead =
    "time_s,event,cause,part,kind,acted,current_a,volts,gap_m,speed_m_per_s,needed_v,value,number";

class WriterTest : public FolderTest {
 protected:
  std::unique_ptr<TraceWriter> begin(const std::string& name,
                                     const std::vector<std::string>& signals = {}) {
    auto writer = make_trace_writer(path(name), run.job(signals));
    std::string error;
    EXPECT_TRUE(writer->open(path(name), error)) << error;
    return writer;
  }
  std::string end(TraceWriter& writer, const std::string& name, SimTime at) {
    std::string error;
    EXPECT_TRUE(writer.finish(at, error)) << error;
    return get(name);
  }
  FakeRun run;
};

TraceRecord failed_pull(const circuit::Located& located) {
  TraceRecord record = FakeRun::event(5'072'000'001, 12, 3, 0, "held");
  record.acted = false;
  record.located = &located;
  return record;
}

circuit::Located failed_pull_located() {
  circuit::Located located;
  located.what = circuit::What::kHeld;
  located.current_a = 0.0625;
  located.volts = 9.1;
  located.gap_m = 0.002;
  located.needed_v = 14.9;
  return located;
}

TEST(SecondsTextTest, HasNineDecimalsAtAnyDistance) {
  EXPECT_EQ(seconds_text(0), "0.000000000");
  EXPECT_EQ(seconds_text(1), "0.000000001");
  EXPECT_EQ(seconds_text(kNever - 1), "9223372036.854775806");
}

TEST(EventIdTextTest, TellsWhatOnlyAFullTraceHas) {
  EXPECT_EQ(event_id_text(17), "17");
  EXPECT_EQ(event_id_text(trace_only({17, false, 2})), "t17.2");
  EXPECT_EQ(event_id_text(trace_only({17, true, 3})), "t17+3");
}

TEST_F(WriterTest, CsvHasOneLineForAnEvent) {
  auto writer = begin("t.csv");
  writer->record(FakeRun::event(kSecond, 1, 0, 1, "lit"));
  const circuit::Located located = failed_pull_located();
  writer->record(failed_pull(located));
  EXPECT_EQ(end(*writer, "t.csv", kMinute),
            kHead +
                "\n1.000000000,1,0,other,lit,1,,,,,,0,0\n"
                "5.072000001,12,3,lamp,held,0,0.0625,9.1,0.002,0,14.9,,\n");
}

TEST_F(WriterTest, CsvGivesTheEnergyOfASparkAndNoVolts) {
  auto writer = begin("t.csv");
  circuit::Located located;
  located.what = circuit::What::kSparkEnds;
  located.volts = 0.25;
  TraceRecord record = FakeRun::event(0, 1, 0, 0, "spark_ends");
  record.located = &located;
  writer->record(record);
  EXPECT_EQ(end(*writer, "t.csv", 0), kHead + "\n0.000000000,1,0,lamp,spark_ends,1,,,,,,0.25,\n");
}

TEST_F(WriterTest, CsvGivesTheCodeOfAPassedMark) {
  auto writer = begin("t.csv");
  circuit::Located located;
  located.what = circuit::What::kPasses;
  located.code = 3;
  TraceRecord record = FakeRun::event(0, 1, 0, 0, "gathers");
  record.located = &located;
  writer->record(record);
  EXPECT_EQ(end(*writer, "t.csv", 0), kHead + "\n0.000000000,1,0,lamp,gathers,1,0,0,0,0,,,3\n");
}

TEST_F(WriterTest, SignalsBesideAnEventAreThoseOfTheSettledInstant) {
  auto writer = begin("t.csv", {"lamp.volts,lamp.lit"});
  run.now = {{"lamp.volts", 0}, {"lamp.lit", 0}};
  writer->record(FakeRun::event(kSecond, 1, 0, 0, "lit"));
  writer->record(FakeRun::event(kSecond, 2, 1, 1, "lit"));
  run.now = {{"lamp.volts", 24}, {"lamp.lit", 1}};
  writer->settled(kSecond);
  writer->sample(2 * kSecond);
  EXPECT_EQ(end(*writer, "t.csv", kMinute), kHead +
                                                ",lamp.volts (V),lamp.lit\n"
                                                "1.000000000,1,0,lamp,lit,1,,,,,,0,0,24,1\n"
                                                "1.000000000,2,1,other,lit,1,,,,,,0,0,24,1\n"
                                                "2.000000000,,,,,,,,,,,,,24,1\n");
}

TEST_F(WriterTest, CsvLeavesOutWhatIsNoNumber) {
  auto writer = begin("t.csv", {"lamp.volts"});
  run.now["lamp.volts"] = std::numeric_limits<double>::quiet_NaN();
  writer->sample(0);
  EXPECT_EQ(end(*writer, "t.csv", 0), kHead + ",lamp.volts (V)\n0.000000000,,,,,,,,,,,,,\n");
}

TEST_F(WriterTest, CsvQuotesByRfc4180) {
  auto writer = begin("t.csv");
  writer->record(FakeRun::event(0, 1, 0, 0, "a,\"b\""));
  EXPECT_EQ(end(*writer, "t.csv", 0),
            kHead + "\n0.000000000,1,0,lamp,\"a,\"\"b\"\"\",1,,,,,,0,0\n");
}

TEST_F(WriterTest, EveryJsonlLineIsOneObject) {
  auto writer = begin("t.jsonl", {"lamp.volts"});
  run.now["lamp.volts"] = std::numeric_limits<double>::infinity();
  const circuit::Located located = failed_pull_located();
  TraceRecord record = failed_pull(located);
  const std::vector<Condition> conditions = {{"volts at the \"magnet\"", 9.1, 14.9, false}};
  record.conditions = conditions;
  writer->record(record);
  writer->settled(record.event.at);
  writer->sample(6 * kSecond);
  std::istringstream lines(end(*writer, "t.jsonl", kMinute));
  std::vector<nlohmann::json> objects;
  for (std::string line; std::getline(lines, line);) objects.push_back(nlohmann::json::parse(line));
  ASSERT_EQ(objects.size(), 3U);
  EXPECT_EQ(objects[0]["format"], "sixtybeats-trace/1");
  EXPECT_EQ(objects[0]["scene"], "two-lamps");
  EXPECT_EQ(objects[0]["seed"], 7);
  EXPECT_EQ(objects[1]["event"], "12");
  EXPECT_EQ(objects[1]["acted"], false);
  EXPECT_EQ(objects[1]["needed_v"], 14.9);
  EXPECT_FALSE(objects[1].contains("number"));
  EXPECT_EQ(objects[1]["conditions"][0]["what"], "volts at the \"magnet\"");
  EXPECT_EQ(objects[1]["conditions"][0]["met"], false);
  EXPECT_EQ(objects[1]["signals"]["lamp.volts"], nullptr);
  EXPECT_EQ(objects[2].size(), 2U);
  EXPECT_EQ(objects[2]["time_s"], 6.0);
}

// FMT-19 to FMT-24 (published): the reader in vcd_file.cpp accepts nothing else.
TEST_F(WriterTest, VcdIsReadByAStrictReader) {
  auto writer = begin("t.vcd", {"lamp.volts,lamp.lit,other.blinks"});
  run.now = {{"lamp.volts", 0.5}, {"lamp.lit", 0}, {"other.blinks", 0}};
  writer->settled(0);
  writer->record(FakeRun::event(1001, 1, 0, 0, "lit"));
  TraceRecord failed = FakeRun::event(1001, 2, 1, 0, "lit");
  failed.acted = false;
  writer->record(failed);
  run.now = {{"lamp.volts", 24}, {"lamp.lit", 1}, {"other.blinks", 0}};
  writer->settled(1001);
  writer->sample(2000);
  std::string error;
  const VcdFile vcd = read_vcd(end(*writer, "t.vcd", 5000), error);
  ASSERT_EQ(error, "");
  EXPECT_EQ(vcd.timescale, "1 ns");
  EXPECT_EQ(vcd.last_time, 5000);
  std::map<std::string, std::string> types;
  for (const VcdFile::Variable& v : vcd.variables) types[v.name] = v.type;
  const std::map<std::string, std::string> expected = {{"two_lamps.lamp.volts", "real"},
                                                       {"two_lamps.lamp.lit", "wire"},
                                                       {"two_lamps.lamp.lit_event", "event"},
                                                       {"two_lamps.lamp.lit_failed", "event"},
                                                       {"two_lamps.other.blinks", "real"}};
  EXPECT_EQ(types, expected);
}

TEST_F(WriterTest, VcdShowsEachChangeOnce) {
  auto writer = begin("t.vcd", {"lamp.volts,lamp.lit"});
  run.now = {{"lamp.volts", 0.5}, {"lamp.lit", 0}};
  writer->settled(0);
  writer->sample(500);
  run.now["lamp.volts"] = 24;
  writer->settled(1001);
  run.now["lamp.volts"] = std::numeric_limits<double>::quiet_NaN();
  writer->sample(2000);
  std::string error;
  const VcdFile vcd = read_vcd(end(*writer, "t.vcd", 5000), error);
  ASSERT_EQ(error, "");
  const auto volts = vcd.of("two_lamps.lamp.volts");
  ASSERT_EQ(volts.size(), 2U);
  EXPECT_EQ(volts[0].value, "0.5");
  EXPECT_EQ(volts[1].at, 1001);
  EXPECT_EQ(volts[1].value, "24");
  EXPECT_EQ(vcd.of("two_lamps.lamp.lit").size(), 1U);
}

TEST_F(WriterTest, VcdCodesAreAllDifferentBeyondOneAndTwoCharacters) {
  auto writer = begin("t.vcd");
  writer->settled(0);
  constexpr int kKinds = 94 + 94 * 94 + 10;
  for (int k = 0; k < kKinds; ++k) {
    writer->record(FakeRun::event(k, 1, 0, 0, "k" + std::to_string(k)));
  }
  std::string error;
  const VcdFile vcd = read_vcd(end(*writer, "t.vcd", kKinds), error);
  ASSERT_EQ(error, "");
  ASSERT_EQ(vcd.variables.size(), static_cast<std::size_t>(kKinds));
  for (int k = 0; k < kKinds; k += 97) {
    const auto changes = vcd.of("two_lamps.lamp.k" + std::to_string(k));
    ASSERT_EQ(changes.size(), 1U) << k;
    EXPECT_EQ(changes[0].at, k);
  }
}

// The shape of the small example of FMT-26 (published), with names of our own.
TEST(VcdReaderTest, ReadsVectorsScalarsAndRepeatedTimesOnly) {
  const std::string head =
      "$timescale 1 ps $end $scope module top $end $var wire 8 # data $end "
      "$var wire 1 $ data_valid $end $var wire 1 ' tx_en $end $upscope $end $enddefinitions $end "
      "#0 $dumpvars bxxxxxxxx # x$ 0' $end ";
  std::string error;
  const VcdFile vcd = read_vcd(head + "#2211 0' #2296 b0 # 1$ #2302 0$ #2303", error);
  EXPECT_EQ(error, "");
  EXPECT_EQ(vcd.of("top.data_valid").size(), 3U);
  EXPECT_EQ(vcd.of("top.data").back().value, "0");
  EXPECT_EQ(vcd.last_time, 2303);
  for (const char* bad : {"#5 1%", "#5 r1 $", "#5 #4", "#5 2$", "$var wire 1 ! x $end", "$end"}) {
    read_vcd(head + bad, error);
    EXPECT_NE(error, "") << bad;
  }
}

TEST_F(WriterTest, AFileThatCannotBeMadeIsRefused) {
  for (const char* ending : {".csv", ".jsonl", ".vcd"}) {
    auto writer = make_trace_writer(std::string("t") + ending, run.job({}));
    std::string error;
    EXPECT_FALSE(writer->open(path("none/t") + ending, error));
    EXPECT_NE(error.find("none/t"), std::string::npos) << error;
  }
}

TEST(TraceNameTest, TheEndingTellsTheForm) {
  EXPECT_TRUE(has_trace_ending("a.csv"));
  EXPECT_TRUE(has_trace_ending("b/.x.vcd"));
  EXPECT_FALSE(has_trace_ending("csv"));
  EXPECT_FALSE(has_trace_ending(".csv"));
  EXPECT_FALSE(has_trace_ending("a.csv.gz"));
  EXPECT_EQ(make_trace_writer("a.txt", {}), nullptr);
}

TEST(SignalsTest, AreFoundInOrderAndOnceEach) {
  FakeRun run;
  Diagnostics mistakes;
  const auto signals =
      find_signals({"other.lit, lamp.*", "lamp.volts"}, *run.installation(), mistakes);
  ASSERT_EQ(signals.size(), 4U);
  EXPECT_EQ(signals[0].name, "other.lit");
  EXPECT_TRUE(signals[0].is_flag());
  EXPECT_EQ(signals[1].name, "lamp.volts");
  EXPECT_EQ(signals[3].name, "lamp.blinks");
  EXPECT_TRUE(mistakes.empty());
}

TEST(SignalsTest, EveryUnknownNameIsRefused) {
  FakeRun run;
  Diagnostics mistakes;
  find_signals({"lmap.volts,lamp.vlots,lamp,,lamp.", ""}, *run.installation(), mistakes);
  EXPECT_EQ(mistakes.list().size(), 6U);
  EXPECT_NE(mistakes.to_text().find("did you mean \"lamp\"?"), std::string::npos);
  EXPECT_NE(mistakes.to_text().find("did you mean \"volts\"?"), std::string::npos);
}

}  // namespace
}  // namespace sixty::cli
