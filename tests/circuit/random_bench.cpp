#include "tests/circuit/random_bench.hpp"

#include <algorithm>

#include "sim/base/math.hpp"
#include "sim/base/rng.hpp"

namespace sixty::circuit {
namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed) {}
  double from(double least, double most) {
    return least + (most - least) * uniform_draw(seed_, 0, 0, number_++);
  }
  /// Evenly over the decades.
  double scale(double least, double most) { return least * det_pow(most / least, from(0, 1)); }
  bool chance(double p) { return from(0, 1) < p; }

 private:
  std::uint64_t seed_;
  std::uint64_t number_ = 0;
};

Coil random_coil(Dice& d, const RandomKinds& kinds) {
  Coil c;
  c.resistance_ohm = d.scale(10, 500);
  if (d.chance(0.2)) {
    c.magnet.inductance_h = c.resistance_ohm * d.scale(0.001, 0.02);
    return c;
  }
  c.magnet.turns = 2000 * d.scale(0.5, 4);
  c.magnet.pole_area_m2 = d.scale(0.5e-4, 4e-4);
  c.magnet.residual_gap_m = d.scale(0.2e-3, 0.6e-3);
  if (d.chance(0.7)) c.magnet.iron_length_m = d.from(0.05, 0.3);
  if (kinds.remanence && d.chance(0.5)) c.magnet.coercive_a = d.from(2, 30);
  Armature& a = c.armature;
  a.present = true;
  a.stroke_m = d.from(1e-3, 4e-3);
  a.mass_kg = d.scale(0.01, 0.1);
  // A share of the pull at 24 V with the armature open: some will come in and some will not.
  const double open_pull =
      pull_n(c.magnet, linkage_wb(c.magnet, 24 / c.resistance_ohm, a.stroke_m, 0));
  a.preload_n = open_pull * d.from(0.2, 1.1);
  a.rate_n_per_m = a.preload_n / a.stroke_m * d.from(0, 2);
  if (d.chance(0.5)) {
    a.second_from_m = a.stroke_m * d.from(0.2, 0.8);
    a.second_preload_n = a.preload_n * d.from(0, 0.5);
    a.second_rate_n_per_m = a.rate_n_per_m * d.from(0, 3);
  }
  if (kinds.friction && d.chance(0.7)) a.friction_n = a.preload_n * d.from(0.01, 0.3);
  if (kinds.bounce && d.chance(0.5)) {
    a.rebound_seat = d.from(0, 0.5);
    a.rebound_open = d.from(0, 0.5);
  }
  return c;
}

ContactKind random_kind(Dice& d, const RandomKinds& kinds) {
  ContactKind kind;
  kind.sparks = kinds.sparks;
  kind.bounces = kinds.bounce && d.chance(0.7);
  return kind;
}

using Making = std::function<void(Bench&)>;

void add_branch(Dice& d, const RandomKinds& kinds, int k, const std::string& bus,
                std::vector<Making>& makings) {
  const std::string n = std::to_string(k);
  const std::string line = "line" + n;
  const std::string top = "top" + n;
  const double line_ohm = d.scale(0.2, 20);
  const double contact_ohm = d.scale(0.005, 0.5);
  const ContactKind kind = random_kind(d, kinds);
  const Coil coil = random_coil(d, kinds);
  makings.push_back([=](Bench& b) { b.resistor(bus, line, line_ohm); });
  makings.push_back([=](Bench& b) { b.contact("key" + n, line, top, contact_ohm, kind); });
  makings.push_back([=](Bench& b) { b.coil("coil" + n, top, "minus", coil); });
  const double quench_f = d.scale(0.3e-6, 10e-6);
  const double quench_ohm = d.scale(50, 2000);
  const double across_ohm = coil.resistance_ohm * d.from(3, 20);
  switch (static_cast<int>(d.from(0, 5))) {
    case 0:
      makings.push_back([=](Bench& b) { b.capacitor("rc" + n, line, top, quench_f, quench_ohm); });
      break;
    case 1:
      makings.push_back(
          [=](Bench& b) { b.capacitor("rc" + n, top, "minus", quench_f, quench_ohm); });
      break;
    case 2:
      makings.push_back([=](Bench& b) { b.diode("minus", top, across_ohm / 10, 0.7); });
      break;
    case 3:
      makings.push_back([=](Bench& b) { b.resistor(top, "minus", across_ohm); });
      break;
    default:
      break;  // nothing: the gap has to take it
  }
}

/// Roughly a clock of 500 ohm.
Coil random_clock(Dice& d, bool remanence, bool second) {
  Coil c;
  c.resistance_ohm = 500 * d.from(0.97, 1.03);
  c.magnet.turns = 9000;
  c.magnet.pole_area_m2 = 1.2e-4 * d.from(0.97, 1.03);
  c.magnet.residual_gap_m = 4e-4 * d.from(0.9, 1.1);
  c.magnet.iron_length_m = 0.12;
  if (remanence) c.magnet.coercive_a = 10 * d.from(0.7, 1.3);
  Armature& a = c.armature;
  a = {true, 2.5e-3 * d.from(0.98, 1.02), 0, 0.03, 0.305 * d.from(0.95, 1.05), 100};
  a.friction_n = 0.03 * d.from(0.7, 1.3);
  if (second) {
    a.second_from_m = 0.8e-3;
    a.second_preload_n = d.from(0, 2);
    a.second_rate_n_per_m = 1500;
  }
  return c;
}

}  // namespace

Bench random_line(std::uint64_t seed, int count) {
  Dice d(seed);
  const bool alike = d.chance(0.5);
  const bool remanence = d.chance(0.7);
  const bool second = d.chance(0.4);
  const double run_ohm = d.scale(0.05, 1);
  Bench b;
  b.source("supply", "bus", "minus", d.from(14, 28), d.scale(0.1, 3));
  b.contact("key", "bus", "place 0", 0.02, random_kind(d, {false, true, false, false}));
  Coil coil = random_clock(d, remanence, second);
  for (int k = 1; k <= count; ++k) {
    const std::string place = "place " + std::to_string(k);
    b.resistor("place " + std::to_string(k - 1), place, run_ohm);
    if (!alike) coil = random_clock(d, remanence, second);
    b.coil("coil" + std::to_string(k), place, "minus", coil);
    b.resistor(place, "minus", 6000);
  }
  double at = d.from(0, 0.05);
  for (bool closed = true; at < 3; closed = !closed) {
    b.work(at, "key", closed);
    at += d.chance(0.5) ? d.from(0.005, 0.05) : d.from(0.1, 2);
  }
  return b;
}

Bench random_bench(std::uint64_t seed, const RandomKinds& kinds, std::uint64_t order) {
  Dice d(seed);
  std::vector<Making> makings;
  const bool two = d.chance(0.3);
  for (int k = 0; k <= (two ? 1 : 0); ++k) {
    const double emf = d.from(20, 28);
    const double ohm = d.scale(0.1, 3);
    const std::string bus = "bus" + std::to_string(k);
    makings.push_back([=](Bench& b) { b.source("supply" + bus, bus, "minus", emf, ohm); });
  }
  if (two && d.chance(0.5)) {
    const double ohm = d.scale(0.5, 50);
    makings.push_back([=](Bench& b) { b.resistor("bus0", "bus1", ohm); });
  }
  const int branches = 1 + static_cast<int>(d.from(0, 5));
  std::vector<std::pair<double, std::pair<std::string, bool>>> works;
  for (int k = 0; k < branches; ++k) {
    add_branch(d, kinds, k, two && d.chance(0.5) ? "bus1" : "bus0", makings);
    double at = d.from(0, 0.05);
    for (bool closed = true; at < 0.4; closed = !closed) {
      works.push_back({at, {"key" + std::to_string(k), closed}});
      at += d.scale(0.001, 0.2);
    }
  }
  Bench b;
  b.node("minus");
  Dice shuffle(order);
  for (std::size_t i = makings.size(); order != 0 && i > 1; --i) {
    const auto other = static_cast<std::size_t>(shuffle.from(0, static_cast<double>(i)));
    std::swap(makings[i - 1], makings[std::min(other, i - 1)]);
  }
  for (const Making& make : makings) make(b);
  std::sort(works.begin(), works.end());
  for (const auto& [at, work] : works) b.work(at, work.first, work.second);
  return b;
}

}  // namespace sixty::circuit
