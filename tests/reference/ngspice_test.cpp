// Circuits that both can express, in our network and in ngspice: resistive lines with several
// sources, switching on, switching off with what protects the contact, a diode, iron that
// saturates. Source of every expected value: ngspice (Debian's libngspice0), run here and now.
#include "tests/reference/ngspice.hpp"

#include <gtest/gtest.h>

#include "tests/circuit/bench.hpp"

namespace sixty::reference {
namespace {

using circuit::Bench;
using circuit::Coil;

constexpr double kAgreement = 1e-4;  // of the largest value of the signal
constexpr double kBreakS = 0.06;     // all keys make at 0 and break at this instant
constexpr double kEndS = 0.1;

std::string number(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.17g", value);
  return text;
}

/// One circuit written down for both.
class Both {
 public:
  void source(const std::string& plus, const std::string& minus, double emf_v, double ohm) {
    const std::string name = next();
    bench_.source(name, plus, minus, emf_v, ohm);
    line("v" + name + " emf" + name + " " + minus + " " + number(emf_v));
    line("r" + name + " emf" + name + " " + plus + " " + number(ohm));
  }
  void resistor(const std::string& a, const std::string& b, double ohm) {
    bench_.resistor(a, b, ohm);
    line("r" + next() + " " + a + " " + b + " " + number(ohm));
  }
  void capacitor(const std::string& a, const std::string& b, double farad, double ohm) {
    const std::string name = next();
    bench_.capacitor(name, a, b, farad, ohm);
    line("c" + name + " " + a + " mid" + name + " " + number(farad));
    line("r" + name + " mid" + name + " " + b + " " + number(ohm));
  }
  /// Ideal, with a series resistance: a current that begins at the forward voltage.
  void diode(const std::string& anode, const std::string& cathode, double ohm, double forward_v) {
    bench_.diode(anode, cathode, ohm, forward_v);
    const std::string over = "(v(" + anode + ")-v(" + cathode + ")-" + number(forward_v) + ")";
    line("b" + next() + " " + anode + " " + cathode + " i=max(0," + over + ")/" + number(ohm));
  }
  /// Conducts as far as v(worked) is 1; open, not at all.
  void key(const std::string& a, const std::string& b, double ohm) {
    const std::string name = next();
    bench_.contact(name, a, b, ohm);
    bench_.work(0, name, true);
    bench_.work(kBreakS, name, false);
    line("b" + name + " " + a + " " + b + " i=v(worked)*(v(" + a + ")-v(" + b + "))/" +
         number(ohm));
  }
  void linear_coil(const std::string& name, const std::string& a, const std::string& b, double ohm,
                   double henry) {
    Coil coil;
    coil.resistance_ohm = ohm;
    coil.magnet.inductance_h = henry;
    bench_.coil(name, a, b, coil);
    line("v" + name + " " + a + " in" + name + " 0");
    line("r" + name + " in" + name + " mid" + name + " " + number(ohm));
    line("l" + name + " mid" + name + " " + b + " " + number(henry));
  }
  /// Its flux linkage is the voltage of a capacitor of 1 F that is charged with v - R i.
  void iron_coil(const std::string& name, const std::string& a, const std::string& b,
                 const Coil& coil) {
    bench_.coil(name, a, b, coil);
    const circuit::Magnet& m = coil.magnet;
    const std::string flux = "v(flux" + name + ")/" + number(m.turns * m.pole_area_m2);
    const double mu0 = 1.25663706143592e-6;
    const std::string gap = number(2 * m.residual_gap_m / mu0);
    const std::string iron =
        number(m.iron_length_m * m.saturation_t / (m.relative_permeability * mu0));
    const std::string current = "(" + flux + "*(" + gap + "+" + iron + "/(" +
                                number(m.saturation_t) + "-abs(" + flux + "))))/" + number(m.turns);
    line("v" + name + " " + a + " in" + name + " 0");
    line("b" + name + " in" + name + " " + b + " i=" + current);
    line("bd" + name + " 0 flux" + name + " i=v(in" + name + ")-v(" + b + ")-" +
         number(coil.resistance_ohm) + "*i(v" + name + ")");
    line("c" + name + " flux" + name + " 0 1");
  }

  /// Compares coils' currents and nodes' voltages (to node 0), before and after the break.
  void compare(const std::vector<std::string>& coils, const std::vector<std::string>& nodes) {
    std::vector<std::string> ours, theirs;
    for (const std::string& coil : coils) {
      ours.push_back(coil + ".current");
      theirs.push_back("v" + coil + "#branch");
    }
    for (const std::string& node : nodes) {
      bench_.meter(node, node, "0");
      ours.push_back(node);
      theirs.push_back("v(" + node + ")");
    }
    line("vworked worked 0 pwl(0 0 1n 1 " + number(kBreakS) + " 1 " + number(kBreakS + 1e-9) +
         " 0)");
    line(".tran 2u " + number(kEndS) + " 0 2u uic");
    const std::vector<Waveform> waves = run_ngspice(netlist_, theirs);
    for (double t = 0.0004; t < kEndS; t += 0.00173) {
      const Bench::Look look = bench_.at(t);
      for (std::size_t k = 0; k < ours.size(); ++k) {
        const double most = waves[k].largest();
        EXPECT_GT(most, 0.001) << ours[k];
        EXPECT_NEAR(bench_.value(look, ours[k]), waves[k].at(t), kAgreement * most)
            << ours[k] << " at " << t << " s";
      }
    }
  }

 private:
  std::string next() { return "n" + std::to_string(++count_); }
  void line(const std::string& text) { netlist_.push_back(text); }

  Bench bench_;
  std::vector<std::string> netlist_;
  int count_ = 0;
};

TEST(NgspiceTest, CurrentsOfALineOfTwentyClocksFedFromBothEndsAgree) {
  Both both;
  both.source("supply", "0", 24, 1.3);
  both.source("t19", "0", 21, 55);  // an older battery at the far end
  both.key("supply", "bus", 0.02);
  std::string before = "bus";
  std::vector<std::string> coils, nodes;
  for (int k = 0; k < 20; ++k) {
    const std::string tap = "t" + std::to_string(k);
    both.resistor(before, tap, 1.1 + 0.4 * (k % 3));
    both.resistor(tap, "0", 6000);
    both.linear_coil("clock" + std::to_string(k), tap, "0", 480 + 7 * k, 2.0 + 0.1 * (k % 5));
    before = tap;
    nodes.push_back(tap);
  }
  both.compare({"clock0", "clock9", "clock19"}, nodes);
}

TEST(NgspiceTest, ACoilWithAResistorAcrossItAgrees) {
  Both both;
  both.source("supply", "0", 30, 0.8);
  both.key("supply", "top", 0.03);
  both.resistor("top", "0", 1500);
  both.linear_coil("coil", "top", "0", 150, 1.7);
  both.compare({"coil"}, {"top"});
}

TEST(NgspiceTest, TheRingingAfterABreakWithResistorAndCapacitorAcrossTheContactAgrees) {
  Both both;
  both.source("supply", "0", 30, 0.8);
  both.resistor("supply", "line", 3.5);
  both.key("line", "top", 0.03);
  both.capacitor("line", "top", 4.7e-7, 100);
  both.linear_coil("coil", "top", "0", 150, 0.65);
  both.compare({"coil"}, {"top"});
}

TEST(NgspiceTest, ACurrentThatDiesAwayThroughADiodeAgrees) {
  Both both;
  both.source("supply", "0", 30, 0.8);
  both.key("supply", "top", 0.03);
  both.diode("0", "top", 330, 0.7);
  both.resistor("top", "0", 20000);
  both.linear_coil("coil", "top", "0", 150, 0.65);
  both.compare({"coil"}, {"top"});
}

TEST(NgspiceTest, ACoilWhoseIronSaturatesAgrees) {
  Coil coil;
  coil.resistance_ohm = 150;
  coil.magnet.turns = 5200;
  coil.magnet.pole_area_m2 = 3e-5;
  coil.magnet.residual_gap_m = 2e-4;
  coil.magnet.iron_length_m = 0.15;
  coil.magnet.saturation_t = 1.6;
  coil.magnet.relative_permeability = 900;
  Both both;
  both.source("supply", "0", 30, 0.8);
  both.key("supply", "top", 0.03);
  both.resistor("top", "0", 1500);
  both.iron_coil("coil", "top", "0", coil);
  both.compare({"coil"}, {"top"});
}

}  // namespace
}  // namespace sixty::reference
