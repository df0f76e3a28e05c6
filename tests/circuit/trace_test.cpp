// The five reference cases as scenes of parts, through the program itself: `run --trace` with
// sampled signals. Agreement: 0.5 % of the case's largest in current and voltage, 1 % in time, 0.1
// % in energy, as the cases suggest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>

#include "tests/circuit/table.hpp"

namespace sixty::circuit {
namespace {

constexpr double kOfLargest = 0.005;
constexpr double kOfTime = 0.01;
constexpr double kOfEnergy = 0.001;

/// Runs a case and returns its trace.
Table trace_of(int number, const std::string& duration, const std::string& signals) {
  const std::string scene =
      SIXTY_SOURCE_DIR "/tests/circuit/case_" + std::to_string(number) + ".yaml";
  std::string test = testing::UnitTest::GetInstance()->current_test_info()->name();
  std::replace(test.begin(), test.end(), '/', '_');
  const std::string file =
      testing::TempDir() + "case_" + std::to_string(number) + "_" + test + ".csv";
  const std::string command = SIXTY_PROGRAM " run " + scene + " --for " + duration + " --trace " +
                              file + " --sample 50us --signals \"" + signals + "\" > /dev/null";
  EXPECT_EQ(std::system(command.c_str()), 0) << command;
  Table table = Table::read_file(file);
  std::remove(file.c_str());
  return table;
}

class Trace {
 public:
  explicit Trace(Table table) : table_(std::move(table)) {
    for (std::size_t row = 0; row < table_.rows(); ++row) {
      times_.push_back(*table_.number(row, "time_s"));
    }
  }

  /// The last line at a time, or the last one before it.
  std::size_t row_at(double t_s, bool before) const {
    const double limit = before ? t_s - 1e-10 : t_s + 1e-10;
    const auto next = std::upper_bound(times_.begin(), times_.end(), limit);
    return static_cast<std::size_t>(next - times_.begin()) - 1;
  }

  double value(std::size_t row, const std::string& signal) const {
    return table_.number(row, signal).value();
  }

  /// Straight line between the lines around a time.
  double value_at(double t_s, const std::string& signal) const {
    const std::size_t row = row_at(t_s, false);
    if (row + 1 >= times_.size()) return value(row, signal);
    const double share = (t_s - times_[row]) / (times_[row + 1] - times_[row]);
    return value(row, signal) + share * (value(row + 1, signal) - value(row, signal));
  }

  /// Lines that are events of a part, of one kind.
  std::vector<std::size_t> events(const std::string& part, const std::string& kind) const {
    std::vector<std::size_t> rows;
    for (std::size_t row = 0; row < table_.rows(); ++row) {
      if (table_.text(row, "part") == part && table_.text(row, "kind") == kind) rows.push_back(row);
    }
    return rows;
  }

  /// Where a signal turns, nearest to a time: top of a parabola through three samples.
  double turn_near(double t_s, const std::string& signal) const {
    double best = 1e9;
    for (double at = t_s - 0.004; at < t_s + 0.004; at += kSample) {
      const std::size_t row = row_at(std::round(at / kSample) * kSample, false);
      const double t = times_[row];
      const double a = value(row_at(t - kSample, false), signal);
      const double b = value(row, signal);
      const double c = value(row_at(t + kSample, false), signal);
      if ((b - a) * (c - b) > 0) continue;
      const double bend = a - 2 * b + c;
      const double top = t + (bend == 0 ? 0 : kSample * (a - c) / (2 * bend));
      if (std::fabs(top - t_s) < std::fabs(best - t_s)) best = top;
    }
    return best;
  }

 private:
  static constexpr double kSample = 50e-6;
  Table table_;
  std::vector<double> times_;
};

void expect_waveform(const Trace& trace, const Table& table) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double t = *table.number(row, "time_s");
    const bool before = row + 1 < table.rows() && table.number(row + 1, "time_s") == t;
    const std::size_t line = trace.row_at(t, before);
    for (const std::string& column : table.columns()) {
      if (column == "time_s" || column == "after_s") continue;
      EXPECT_NEAR(trace.value(line, column), *table.number(row, column),
                  kOfLargest * table.largest(column))
          << column << " at " << t << " s";
    }
  }
}

void expect_instants(const Trace& trace, const Table& table) {
  std::map<std::string, std::size_t> seen;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string coil = table.text(row, "coil");
    const std::string what = table.text(row, "what");
    const double expected = *table.number(row, "time_s");
    double at = expected;
    if (what == "peak" || what == "turns") {
      at = trace.turn_near(expected, coil + ".current");
    } else if (what != "opens") {
      const auto lines = trace.events(coil, what);
      const std::size_t nth = seen[coil + what]++;
      ASSERT_LT(nth, lines.size()) << coil << " never " << what;
      at = trace.value(lines[nth], "time_s");
      EXPECT_NEAR(trace.value(lines[nth], "current_a"), *table.number(row, "current"),
                  kOfLargest * table.largest("current"));
      EXPECT_NEAR(trace.value(lines[nth], "speed_m_per_s"), *table.number(row, "speed"),
                  kOfLargest * table.largest("speed"));
    }
    EXPECT_NEAR(at, expected, kOfTime * *table.number(row, "since_s")) << coil << " " << what;
    const auto expect = [&](const std::string& signal, const std::string& column) {
      const double value = what == "opens" ? trace.value(trace.row_at(at, true), signal)
                                           : trace.value_at(at, signal);
      EXPECT_NEAR(value, *table.number(row, column), kOfLargest * table.largest(column))
          << coil << " " << what << ": " << column;
    };
    expect(coil + ".current", "current");
    expect(coil + ".gap", "gap");
    expect("supply.volts", "bus");
    expect(coil + "_key.volts", "across");
  }
}

/// The parts' own readings are at the coil; the tables have the supply's volts.
void expect_statics(const Trace& trace, const Table& table) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string coil = table.text(row, "coil");
    const double coil_ohm = coil == "rewind" ? 20 : 150;
    EXPECT_NEAR(trace.value(0, coil + ".pull_in_volts"),
                coil_ohm * *table.number(row, "pulls_in_a"), 1e-5);
    EXPECT_NEAR(trace.value(0, coil + ".drop_out_volts"),
                coil_ohm * *table.number(row, "drops_out_a"), 1e-5);
  }
}

void expect_source_energy(const Trace& trace, const Table& table) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double t = *table.number(row, "time_s");
    const double source = 30 * trace.value(trace.row_at(t, false), "supply.charge");
    EXPECT_NEAR(source, *table.number(row, "source"), kOfEnergy * source) << "at " << t << " s";
  }
}

TEST(TraceOfCaseTest, Case1FollowsItsTable) {
  expect_waveform(Trace(trace_of(1, "1.56s", "coil.*,quench.charged,key.volts")),
                  Table::read("case1_waveform"));
}

TEST(TraceOfCaseTest, Case1HasItsLargestVoltageInTime) {
  const Trace trace(trace_of(1, "1.56s", "coil.current,quench.charged,key.volts"));
  const Table table = Table::read("case1_extremes");
  const double largest_after = *table.number(0, "after_s");
  const double at = trace.turn_near(1.5 + largest_after, "key.volts");
  EXPECT_NEAR(at - 1.5, largest_after, kOfTime * largest_after);
  EXPECT_NEAR(trace.value_at(at, "key.volts"), *table.number(0, "volts"),
              kOfLargest * *table.number(0, "volts"));
  const double peak_after = *table.number(1, "after_s");
  const double peak = trace.turn_near(1.5 + peak_after, "quench.charged");
  EXPECT_NEAR(peak - 1.5, peak_after, kOfTime * peak_after);
  EXPECT_NEAR(trace.value_at(peak, "coil.current"), 0, kOfLargest * 0.19438865);
}

class TraceOfRelayCaseTest : public testing::TestWithParam<int> {};

TEST_P(TraceOfRelayCaseTest, FollowsItsTables) {
  const int number = GetParam();
  const std::string name = "case" + std::to_string(number);
  const std::string signals = number == 4
                                  ? "supply.*,relay.*,relay_key.volts,rewind.*,rewind_key.volts"
                                  : "supply.*,relay.*,relay_key.volts";
  const Trace trace(trace_of(number, "1.55s", signals));
  expect_waveform(trace, Table::read(name + "_waveform"));
  expect_instants(trace, Table::read(name + "_instants"));
  expect_statics(trace, Table::read(name + "_statics"));
  expect_source_energy(trace, Table::read(name + "_energy"));
}

INSTANTIATE_TEST_SUITE_P(Cases2To4, TraceOfRelayCaseTest, testing::Values(2, 3, 4));

TEST(TraceOfCaseTest, Case5FollowsItsTable) {
  const Trace trace(
      trace_of(5, "0.2s", "supply.*,bell_meter.volts,rewind.*,minute.*,bell1.*,bell2.*,bell3.*"));
  const Table table = Table::read("case5_waveform");
  expect_waveform(trace, table);
}

}  // namespace
}  // namespace sixty::circuit
