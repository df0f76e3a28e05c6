#pragma once

namespace sixty::circuit {

/// Electromagnet with two equal working gaps in series. Without iron (length 0) it is the ideal one
/// with L(x) = mu0 N^2 A / (2 (x + g0)). A coil without armature has a fixed `inductance_h`.
/// Equations: B = lambda/(N A); N i = H(B, x) - c; H = 2 (x + g0) B/mu0 + l B Bs/(mui mu0 (Bs -
/// |B|)), until the iron is so full that more flux costs it what air would ask, and from there
/// dH/dB = 2 (x + g0)/mu0 + l/mu0; pull = A B^2/mu0. No eddy currents, leakage or fringing. c is
/// the magnetomotive force that the iron's remanence keeps: 0 while the flux rises, up to the
/// coercive one when it falls. Source: B = mu0 N i/(2 g) and F = B^2 A/(2 mu0) a gap, as in M. S.
/// Sarma, Introduction to Electrical Engineering, example 12.1.1 (MAG-04, MAG-05); saturation
/// curve: own choice.
struct Magnet {
  double inductance_h = 0;  ///< fixed inductance of a coil without armature; 0: use what follows
  double turns = 0;
  double pole_area_m2 = 0;
  double residual_gap_m = 0;            ///< g0, at each of the two gaps, armature seated
  double iron_length_m = 0;             ///< l
  double saturation_t = 2.0;            ///< Bs
  double relative_permeability = 2000;  ///< mui, far from saturation
  double coercive_a = 0;                ///< Fc, ampere-turns
};

/// Load on an armature, in the direction that opens the gap, by gap: preload + rate (stroke - x),
/// and once x < second_from: + second_preload + second_rate (second_from - x).
/// Friction acts against the motion: friction + viscous |speed|; at rest it withstands
/// stiction x friction. The parts' own is Coulomb's, with as much at rest.
struct Armature {
  bool present = false;
  double stroke_m = 0;  ///< gap at the open stop
  double seat_m = 0;    ///< gap at the inner stop (a gong, a seat)
  double mass_kg = 0;
  double preload_n = 0;
  double rate_n_per_m = 0;
  double second_from_m = 0;
  double second_preload_n = 0;
  double second_rate_n_per_m = 0;
  double friction_n = 0;
  double stiction = 1;           ///< friction at rest over friction in motion
  double viscous_n_s_per_m = 0;  ///< growth of the friction with the speed
  double rebound_seat = 0;       ///< share of the speed kept at the inner stop
  double rebound_open = 0;       ///< share of the speed kept at the open stop
};

/// H(B, x) of the class comment. Units: ampere-turns.
double field_strength_a(const Magnet& m, double flux_density_t, double gap_m);
/// Flux density at which H(B, x) takes a value. Units: T.
double flux_density_t(const Magnet& m, double ampere_turns, double gap_m);
/// Remanence lies on a grid where a stretch ends, so that ends that differ by nothing are one: in
/// so many steps up to the coercive force. At rest a step is worth less than a thousandth of what
/// pulls in.
constexpr double kHeldAtRest = 16;
constexpr double kHeldInMotion = 256;
double held_on_grid(double held_a, double coercive_a, double grid);
/// Coil current at a flux linkage. Units: Wb turns, m, A. `held_a` is c of the class comment.
double coil_current_a(const Magnet& m, double linkage_wb, double gap_m, double held_a);
/// Flux linkage at a coil current.
double linkage_wb(const Magnet& m, double current_a, double gap_m, double held_a);
/// Pull on the armature. Units: N.
double pull_n(const Magnet& m, double linkage_wb);
/// How the coil current changes with the flux linkage and with the gap, remanence unchanged.
struct CurrentSlopes {
  double per_wb = 0;  ///< A/Wb
  double per_m = 0;   ///< A/m
};
CurrentSlopes current_slopes(const Magnet& m, double linkage_wb, double gap_m);
/// How the pull changes with the flux linkage. Units: N/Wb.
double pull_slope(const Magnet& m, double linkage_wb);
/// Energy of the field at a flux linkage. Units: J.
double field_energy_j(const Magnet& m, double linkage_wb, double gap_m);
/// Net force that an armature at rest withstands. Units: N.
inline double stiction_n(const Armature& a) { return a.stiction * a.friction_n; }
/// Load without friction, opening the gap. `extra_n` is added once x < second_from.
double load_n(const Armature& a, double gap_m, double extra_n);

/// What a slowly changed current does. Units: A.
struct Statics {
  double starts_a = 0;     ///< armature leaves the open stop
  double pulls_in_a = 0;   ///< largest current that any gap needs on the way in
  double drops_out_a = 0;  ///< seated armature lets go below this; negative: held without current
};
/// Range: armature present. The pull-in is searched over 512 gaps.
Statics statics(const Magnet& m, const Armature& a, double extra_n);

}  // namespace sixty::circuit
