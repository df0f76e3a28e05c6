#pragma once

#include <cmath>
#include <cstdint>

#include "sim/base/time.hpp"

/// Physics of one beat, apart from everything that the program knows of parts and events: pure
/// functions, so that each can be tried against closed forms.
namespace sixty::models {

/// What a pendulum with its escapement is made of. Angles are those of the pendulum.
struct PendulumValues {
  double mass_kg = 0;
  double length_m = 0;   ///< equivalent length at `reference_k`, nut untouched
  double q = 0;          ///< 2 pi x energy of the swing / energy lost in a period (ESC-04)
  double air_share = 0;  ///< of that loss, at a swing of 1.5 times `release_rad`
  double gravity_m_per_s2 = 0;
  double release_rad = 0;    ///< angle behind the dead point at which a tooth escapes
  double push_from_rad = 0;  ///< angle before the dead point at which the push begins
  double crutch_offset_rad = 0;
  double efficiency = 0;  ///< share of torque x 6 deg that reaches the pendulum
  double expansion_per_k = 0;
  double reference_k = 0;
  double temperature_k = 0;
  double pressure_pa = 0;
  double bob_density = 0;  ///< Units: kg/m3
  double added_mass = 0;   ///< air that swings with the bob, as share of the air it displaces
  double thread_pitch_m = 0;
};

/// Normal gravity on the GRS80 ellipsoid less the free-air reduction. Units: rad, m, m/s2.
/// Source: Somigliana's formula with the constants of H. Moritz, Geodetic Reference System 1980
/// (PEND-20, PEND-21); first-order free-air gradient (PEND-24).
double site_gravity(double latitude_rad, double height_m);

/// Density of dry air as an ideal gas. Units: Pa, K, kg/m3.
double air_density(double pressure_pa, double temperature_k);

/// Period over that of the same pendulum in a vacuum: buoyancy weakens gravity, air that is
/// carried along adds mass. T/T0 = sqrt((1 + c r)/(1 - r)), r = density of air / density of bob.
double air_ratio(double air_density, double bob_density, double added_mass);

/// Constants of a beat. Index 0: the pendulum passes the dead point one way, 1: the other way.
struct Beat {
  double keep = 0;  ///< share of the swing's energy left after half a period, 1 - pi/Q, less air
  double air_per_root_j = 0;  ///< share that the air takes, over the root of the energy
  double work_rad = 0;        ///< energy given to the pendulum per torque at the escape arbor
  double k2_per_j = 0;        ///< sin^2(A/2) = E/(2 m g L), A the semi-arc
  double half_ns = 0;         ///< half period at the smallest arc
  double late_ns = 0;         ///< half_ns/(2 pi x angle of the push)
  double least_j[2] = {};     ///< energy with which a tooth just escapes
  double release_rad[2] = {};
  double from_rad2[2] = {};  ///< squares of the angles at which the push begins and ends
  double to_rad2[2] = {};
};

/// Range: `nut_turns` raise the bob by the thread's pitch each.
Beat beat_of(const PendulumValues& values, double nut_turns);

/// A pendulum and the wheel behind it, just before the pendulum's next passage of its dead point.
struct Swing {
  SimTime dead_ns = 0;          ///< of that passage; whole nanoseconds
  std::int64_t dead_parts = 0;  ///< and parts of a nanosecond, kPartsPerNs to each
  double energy_j = 0;
  std::int64_t beats = 0;  ///< teeth escaped (half a tooth's pitch each) since the scene's start
  double wound = 0;        ///< steps left in the drive, the last one perhaps not a whole one
  std::int64_t side = 0;   ///< which way it will pass the dead point
};

constexpr double kPartsPerNs = 1048576;

/// What drives the wheel in a beat and what holds it back. Units: N m, both at the escape arbor.
struct Torques {
  double per_step_nm = 0;  ///< of the drive, per wound step
  double drag_nm = 0;      ///< of whatever rides on the arbor at this place
};

enum class Did : std::uint8_t {
  kBeat,   ///< a tooth escaped, the wheel stepped
  kStood,  ///< the drag was not overcome: the wheel stood, the pendulum swung on
  kMissed  ///< the swing was too small to let a tooth escape
};

/// Energy left after half a period: E (1 - pi/Q ((1 - a) + a sqrt(E/E1))), a the share of the air
/// and E1 the energy at which it takes that; a drag by the square of the speed takes an energy that
/// grows with the cube of the swing (from Q's definition, derived).
inline double kept_j(const Beat& beat, double energy_j) {
  if (beat.air_per_root_j == 0) return energy_j * beat.keep;
  return energy_j * (beat.keep - beat.air_per_root_j * std::sqrt(energy_j));
}

/// What the next passage will bring.
Did next_of(const Beat& beat, const Torques& torques, const Swing& swing);
/// Makes beats, at most `most` of them, until something else than a beat is next. Returns how many.
/// Energy: E <- kept_j(E) + efficiency (T - Tc) 6 deg. Half period: period_ratio(E/(2 m g L))
/// times that of the smallest arc, plus the escapement error.
std::int64_t run_beats(const Beat& beat, const Torques& torques, std::int64_t most, Swing& swing);
/// Half a period without the wheel.
void swing_free(const Beat& beat, Swing& swing);

/// The wall that carries the pendulum is knocked: at once it moves with `wall_m_per_s` along the
/// swing (positive: the way in which side 0 passes the dead point), and the bob not yet. Energy and
/// phase follow from the bob's place, which stays, and its speed against the wall, which changes by
/// that. Of a harmonic swing; at 3 degrees the error is below one part in a thousand of the change.
/// Order: the swing's next drop is after `now`.
void knock(const Beat& beat, double mass_kg, double wall_m_per_s, SimTime now, Swing& swing);

/// Escapement error: how much later the next dead point comes for a push of `work_j` spread evenly
/// over the angles from `from` to `to`. Units: ns. A torque tau that acts for dt at the angle
/// theta = A sin(phi) shifts the phase by dphi = -theta tau dt/(I w A^2); with dt = dtheta/(w
/// sqrt(A^2 - theta^2)) the sum over the push is
///   phi = -(tau/(I w^2 A^2)) (sqrt(A^2 - from^2) - sqrt(A^2 - to^2)),
/// and I w^2 A^2 = 2 E, tau = work/(to - from). A push that ends farther from the dead point than
/// it began thus loses time. Source: ESC-03 summed over the push (derived); sign as in G. B. Airy,
/// Trans. Cambridge Phil. Soc. 3 (1830) (ESC-01, ESC-02).
double push_delay_ns(const Beat& beat, std::int64_t side, double k2, double energy_j,
                     double work_j);

/// Semi-arc of a swing. Units: rad.
double semi_arc_rad(const Beat& beat, double energy_j);
/// Energy of a swing with that semi-arc. Units: J.
double energy_of_arc(const Beat& beat, double semi_arc_rad);
/// Time from the dead point to the drop of the wheel, a quarter period if it never drops. Units: s.
double drop_delay_s(const Beat& beat, std::int64_t side, double energy_j);
/// When the wheel will drop at the next passage; time of the extreme if it will not.
SimTime next_drop(const Beat& beat, const Swing& swing);
/// Half period with the swing as it is and the wheel pushing. Units: ns.
double half_period_ns(const Beat& beat, const Torques& torques, const Swing& swing);

}  // namespace sixty::models
