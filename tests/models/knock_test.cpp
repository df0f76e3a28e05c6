// A knock at the wall that carries the pendulum.
#include <gtest/gtest.h>

#include <cmath>

#include "models/movement/escapement.hpp"
#include "sim/base/math.hpp"
#include "tests/models/bench_minimal.hpp"
#include "tests/models/trial.hpp"

namespace sixty {
namespace {

using models::Beat;
using models::Swing;

constexpr double kMass_kg = 7;

Beat free_beat() {
  models::PendulumValues v;
  v.mass_kg = kMass_kg;
  v.length_m = 0.994;
  v.q = 1e12;
  v.gravity_m_per_s2 = 9.81;
  v.release_rad = 0.017;
  v.bob_density = 8000;
  v.temperature_k = v.reference_k = 293.15;
  return models::beat_of(v, 0);
}

/// A pendulum's equation, followed by small steps: angle and angular speed after a time, and when
/// it next passes the dead point.
struct Pendulum {
  double angle = 0, speed = 0;  // rad, rad/s
  double w2 = 9.81 / 0.994;

  void step(double dt) {  // fourth-order Runge-Kutta
    const auto f = [&](double a) { return -w2 * std::sin(a); };
    const double k1a = speed, k1s = f(angle);
    const double k2a = speed + dt / 2 * k1s, k2s = f(angle + dt / 2 * k1a);
    const double k3a = speed + dt / 2 * k2s, k3s = f(angle + dt / 2 * k2a);
    const double k4a = speed + dt * k3s, k4s = f(angle + dt * k3a);
    angle += dt / 6 * (k1a + 2 * k2a + 2 * k3a + k4a);
    speed += dt / 6 * (k1s + 2 * k2s + 2 * k3s + k4s);
  }
  double energy_j() const {
    const double l = 0.994;
    return kMass_kg * (l * l * speed * speed / 2 + 9.81 * l * (1 - std::cos(angle)));
  }
  double next_dead_s(bool forwards) const {
    Pendulum p = *this;
    const double dt = 1e-5;
    for (double t = 0; t < 3; t += dt) {
      const double before = p.angle;
      p.step(dt);
      const bool passes = forwards ? before < 0 && p.angle >= 0 : before > 0 && p.angle <= 0;
      if (passes) return t + dt * before / (before - p.angle);
    }
    return -1;
  }
};

// From 0.9 s before the dead point, when the bob still swings out on the other side, to 0.15 s
// behind it, where the tooth drops at the earliest.
TEST(KnockTest, GivesEnergyAndPhaseOfThePendulumsEquation) {
  const Beat beat = free_beat();
  for (const double wall : {0.004, -0.004, 0.03, -0.03, -0.12}) {
    for (const double before_s : {0.9, 0.6, 0.4, 0.1, 0.0, -0.15}) {
      for (const std::int64_t side : {0, 1}) {
        Swing swing;
        swing.energy_j = models::energy_of_arc(beat, 0.0305);
        swing.side = side;
        swing.dead_ns = 10 * kSecond;
        Pendulum p;
        p.speed = std::sqrt(2 * swing.energy_j / kMass_kg) / 0.994 * (side == 0 ? 1 : -1);
        const int steps = 20000;
        for (int n = 0; n < steps; ++n) p.step(-before_s / steps);
        const SimTime now = swing.dead_ns - from_seconds(before_s);
        models::knock(beat, kMass_kg, wall, now, swing);
        p.speed -= wall / 0.994;
        EXPECT_NEAR(swing.energy_j / p.energy_j(), 1, 5e-4)
            << wall << " m/s " << before_s << " s, side " << side;
        const double due_s = to_seconds(swing.dead_ns - now);
        if (due_s <= 0) continue;  // it has passed already and its tooth is about to drop
        EXPECT_NEAR(due_s, p.next_dead_s(side == 0), 1e-3)
            << wall << " m/s " << before_s << " s, side " << side;
      }
    }
  }
}

std::string bench_knocked(const std::string& script) {
  std::string yaml = bench_minimal();
  yaml.replace(yaml.find("connect: {drive: rewind.spring}"), 31,
               "connect: {drive: rewind.spring, surroundings: air.air}");
  yaml.insert(yaml.find("  movement:"), "  air: {type: climate}\n");
  return yaml + script;
}

TEST(KnockedClockTest, FindsItsArcAgain) {
  Trial trial(bench_knocked("  - at 2 h: air.knock 5 mm/s\n"));
  trial.run_to(7199);
  const double arc = trial.read("movement.semi_arc");
  trial.run_to(7203);
  const double knocked = trial.read("movement.semi_arc");
  EXPECT_GT(std::fabs(knocked - arc), 0.01 * arc);
  trial.run_to(36000);
  EXPECT_LT(std::fabs(trial.read("movement.semi_arc") - arc), 0.02 * std::fabs(knocked - arc));
}

// The bob passes the dead point with 0.095 m/s, 0.17 s before the tooth drops. A wall that then
// goes with it takes nearly all of that; one that comes against it doubles the swing.
TEST(KnockedClockTest, StopsWhenTheKnockTakesItsSwing) {
  const auto stops = [](const char* speed) {
    Trial trial(bench_knocked(std::string("  - at 10.83 s: air.knock ") + speed + "\n"));
    trial.run_to(60);
    return trial.when("movement", "stops").has_value();
  };
  EXPECT_NE(stops("0.08 m/s"), stops("-0.08 m/s"));
}

TEST(KnockedClockTest, GoesTheSameWayStepByStepAndAgain) {
  const std::string yaml =
      bench_knocked("  - at 95.3 s: air.knock 6 mm/s\n  - at 151.27 s: air.knock -9 mm/s\n");
  Trial trial(yaml);
  trial.run_to(3600);
  const std::uint64_t hash = trial.session().state_hash();
  trial.session().seek(from_seconds(90));
  trial.session().seek(from_seconds(3600));
  EXPECT_EQ(trial.session().state_hash(), hash);
  Session::Options step_by_step;
  step_by_step.queue_each_step = true;
  Trial other(yaml, {}, step_by_step);
  other.run_to(3600);
  EXPECT_EQ(other.read("movement.error"), trial.read("movement.error"));
  EXPECT_EQ(other.read("movement.semi_arc"), trial.read("movement.semi_arc"));
}

}  // namespace
}  // namespace sixty
