// Dry cells run down, rest and fail one by one. Figures without a source are common practice.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/models/bank_scene.hpp"
#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

constexpr double kFeltV = 0.1;  // steps in which the bank is felt
constexpr double kFeltShare = 0.05;

BankScene bank(const std::string& set = "", double load_ohm = 12, const std::string& script = "") {
  return {"dry_cells", "large_cells_40ah", set, load_ohm, script};
}
constexpr const char* kIdle = "  - at 0 s: key.open\n";

struct Row {
  double taken, emf_v, ohm;
};
// Common practice: 24.0 / 22.0 / 19.0 / 16 V and 1.6 / 3.2 / 6.0 / 10 ohm by charge taken, straight
// between.
constexpr Row kTable[] = {{0, 24, 1.6},     {0.25, 23, 2.4}, {0.5, 22, 3.2},
                          {0.7, 20.5, 4.6}, {0.9, 19, 6},    {1, 16, 10}};

TEST(DryCellsTest, HasTheVoltsAndOhmsOfItsCharge) {
  for (const Row& row : kTable) {
    Trial trial(yaml_of(bank(fmt::format(", taken: {}", row.taken), 1e6)));
    trial.run_to(1);
    EXPECT_NEAR(trial.read("bank.emf"), row.emf_v, 0.5 * kFeltV + 1e-9) << row.taken;
    EXPECT_NEAR(trial.read("bank.resistance"), row.ohm, 0.5 * kFeltShare * row.ohm) << row.taken;
  }
}

TEST(DryCellsTest, RunsDownAlongThatTableAsItGives) {
  Trial trial(yaml_of(bank()));
  int minutes = 0;
  for (const Row& row : kTable) {
    while (trial.read("bank.taken") < row.taken && minutes < 6000) trial.run_to(60 * ++minutes);
    // Booked in lumps: at the end the next one may lie beyond all, where it falls to 0 V and rises
    // to 80 ohm at 120 %.
    const double beyond = std::max(trial.read("bank.taken") - 1, 0.0) / 0.2;
    const double ohm = row.ohm + 70 * beyond;
    EXPECT_NEAR(trial.read("bank.emf"), row.emf_v - 16 * beyond, 0.2) << row.taken;
    EXPECT_NEAR(trial.read("bank.resistance"), ohm, 1.5 * kFeltShare * ohm) << row.taken;
  }
}

TEST(DryCellsTest, GivesTheChargeThatItsCellsLose) {
  Trial trial(yaml_of(bank("", 8)));
  for (int k = 1; k <= 12; ++k) {
    trial.run_to(k * kHourS);
    EXPECT_NEAR(trial.read("bank.taken") * 40 * kAh, trial.read("bank.charge"), 1e-6 * kAh);
  }
  EXPECT_GT(trial.read("bank.taken"), 0.5);
}

// SUP-01, SUP-02 published: Cyclopedia of Telephony and Telegraphy, vol. 1, section on dry cells:
// 1.5 to 1.6 V (+-0.05), 18 to 20 A short-circuited when new (+-20 %). SUP-03 derived from them.
TEST(DryCellsTest, NewBankIsOfPublishedStrength) {
  Trial idle(yaml_of(bank("", 1e6)));
  idle.run_to(1);
  EXPECT_NEAR(idle.read("bank.volts") / 16, 1.55, 0.05 + 1e-4) << "SUP-01";
  Trial shorted(yaml_of(bank("", 1e-3)));
  shorted.run_to(1);
  EXPECT_GT(shorted.read("bank.current"), 0.8 * 18) << "SUP-02";
  EXPECT_LT(shorted.read("bank.current"), 1.2 * 20) << "SUP-02";
  EXPECT_NEAR(idle.read("bank.resistance") / 16, 0.0861111, 0.3 * 0.0861111) << "SUP-03";
}

// Linden's Handbook of Batteries, section on zinc-carbon cells, internal resistance by voltage
// drop: R = (V1 - V2) R_load/V2, from rest and a short pulse of load.
TEST(DryCellsTest, MeterFindsItsResistanceByTheDropOfItsVolts) {
  Trial trial(yaml_of(bank(", taken: 60 %", 12, "  - at 0 s: key.open\n  - at 5 s: key.close\n")));
  trial.run_to(4);
  const double rest_v = trial.read("bank.volts");
  trial.run_to(5.05);
  const double load_v = trial.read("bank.volts");
  EXPECT_NEAR((rest_v - load_v) * 12.001 / load_v, trial.read("bank.resistance"), 1e-6);
  EXPECT_NEAR(trial.read("bank.resistance"), 3.9, 0.5 * kFeltShare * 3.9);
}

TEST(DryCellsTest, CellTheWrongWayRoundTakesTwoCellsVolts) {
  Trial trial(yaml_of(bank("", 1e6,
                           "  - at 10 s: bank.turn_cell 5\n"
                           "  - at 20 s: bank.turn_cell 5\n"
                           "  - at 30 s: bank.turn_cell 5\n"
                           "  - at 40 s: bank.change_cell 5\n")));
  const double expected_v[] = {24, 21, 24, 21, 24};
  for (int k = 0; k < 5; ++k) {
    trial.run_to(10 * k + 5);
    EXPECT_NEAR(trial.read("bank.emf"), expected_v[k], 1e-9) << k;
  }
  Trial so_built(yaml_of(bank(", odd_cells: [{cell: 5, turned: yes}]", 1e6)));
  so_built.run_to(1);
  EXPECT_NEAR(so_built.read("bank.emf"), 21, 1e-9);
}

// A dead cell: a cell's 1.5 V less, 1 to 5 ohm more; the others drive it backwards under load.
TEST(DryCellsTest, DeadCellTakesItsVoltsAndIsDrivenBackwards) {
  Trial trial(yaml_of(bank(", odd_cells: [{cell: 7, taken: 120 %}]")));
  trial.run_to(1);
  EXPECT_NEAR(trial.read("bank.emf"), 22.5, 1e-9);
  EXPECT_NEAR(trial.read("bank.resistance"), 1.6 + 4.9, 0.5 * kFeltShare * 6.5);
  EXPECT_EQ(trial.read("bank.weakest_cell"), 7);
  const double current_a = trial.read("bank.current");
  EXPECT_GT(current_a, 1);
  EXPECT_NEAR(trial.read("bank.weakest_volts"), -5 * current_a, 1e-9);
}

TEST(DryCellsTest, WeakCellIsFoundByItsVoltsUnderLoadAlone) {
  const std::string scene = yaml_of(bank(", odd_cells: [{cell: 3, added: 2 ohm}]", 12, kIdle));
  Trial trial(scene);
  trial.run_to(1);
  EXPECT_NEAR(trial.read("bank.weakest_volts"), 1.5, 1e-9);
  Trial loaded(yaml_of(bank(", odd_cells: [{cell: 3, added: 2 ohm}]")));
  loaded.run_to(1);
  EXPECT_EQ(loaded.read("bank.weakest_cell"), 3);
  EXPECT_NEAR(loaded.read("bank.weakest_volts"), 1.5 - 2.1 * loaded.read("bank.current"), 1e-9);
}

TEST(DryCellsTest, ColdAddsHalfToItsResistance) {
  Trial trial(yaml_of(bank("", 1e6,
                           "  - at 10 s: weather.temperature 0 degC\n"
                           "  - at 20 s: weather.temperature 20 degC\n")));
  trial.run_to(15);
  EXPECT_NEAR(trial.read("bank.resistance"), 2.4, 0.5 * kFeltShare * 2.4);
  trial.run_to(25);
  EXPECT_NEAR(trial.read("bank.resistance"), 1.6, 0.5 * kFeltShare * 1.6);
}

// Common practice: half a volt in a day's rest; work takes it away again.
TEST(DryCellsTest, RecoversHalfAVoltInADaysRest) {
  const std::string script = fmt::format("  - at {} h: key.open\n  - at {} h: key.close\n", 11, 35);
  Trial trial(yaml_of(bank("", 12, script)));
  trial.run_to(11 * kHourS);
  const double tired_v = trial.read("bank.emf");
  EXPECT_NEAR(tired_v, 24 - 4 * trial.read("bank.taken"), kFeltV);
  trial.run_to(35 * kHourS - 1);
  EXPECT_NEAR(trial.read("bank.emf") - tired_v, 0.5, kFeltV);
  trial.run_to(36 * kHourS);
  EXPECT_NEAR(trial.read("bank.emf"), 24 - 4 * trial.read("bank.taken"), kFeltV);
}

TEST(DryCellsTest, RestMakesNoCellBetterThanNew) {
  Trial trial(yaml_of(bank(", taken: 3 %", 1e6, kIdle)));
  trial.run_to(10 * kDayS);
  EXPECT_LE(trial.read("bank.emf"), 24 + 1e-9);
  EXPECT_GT(trial.read("bank.emf"), 24 - kFeltV);
}

TEST(DryCellsTest, NewSetIsNewAndUnlikeTheOld) {
  Trial trial(yaml_of(bank(", taken: 100 %", 12, "  - at 1 h: bank.change_all\n")));
  trial.run_to(kHourS - 1);
  EXPECT_LT(trial.read("bank.emf"), 16.1);
  trial.run_to(kHourS + 1);
  EXPECT_NEAR(trial.read("bank.emf"), 24, 1e-9);
  EXPECT_NEAR(trial.read("bank.taken"), 0, 1e-3);
}

TEST(DryCellsTest, NoSuchCellIsToldOf) {
  EXPECT_NE(mistakes_of(yaml_of(bank(", odd_cells: [{cell: 17}]"))).find("only 16 cells"),
            std::string::npos);
}

/// The smallest installation on dry cells, their kind as the sheet says.
std::string bench_on_dry_cells() {
  std::string yaml = bench_minimal();
  const std::string there = "{type: supply, sheet: bench_24v}";
  return yaml.replace(yaml.find(there), there.size(), "{type: dry_cells, sheet: large_cells_40ah}");
}

/// The same with two series loops of fifteen clocks on the minute relay, ballast 19 ohm each.
std::string bench_with_loops() {
  std::string yaml = bench_on_dry_cells();
  std::string parts;
  std::string wires;
  for (const char loop : {'a', 'b'}) {
    parts += fmt::format("  ballast_{}: {{type: resistor, set: {{resistance: 19 ohm}}}}\n", loop);
    std::string from = fmt::format("ballast_{}.b", loop);
    for (int k = 1; k <= 15; ++k) {
      parts += fmt::format("  {}_{}: {{type: secondary, sheet: series_220ma}}\n", loop, k);
      wires += fmt::format("  w_{0}_{1}: [{2}, {0}_{1}.a]\n", loop, k, from);
      from = fmt::format("{}_{}.b", loop, k);
    }
  }
  const std::string minus = "    - supply.minus\n";
  yaml.insert(yaml.find(minus) + minus.size(), "    - a_15.b\n    - b_15.b\n");
  const std::string line = "clock_line: [minute_relay.contact_b";
  yaml.insert(yaml.find(line) + line.size(), ", ballast_a.a, ballast_b.a");
  yaml.insert(yaml.find("wires:"), parts + "\n");
  return yaml.insert(yaml.find("script:"), wires + "\n");
}

// Common practice, by arithmetic: 40 Ah last some four weeks with two series loops: rewind 0.96 Ah
// a day, relay 0.16, each loop 0.18, and here 0.07 for two clocks in parallel; less as the volts
// fall.
TEST(DryCellsTest, HalfIsTakenAfterTwoWeeksWithTwoSeriesLoops) {
  Trial trial(bench_with_loops());
  ASSERT_TRUE(trial.sound());
  trial.session().set_sink(nullptr);
  trial.run_to(14 * kDayS);
  EXPECT_NEAR(trial.read("supply.taken"), 0.5, 0.05);
  EXPECT_EQ(trial.read("a_1.steps"), 14 * 1440);
}

/// Small cells: they run down in a day, in some eighty steps.
const std::vector<std::string> kSmall = {"supply.capacity=1 Ah", "supply.wakes_after=4 C"};

TEST(DryCellsTest, StateIsTheSameWithTransientsFoundAgainOrNot) {
  Trial found(bench_on_dry_cells(), kSmall);
  Trial anew(bench_on_dry_cells(), kSmall, {.reuse_transients = false});
  for (int k = 1; k <= 6; ++k) {
    found.run_to(k * kHourS);
    anew.run_to(k * kHourS);
    EXPECT_EQ(found.session().state_hash(), anew.session().state_hash()) << k;
  }
  EXPECT_LT(found.read("supply.emf"), 23.5);
}

TEST(DryCellsTest, GoingBackLeadsToTheSameState) {
  Trial trial(bench_on_dry_cells(), kSmall);
  trial.session().set_sink(nullptr);
  std::vector<std::uint64_t> hashes;
  for (int k = 1; k <= 12; ++k) {
    trial.run_to(k * kHourS);
    hashes.push_back(trial.session().state_hash());
  }
  const auto saved = trial.session().save();
  for (const int k : {3, 11, 7}) {
    trial.session().seek(k * kHour);
    EXPECT_EQ(trial.session().state_hash(), hashes[static_cast<std::size_t>(k) - 1]) << k;
  }
  trial.session().restore(saved);
  EXPECT_EQ(trial.session().state_hash(), hashes.back());
}

}  // namespace
}  // namespace sixty
