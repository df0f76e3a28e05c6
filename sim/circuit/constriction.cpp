#include "sim/circuit/constriction.hpp"

#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::circuit {

double spot_radius_m(const ContactMetal& metal, double force_n) {
  return std::sqrt(force_n / (kPi * metal.hardness_pa));
}

double constriction_ohm(double resistivity_ohm_m, double spot_radius_m) {
  return resistivity_ohm_m / (2 * spot_radius_m);
}

double constriction_ohm(const ContactMetal& metal, double force_n) {
  return constriction_ohm(metal.resistivity_ohm_m, spot_radius_m(metal, force_n));
}

double spot_temperature_k(double volts, double ambient_k) {
  constexpr double kLorenz = 2.44e-8;  // V2/K2, CONT-06
  return std::sqrt(ambient_k * ambient_k + volts * volts / (4 * kLorenz));
}

}  // namespace sixty::circuit
