#include "models/movement/escapement.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::models {
namespace {

constexpr double kStepRad = 6 * kPi / 180;  // of the escape wheel in a beat (ESC-08)
constexpr std::int64_t kParts = static_cast<std::int64_t>(kPartsPerNs);

// Somigliana's formula, constants of GRS80 (PEND-21).
constexpr double kEquatorGravity = 9.7803267715;
constexpr double kGravityGrowth = 0.001931851353;
constexpr double kEccentricity2 = 0.00669438002290;
constexpr double kFreeAir = 3.086e-6;  // 1/s2 (PEND-24)

constexpr double kAirSwing = 1.5;  // swing over the one that lets a tooth escape (judgement)

constexpr double kDryAirGasConstant = 287.05;  // J/(kg K), published, from memory

double square(double x) { return x * x; }

/// A^2 from sin^2(A/2), by the series of the arcsine's square; the next term is below 1e-12 of it
/// at 10 degrees.
double arc2(double k2) { return 4 * k2 * (1 + k2 * (1.0 / 3 + k2 * (8.0 / 45 + k2 * (4.0 / 35)))); }

double half_swing_ns(const Beat& b, double k2) { return b.half_ns * period_ratio(k2); }

// What is cut off, half a part in the mean, is 15 ns in a year.
void add_time(Swing& s, double ns) {
  s.dead_parts += static_cast<std::int64_t>(ns * kPartsPerNs);
  s.dead_ns += s.dead_parts / kParts;
  s.dead_parts %= kParts;
}

void set_side(const PendulumValues& v, double offset_rad, std::size_t side, Beat& b) {
  b.release_rad[side] = v.release_rad + offset_rad;
  b.to_rad2[side] = square(b.release_rad[side]);
  b.from_rad2[side] = square(offset_rad - v.push_from_rad);
  b.least_j[side] = b.release_rad[side] > 0 ? energy_of_arc(b, b.release_rad[side]) : 0;
}

}  // namespace

double site_gravity(double latitude_rad, double height_m) {
  const double sin2 = square(det_sin(latitude_rad));
  const double normal =
      kEquatorGravity * (1 + kGravityGrowth * sin2) / std::sqrt(1 - kEccentricity2 * sin2);
  return normal - kFreeAir * height_m;
}

double air_density(double pressure_pa, double temperature_k) {
  return pressure_pa / (kDryAirGasConstant * temperature_k);
}

double air_ratio(double density, double bob_density, double added_mass) {
  const double r = density / bob_density;
  return std::sqrt((1 + added_mass * r) / (1 - r));
}

Beat beat_of(const PendulumValues& v, double nut_turns) {
  const double length = v.length_m * (1 + v.expansion_per_k * (v.temperature_k - v.reference_k)) -
                        nut_turns * v.thread_pitch_m;
  const double air =
      air_ratio(air_density(v.pressure_pa, v.temperature_k), v.bob_density, v.added_mass);
  Beat b;
  b.keep = 1 - kPi / v.q * (1 - v.air_share);
  b.work_rad = v.efficiency * kStepRad;
  b.k2_per_j = 1 / (2 * v.mass_kg * v.gravity_m_per_s2 * length);
  b.half_ns = kPi * std::sqrt(length / v.gravity_m_per_s2) * air * 1e9;
  b.late_ns = b.half_ns / (2 * kPi * (v.release_rad + v.push_from_rad));
  if (v.air_share > 0)
    b.air_per_root_j =
        kPi / v.q * v.air_share / std::sqrt(energy_of_arc(b, kAirSwing * v.release_rad));
  set_side(v, v.crutch_offset_rad, 0, b);
  set_side(v, -v.crutch_offset_rad, 1, b);
  return b;
}

double push_delay_ns(const Beat& b, std::int64_t side, double k2, double energy_j, double work_j) {
  const double a2 = arc2(k2);
  const double before = std::sqrt(std::max(a2 - b.from_rad2[side], 0.0));
  const double after = std::sqrt(std::max(a2 - b.to_rad2[side], 0.0));
  return b.late_ns * (work_j / energy_j) * (before - after);
}

Did next_of(const Beat& b, const Torques& t, const Swing& s) {
  if (s.energy_j < b.least_j[s.side]) return Did::kMissed;
  return s.wound >= 1 && t.per_step_nm * s.wound > t.drag_nm ? Did::kBeat : Did::kStood;
}

// A year has 31 million beats, so nothing in the loop is a call.
[[gnu::flatten]] std::int64_t run_beats(const Beat& b, const Torques& t, std::int64_t most,
                                        Swing& swing) {
  Swing s = swing;
  std::int64_t done = 0;
  while (done < most && next_of(b, t, s) == Did::kBeat) {
    const double torque = t.per_step_nm * s.wound - t.drag_nm;
    const double work = b.work_rad * torque;
    const std::int64_t side = s.side;
    s.energy_j = kept_j(b, s.energy_j) + work;
    const double k2 = s.energy_j * b.k2_per_j;
    add_time(s, half_swing_ns(b, k2) + push_delay_ns(b, side, k2, s.energy_j, work));
    s.side = 1 - side;
    s.wound -= 1;
    ++done;
  }
  s.beats += done;
  swing = s;
  return done;
}

void swing_free(const Beat& b, Swing& s) {
  s.energy_j = kept_j(b, s.energy_j);
  add_time(s, half_swing_ns(b, s.energy_j * b.k2_per_j));
  s.side = 1 - s.side;
}

void knock(const Beat& b, double mass_kg, double wall_m_per_s, SimTime now, Swing& s) {
  const double half_ns = half_swing_ns(b, s.energy_j * b.k2_per_j);
  const double phase = static_cast<double>(now - s.dead_ns) / half_ns * kPi;
  const double along = s.side == 0 ? wall_m_per_s : -wall_m_per_s;
  const double most = std::sqrt(2 * s.energy_j / mass_kg);  // speed at the dead point
  const double place = most * det_sin(phase);               // as the speed that it would give there
  const double speed = most * det_cos(phase) - along;
  const double after = std::sqrt(place * place + speed * speed);
  s.energy_j = mass_kg / 2 * after * after;
  if (after <= 0) return;
  const double rise = det_asin(place / after);
  const double fresh_ns = half_swing_ns(b, s.energy_j * b.k2_per_j);
  // What moves the other way, or was turned back before its tooth dropped, first swings out there.
  const double to_dead_ns = fresh_ns * (speed < 0 ? 1 + rise / kPi : -rise / kPi);
  s.dead_ns = now + from_seconds(to_dead_ns * 1e-9);
  s.dead_parts = 0;
}

double semi_arc_rad(const Beat& b, double energy_j) {
  return 2 * det_asin(std::sqrt(energy_j * b.k2_per_j));
}

double energy_of_arc(const Beat& b, double semi_arc) {
  return square(det_sin(semi_arc / 2)) / b.k2_per_j;
}

double drop_delay_s(const Beat& b, std::int64_t side, double energy_j) {
  const double k2 = energy_j * b.k2_per_j;
  const double a2 = arc2(k2);
  const double share = a2 > b.to_rad2[side] ? b.release_rad[side] / std::sqrt(a2) : 1.0;
  return det_asin(share) / kPi * half_swing_ns(b, k2) * 1e-9;
}

SimTime next_drop(const Beat& b, const Swing& s) {
  return s.dead_ns + from_seconds(drop_delay_s(b, s.side, s.energy_j));
}

double half_period_ns(const Beat& b, const Torques& t, const Swing& s) {
  const double k2 = s.energy_j * b.k2_per_j;
  double ns = half_swing_ns(b, k2);
  if (next_of(b, t, s) != Did::kBeat) return ns;
  const double torque = t.per_step_nm * s.wound - t.drag_nm;
  for (std::int64_t side = 0; side < 2; ++side) {
    ns += push_delay_ns(b, side, k2, s.energy_j, b.work_rad * torque) / 2;
  }
  return ns;
}

}  // namespace sixty::models
