#include "sim/circuit/copper.hpp"

#include "sim/base/math.hpp"

namespace sixty::circuit {

double copper_factor(double temperature_k) {
  return 1 + kCopperPerK * (temperature_k - kCopperReferenceK);
}

double copper_ohm(double length_m, double area_m2, double temperature_k) {
  return length_m / (kCopperSiemensPerM * area_m2) * copper_factor(temperature_k);
}

double awg_area_m2(int gauge) {
  constexpr double kInch = 0.0254;
  const double diameter = 0.005 * kInch * det_pow(92, (36.0 - gauge) / 39);
  return kPi / 4 * diameter * diameter;
}

}  // namespace sixty::circuit
