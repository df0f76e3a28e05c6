// Lines as scenes write them: what arrives at each clock is what Ohm's law and the published wire
// tables leave of it, in a row, in branches and in a loop.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kFeet_m = 304.8;  // a thousand of them
constexpr double kKey_ohm = 1e-3;
constexpr double kSource_ohm = 0.3;
constexpr double kCoil_ohm = 500.0 * 6000.0 / 6500.0;  // winding and the resistor across it

std::string scene(const std::string& lines, const std::string& head = "spread: 0") {
  return fmt::format(R"(scene: Clocks on lines
start: 2026-01-05T00:00:00
{}
parts:
  supply: {{type: supply, set: {{emf: 24 V, resistance: 0.3 ohm}}}}
  key: {{type: switch, set: {{contact_resistance: 1 mohm, bounces: no}}}}
wires:
  plus: [supply.plus, key.a]
lines:
{}script:
  - at 1 s: key.close
  - at 3 s: key.open
)",
                     head, lines);
}

std::string line(const std::string& name, const std::string& sheet, const std::string& places) {
  return fmt::format(R"(  {}:
    kind: parallel
    from: key.b
    to: supply.minus
    run: {{type: wire, sheet: {}, set: {{conductors: 2}}}}
    each: {{type: secondary, sheet: parallel_24v}}
    places: {}
)",
                     name, sheet, places);
}

struct Gauge {
  const char* id;
  const char* sheet;
  double ohm_per_kft;
};

// Ohms per thousand feet at 20 degC, published: NBS Circular 31 and Handbook 100, in the wire table
// of the HyperPhysics pages (Georgia State University); each to 0.1 %.
constexpr Gauge kGauges[] = {{"WIRE-03", "awg_10", 0.9989}, {"WIRE-04", "awg_12", 1.588},
                             {"WIRE-05", "awg_14", 2.525},  {"WIRE-06", "awg_16", 4.016},
                             {"WIRE-07", "awg_18", 6.385},  {"WIRE-08", "awg_20", 10.15},
                             {"WIRE-09", "awg_22", 16.14}};

/// Volts at the last of `clocks` at even distances, seated, behind the supply; from its end back.
double last_v(int clocks, double run_ohm) {
  double volts = 1;  // at the last; the rest in proportion
  double amperes = 0;
  for (int k = 0; k < clocks; ++k) {
    amperes += volts / kCoil_ohm;
    volts += amperes * run_ohm;
  }
  return 24 / (volts + amperes * (kSource_ohm + kKey_ohm));
}

TEST(LaidLinesTest, LastClockSeesWhatTheWireTableLeaves) {
  for (const Gauge& gauge : kGauges) {
    for (const int clocks : {1, 20, 60}) {
      const std::string places =
          fmt::format("[{{count: {}, name: \"c{{n}}\", length: 6 m}}]", clocks);
      Trial trial(scene(line("upper", gauge.sheet, places)));
      trial.run_to(2.9);
      const double expected = last_v(clocks, 2 * 6 * gauge.ohm_per_kft / kFeet_m);
      const double dropped = 24 - expected;
      EXPECT_NEAR(trial.read(fmt::format("c{}.volts", clocks)), expected, 0.0015 * dropped + 1e-4)
          << gauge.id << ", " << clocks;
    }
  }
}

// A tree of runs for the reckoning: each with its resistance, its clock, and what goes on from it.
struct Run {
  std::string name;
  int metres = 0;
  double ohm = 0;
  double clock_ohm = 0;  // 0: nothing hangs here
  std::vector<Run> onward;

  /// Conductance from the run's beginning to the other side.
  double siemens() const { return 1 / (ohm + 1 / beyond()); }
  double beyond() const {
    double sum = clock_ohm > 0 ? 1 / clock_ohm : 1e-12;
    for (const Run& run : onward) sum += run.siemens();
    return sum;
  }
};

void expect_volts(Trial& trial, const Run& run, double at_beginning_v) {
  const double here = at_beginning_v * (1 / run.beyond()) / (run.ohm + 1 / run.beyond());
  if (run.clock_ohm > 0) {
    RC_ASSERT(std::fabs(trial.read(run.name + ".volts") - here) < 0.003);
  }
  for (const Run& next : run.onward) expect_volts(trial, next, here);
}

/// Places of a random line; the tree of runs is laid beside it.
class RandomLine {
 public:
  std::string places(std::vector<Run>& into, int depth) {
    std::string text = "[";
    std::vector<Run>* row = &into;
    const int count = *rc::gen::inRange(1, 5);
    for (int k = 0; k < count; ++k) {
      Run run;
      run.name = fmt::format("c{}", ++number_);
      run.metres = *rc::gen::inRange(1, 60);
      const bool bare = *rc::gen::inRange(0, 4) == 0;
      run.clock_ohm = bare ? 0 : kCoil_ohm;
      text += fmt::format("{}{{name: {}, length: {} m{}", k == 0 ? "" : ", ", run.name, run.metres,
                          bare ? ", each: none" : "");
      // WIRE-07 (NBS Circular 31): 6.385 ohm per thousand feet of gauge 18, there and back.
      run.ohm = 2 * run.metres * 6.385 / kFeet_m;
      if (depth < 2 && *rc::gen::inRange(0, 3) == 0)
        text += ", branch: " + places(run.onward, depth + 1);
      text += "}";
      row->push_back(std::move(run));
      row = &row->back().onward;
    }
    return text + "]";
  }

 private:
  int number_ = 0;
};

RC_GTEST_PROP(LaidLinesTest, EveryClockOfABranchedLineSeesWhatOhmsLawLeaves, ()) {
  RandomLine random;
  std::vector<Run> first;
  const std::string places = random.places(first, 0);
  Trial trial(scene(line("upper", "awg_18", places)));
  RC_ASSERT(trial.sound());
  trial.run_to(2.9);
  const double outside = 1 / first[0].siemens();
  expect_volts(trial, first[0], 24 * outside / (outside + kSource_ohm + kKey_ohm));
}

double value_of(Trial& trial, const std::string& part, const std::string& param) {
  return trial.session().installation().find(part)->values.at(param).number;
}

TEST(LaidLinesTest, ClocksOfOneTemplateDifferAndOhmsLawHoldsForEach) {
  Trial trial(scene(line("upper", "clock_line", "[{count: 20, name: \"c{n}\", length: 7.5 m}]"),
                    "seed: 3"));
  trial.run_to(2.9);
  double volts = 1;
  double amperes = 0;
  for (int k = 20; k >= 1; --k) {
    const std::string clock = fmt::format("c{}", k);
    amperes +=
        volts * (1 / value_of(trial, clock, "resistance") + 1 / value_of(trial, clock, "shunt"));
    // WIRE-10 (IEC 60028): 58 m of 1 mm2 are an ohm.
    const double area_mm2 = value_of(trial, clock + "_run", "cross_section") * 1e6;
    volts += amperes * 15 / 58 / area_mm2;
    if (k > 1) {
      EXPECT_NE(value_of(trial, clock, "resistance"), value_of(trial, "c1", "resistance"));
    }
  }
  EXPECT_NEAR(trial.read("c20.volts"), 24 / (volts + amperes * (kSource_ohm + kKey_ohm)), 0.002);
}

std::string loop(const std::string& kind, const std::string& sheet, const std::string& more) {
  return scene(fmt::format(R"(  halls:
    kind: {}
    from: key.b
    to: supply.minus
    run: {{type: wire, sheet: clock_line}}
    each: {{type: secondary, sheet: {}}}
    places: [{{count: 15, name: "c{{n}}", length: 5.8 m}}]
{})",
                           kind, sheet, more));
}

std::string series_loop() {
  return loop("series", "series_220ma",
              "    ballast: {type: resistor, set: {resistance: 19 ohm}}\n    back: 87 m\n");
}

int stepped(Trial& trial) {
  trial.run_to(4);
  int sum = 0;
  for (int k = 1; k <= 15; ++k) sum += static_cast<int>(trial.read(fmt::format("c{}.steps", k)));
  return sum;
}

// Ohm's law: fifteen windings of 6 ohm with 300 ohm across each, the ballast, the supply, and
// 3 ohm of copper (WIRE-10: 174 m of 1 mm2).
TEST(LaidLinesTest, SeriesLoopCarriesOneCurrent) {
  Trial trial(series_loop());
  trial.run_to(2.9);
  const double clock_ohm = 6.0 * 300 / 306;
  const double amperes = 24 / (15 * clock_ohm + 19 + 3 + kSource_ohm + kKey_ohm);
  for (const char* part : {"halls_ballast", "c1_run", "c15_run", "halls_back", "supply"})
    EXPECT_NEAR(trial.read(std::string(part) + ".current"), amperes, 1e-4) << part;
  EXPECT_NEAR(trial.read("c15.volts"), amperes * clock_ohm, 1e-3);
  EXPECT_EQ(stepped(trial), 15);
}

TEST(LaidLinesTest, OneOpenCoilStandsAWholeSeriesLoopButOneClockOfAParallelLine) {
  const std::vector<std::string> open = {"c8.resistance=100 kohm"};
  Trial series(series_loop(), open);
  EXPECT_EQ(stepped(series), 0);
  Trial parallel(loop("parallel", "parallel_24v", ""), open);
  EXPECT_EQ(stepped(parallel), 14);
  EXPECT_EQ(parallel.read("c8.steps"), 0);
}

TEST(LaidLinesTest, LeakOfARunIsFedByTheSupplyAndLostToTheClocks) {
  const char* leaky =
      "[{name: c1, length: 58 m, run: {set: {leakage: 200 ohm}, join: {earth: "
      "supply.minus}}}]";
  Trial trial(scene(line("upper", "clock_line", leaky)));
  trial.run_to(2.9);
  // WIRE-10: 2 ohm of copper there and back, the leak in the middle.
  const double beyond = 1 / (1 / 200.0 + 1 / (1 + kCoil_ohm));
  const double amperes = 24 / (kSource_ohm + kKey_ohm + 1 + beyond);
  const double middle_v = amperes * beyond;
  EXPECT_NEAR(trial.read("c1_run.current"), amperes, 1e-5);
  EXPECT_NEAR(trial.read("c1_run.leak"), middle_v / 200, 1e-5);
  EXPECT_NEAR(trial.read("c1.volts"), middle_v * kCoil_ohm / (1 + kCoil_ohm), 1e-4);
  const double onward = amperes - middle_v / 200;
  EXPECT_NEAR(trial.read("c1_run.power"), amperes * amperes + onward * onward, 1e-4);
  trial.run_to(4);
  EXPECT_NEAR(trial.read("c1_run.leak"), 0, 1e-6);
}

TEST(LaidLinesTest, SoundInsulationLeaksNothing) {
  Trial trial(scene(line("upper", "clock_line", "[{name: c1, length: 58 m}]")));
  trial.run_to(2.9);
  EXPECT_EQ(trial.read("c1_run.leak"), 0);
  EXPECT_NE(mistakes_of(scene(line("upper", "clock_line",
                                   "[{name: c1, length: 58 m, run: {set: "
                                   "{leakage: 0.5 ohm}}}]")))
                .find("a dead short rather than a leak"),
            std::string::npos);
}

// Ten lines of a hundred clocks each behind the minute relay of the smallest installation, on a
// supply that carries them.
std::string thousand() {
  std::string yaml = bench_minimal();
  std::string lines = "lines:\n";
  for (int k = 1; k <= 10; ++k) {
    lines += fmt::format(R"(  floor_{0}:
    kind: parallel
    from: minute_relay.contact_b
    to: supply.minus
    run: {{type: wire, sheet: copper_2_5, set: {{conductors: 2}}}}
    each:
      type: secondary
      sheet: parallel_24v
      set: {{loop: floor_{0}}}
      connect: {{compared_with: movement.escape_arbor}}
    places: [{{count: 100, name: "f{0}_{{n}}", length: 1 m}}]
)",
                         k);
  }
  return yaml.insert(yaml.find("script:"), lines);
}

TEST(LaidLinesTest, AThousandClocksRunAnHourAndAllAreRight) {
  Trial trial(thousand(), {"supply.resistance=10 mohm"});
  ASSERT_TRUE(trial.sound());
  trial.session().set_sink(nullptr);  // nobody looks at so many events
  trial.run_to(3600);
  for (int k = 1; k <= 10; ++k) {
    for (int n = 1; n <= 100; ++n) {
      const std::string clock = fmt::format("f{}_{}", k, n);
      EXPECT_EQ(trial.read(clock + ".steps"), 60) << clock;
      EXPECT_EQ(trial.read(clock + ".error_min"), 0) << clock;
    }
  }
}

}  // namespace
}  // namespace sixty
