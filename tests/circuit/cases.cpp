#include "tests/circuit/cases.hpp"

namespace sixty::circuit {
namespace {

Coil linear(double ohm, double henry) {
  Coil c;
  c.resistance_ohm = ohm;
  c.magnet.inductance_h = henry;
  return c;
}

Coil relay_coil() {
  Coil c;
  c.resistance_ohm = 150;
  c.magnet.turns = 5200;
  c.magnet.pole_area_m2 = 9e-5;
  c.magnet.residual_gap_m = 3e-4;
  c.armature = {true, 2e-3, 0, 9e-3, 2, 1500};
  return c;
}

Coil rewind_coil() {
  Coil c;
  c.resistance_ohm = 20;
  c.magnet.turns = 2000;
  c.magnet.pole_area_m2 = 8e-4;
  c.magnet.residual_gap_m = 2.5e-3;
  c.armature = {true, 15e-3, 0, 0.4, 4, 120};
  return c;
}

/// Bus - line - contact - coil - minus.
void branch(Bench& b, const std::string& name, const std::string& key, double line_ohm,
            const Coil& coil) {
  b.resistor("bus", name + " line", line_ohm);
  b.contact(key, name + " line", name + " top", 0.03);
  b.coil(name, name + " top", "minus", coil);
}

}  // namespace

Bench case_1() {
  Bench b;
  b.source("supply", "bus", "minus", 30, 0.8);
  branch(b, "coil", "key", 3.5, linear(150, 0.65));
  b.capacitor("quench", "coil line", "coil top", 4.7e-7, 100);
  b.work(0, "key", true);
  b.work(1.5, "key", false);
  return b;
}

Bench case_2() {
  Bench b;
  b.source("supply", "bus", "minus", 30, 0.8);
  branch(b, "relay", "relay_key", 3.5, relay_coil());
  b.capacitor("quench", "relay line", "relay top", 3.3e-6, 1300);
  b.work(0, "relay_key", true);
  b.work(1.5, "relay_key", false);
  return b;
}

Bench case_3() {
  Bench b;
  b.source("supply", "bus", "minus", 30, 0.8);
  branch(b, "relay", "relay_key", 3.5, relay_coil());
  b.diode("minus", "relay top", 330, 0);
  b.work(0, "relay_key", true);
  b.work(1.5, "relay_key", false);
  return b;
}

Bench case_4() {
  Bench b;
  b.source("supply", "bus", "minus", 30, 1.1);
  branch(b, "rewind", "rewind_key", 0.6, rewind_coil());
  b.capacitor("rewind_quench", "rewind line", "rewind top", 6.8e-5, 150);
  branch(b, "relay", "relay_key", 3.5, relay_coil());
  b.capacitor("relay_quench", "relay line", "relay top", 3.3e-6, 1300);
  b.work(0, "rewind_key", true);
  b.work(0.045, "relay_key", true);
  b.work(0.28, "relay_key", false);
  b.work(0.45, "rewind_key", false);
  return b;
}

Bench case_5() {
  Bench b;
  b.source("supply", "bus", "minus", 30, 1.1);
  b.resistor("bus", "bell", 0.9);
  b.meter("bell_meter.volts", "bell", "minus");
  const auto load = [&](const std::string& name, const std::string& from, double line_ohm,
                        const Coil& coil, double across_ohm) {
    b.contact(name + "_key", from, name + " top", line_ohm);
    b.coil(name, name + " top", "minus", coil);
    b.resistor(name + " top", "minus", across_ohm);
  };
  load("rewind", "bus", 0.6, linear(20, 0.22), 390);
  load("minute", "bus", 0.7, linear(150, 0.85), 2200);
  load("bell1", "bell", 0.4, linear(36, 0.08), 560);
  load("bell2", "bell", 0.5, linear(60, 0.14), 820);
  load("bell3", "bell", 0.8, linear(36, 0.08), 560);
  b.work(0, "rewind_key", true);
  b.work(0.02, "bell1_key", true);
  b.work(0.035, "bell2_key", true);
  b.work(0.0353, "bell3_key", true);
  b.work(0.05, "minute_key", true);
  b.work(0.09, "bell1_key", false);
  b.work(0.1, "bell2_key", false);
  b.work(0.125, "bell3_key", false);
  b.work(0.14, "rewind_key", false);
  b.work(0.17, "minute_key", false);
  return b;
}

}  // namespace sixty::circuit
