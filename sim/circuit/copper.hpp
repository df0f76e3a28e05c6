#pragma once

namespace sixty::circuit {

/// Conductivity of standard annealed copper at 20 degC. Units: S/m. Source: IEC 60028 (WIRE-10).
constexpr double kCopperSiemensPerM = 58e6;
/// Rise of copper's resistance per kelvin, of its value at 20 degC. Source: IEC 60028 (WIRE-11).
constexpr double kCopperPerK = 0.00393;
constexpr double kCopperReferenceK = 293.15;  ///< 20 degC

/// Resistance at a temperature over that at 20 degC. Linear law, WIRE-20.
double copper_factor(double temperature_k);

/// Resistance of a solid conductor. Units: m, m2, K, ohm.
double copper_ohm(double length_m, double area_m2, double temperature_k);

/// Cross-section of a solid conductor by American wire gauge; 0 is 1/0, -1 is 2/0, -3 is 4/0.
/// Units: m2. Source: ASTM B258, d = 0.005 in x 92^((36 - n)/39) (WIRE-01).
double awg_area_m2(int gauge);

}  // namespace sixty::circuit
