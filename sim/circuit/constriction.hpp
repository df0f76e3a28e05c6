#pragma once

namespace sixty::circuit {

/// Resistivity and hardness of a contact's metal. Source: silver, CONT-01 (published) and CONT-05
/// (R. Holm, Electric Contacts, 4th ed. 1967, from memory: middle of 3e8 to 7e8 Pa).
struct ContactMetal {
  double resistivity_ohm_m = 1.59e-8;
  double hardness_pa = 5e8;
};

/// Radius of the one spot in which two fully yielding faces meet. Units: N, m.
/// Source: R. Holm, Electric Contacts, 4th ed. (1967), chapters 1 and 3 (CONT-04).
double spot_radius_m(const ContactMetal& metal, double force_n);
/// Resistance of the current's narrowing to such a spot, both faces of one metal: rho/(2a)
/// (CONT-02).
double constriction_ohm(double resistivity_ohm_m, double spot_radius_m);
/// The same from the force, (rho/2) sqrt(pi H/F) (CONT-04).
double constriction_ohm(const ContactMetal& metal, double force_n);
/// Temperature of the spot at a voltage across the closed contact, T = sqrt(T0^2 + U^2/(4L)).
/// Units: V, K. Source: Kohlrausch and Holm (CONT-06, CONT-07).
double spot_temperature_k(double volts, double ambient_k);

}  // namespace sixty::circuit
