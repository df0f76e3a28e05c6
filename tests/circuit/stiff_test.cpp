// Steps longer than what dies away in them, and what makes equal moments be found equal.
#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "sim/base/rng.hpp"
#include "sim/circuit/rosenbrock.hpp"
#include "sim/circuit/runtime.hpp"
#include "tests/circuit/bench.hpp"

namespace sixty::circuit {
namespace {

TEST(SmallMatrixTest, SolvesAsALibraryDoes) {
  for (std::size_t n = 1; n <= 12; ++n) {
    SmallMatrix a;
    a.reset(n);
    Eigen::MatrixXd reference(n, n);
    Eigen::VectorXd right(n);
    std::uint64_t draw = 0;
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        const double value = uniform_draw(n, 7, 1, draw++) - 0.5;
        a.at(i, j) = value;
        reference(static_cast<int>(i), static_cast<int>(j)) = value;
      }
      right(static_cast<int>(i)) = uniform_draw(n, 7, 2, i);
    }
    std::vector<double> b(right.data(), right.data() + n);
    std::vector<double> scratch(n);
    a.factor();
    a.solve(b.data(), scratch.data());
    const Eigen::VectorXd x = reference.partialPivLu().solve(right);
    for (std::size_t i = 0; i < n; ++i) EXPECT_NEAR(b[i], x(static_cast<int>(i)), 1e-9);
  }
}

/// A system of three coils, of which the second lies still, and two capacitors, written out whole.
struct WholeSystem {
  static constexpr std::size_t kCoils = 3, kCapacitors = 2, kSize = 3 * kCoils + kCapacitors;
  StiffSystem system;
  Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(kSize, kSize);

  WholeSystem() {
    std::uint64_t draw = 0;
    const auto any = [&draw] { return uniform_draw(1, 7, 3, draw++) - 0.5; };
    const auto place = [](std::size_t row) {
      return static_cast<int>(row < kCoils ? 3 * row : 2 * kCoils + row);
    };
    system.reset(kCoils, kCapacitors);
    for (std::size_t i = 0; i < kCoils + kCapacitors; ++i) {
      for (std::size_t j = 0; j < kCoils + kCapacitors; ++j) {
        slopes(place(i), place(j)) = system.slope(i, j) = any();
      }
      for (const std::size_t q : {0U, 2U}) {
        slopes(place(i), place(q) + 1) = system.by_gap(i, q) = any();
      }
    }
    for (const std::size_t q : {0U, 2U}) {
      system.motion(q) = {true, any(), 1 + any(), 1 + any()};
      const int gap = place(q) + 1;
      slopes(gap, gap + 1) = 1;
      slopes(gap + 1, gap - 1) = -system.motion(q).pull_slope;
      slopes(gap + 1, gap) = -system.motion(q).rate_slope;
      slopes(gap + 1, gap + 1) = -system.motion(q).drag_slope;
    }
  }
};

TEST(StiffSystemTest, SolvesWhatTheWholeMatrixSays) {
  WholeSystem whole;
  const int n = WholeSystem::kSize;
  ASSERT_EQ(whole.system.size(), WholeSystem::kSize);
  for (const double w : {0.7, 4.0, 300.0}) {
    Eigen::VectorXd right(n);
    for (int i = 0; i < n; ++i) right(i) = uniform_draw(2, 7, 4, static_cast<std::uint64_t>(i));
    std::vector<double> b(right.data(), right.data() + n);
    whole.system.factor(w);
    whole.system.solve(b.data());
    const Eigen::MatrixXd matrix = w * Eigen::MatrixXd::Identity(n, n) - whole.slopes;
    const Eigen::VectorXd x = matrix.partialPivLu().solve(right);
    for (int i = 0; i < n; ++i) EXPECT_NEAR(b[static_cast<std::size_t>(i)], x(i), 1e-9) << w;
  }
}

/// y' = -k (y - cos t) - sin t + (y - cos t)^2 from y(0) = 2, by `steps` equal steps to t = 1.
/// With e = y - cos t it is e' = -k e + e^2, a Bernoulli equation: e = k/(1 + (k - 1) exp(k t)).
double error_at_one(double k, int steps) {
  double y = 2;
  double t = 0;
  const double h = 1.0 / steps;
  StiffSystem system;
  RosenbrockWork work;
  for (int n = 0; n < steps; ++n, t += h) {
    const auto rates = [&](const double* at, double dt, double* f) {
      const double e = *at - std::cos(t + dt);
      *f = -k * e - std::sin(t + dt) + e * e;
    };
    double f0 = 0;
    rates(&y, 0, &f0);
    const double e = y - std::cos(t);
    system.reset(0, 1);
    system.slope(0, 0) = -k + 2 * e;
    const double slope = -k * std::sin(t) - std::cos(t) + 2 * e * std::sin(t);
    double y1 = 0;
    rosenbrock_step(&y, &f0, system, &slope, h, rates, work, &y1);
    y = y1;
  }
  return std::fabs(y - (std::cos(1.0) + k / (1 + (k - 1) * std::exp(k))));
}

TEST(RosenbrockTest, ConvergesWithTheFourthOrder) {
  for (const int steps : {20, 40, 80}) {
    const double ratio = error_at_one(3, steps) / error_at_one(3, 2 * steps);
    EXPECT_GT(ratio, 12) << steps << " steps";  // 16 in the limit, 8 of the third order
    EXPECT_LT(ratio, 24) << steps << " steps";
  }
}

TEST(RosenbrockTest, StaysStableHoweverFastSomethingDiesAway) {
  EXPECT_LT(error_at_one(1e6, 20), 1e-5);  // explicit steps would need a million
}

/// A coil with its shunt, cut off by a contact: the current dies away in L/(R + Rs).
TEST(StiffTest, ACurrentDiesAwayInItsShuntAsTheFormulaSays) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.5);
  bench.contact("key", "plus", "fed", 0.02);
  Coil coil;
  coil.resistance_ohm = 100;
  coil.magnet.inductance_h = 0.5;
  bench.coil("coil", "fed", "minus", coil);
  bench.resistor("fed", "minus", 1500);
  bench.work(0, "key", true);
  bench.work(1, "key", false);
  const double start = bench.at(1, true).state.coils[0].linkage_wb;
  for (const double t : {1e-4, 3e-4, 1e-3, 3e-3}) {
    const double expected = start * std::exp(-t * 1600 / 0.5);
    EXPECT_NEAR(bench.at(1 + t).state.coils[0].linkage_wb, expected, 1e-5 * start) << t << " s";
  }
}

/// A large capacitor behind a large resistance takes eleven days, and hardly any work.
TEST(StiffTest, WhatIsSlowTakesLongSteps) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.5);
  bench.contact("key", "plus", "fed", 0.02);
  bench.resistor("fed", "top", 1e6);
  bench.capacitor("store", "top", "minus", 1, 0.1);
  bench.work(0, "key", true);
  EXPECT_NEAR(bench.at(1e6).state.capacitor_v[0], 24 * (1 - std::exp(-1)), 1e-3);
}

// Nothing is ever switched here: a diode must conduct from the first instant.
TEST(DiodeTest, ConductsFromTheStartWhereItIsForwardBiased) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.3);
  bench.diode("plus", "lamp", 0.01, 0.7);
  bench.resistor("lamp", "minus", 100);
  bench.meter("lamp", "lamp", "minus");
  EXPECT_NEAR(bench.value(bench.at(1), "lamp"), (24 - 0.7) * 100 / 100.31, 1e-6);
}

/// A key worked once a second over a coil; beside it lies a closed contact that nothing comes
/// through, with another film each time.
std::size_t transients_of(bool film_of_the_idle_one, bool film_of_the_key) {
  Bench bench;
  bench.source("supply", "plus", "minus", 24, 0.5);
  bench.contact("key", "plus", "fed", 0.02);
  bench.contact("idle", "plus", "nowhere", 0.02);
  bench.resistor("nowhere", "nobody", 10);
  Coil coil;
  coil.resistance_ohm = 100;
  coil.magnet.inductance_h = 0.5;
  bench.coil("coil", "fed", "minus", coil);
  bench.resistor("fed", "minus", 1500);
  Memo memo;
  NetworkData data = begin_network(std::make_shared<const Network>(bench.network()), 0, memo);
  EventId id = 1;
  Happening happening;
  for (int k = 1; k <= 40; ++k) {
    const SimTime now = k * kSecond;
    while (data.next_at <= now) take(data, id++, memo, happening);
    ContactInput key = data.inputs.contacts[0];
    ContactInput idle = data.inputs.contacts[1];
    key.closed = k % 2 == 1 ? 1 : 0;
    idle.closed = 1;
    if (film_of_the_key) key.closed_ohm = 0.02 + 0.001 * k;
    if (film_of_the_idle_one) idle.closed_ohm = 0.02 + 0.001 * k;
    set_contact(data, 0, key);
    set_contact(data, 1, idle);
    recut(data, now, id++, memo);
  }
  return memo.computed();
}

TEST(MemoTest, TheFilmOfAnIdleContactMakesNoTransientNew) {
  EXPECT_EQ(transients_of(true, false), transients_of(false, false));
  EXPECT_GT(transients_of(false, true), transients_of(false, false) + 20);
}

}  // namespace
}  // namespace sixty::circuit
