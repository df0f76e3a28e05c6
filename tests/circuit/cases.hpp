#pragma once

#include "tests/circuit/bench.hpp"

namespace sixty::circuit {

/// The five cases with reference values in tests/circuit/cases: derived from their equations, not
/// measured. Cases 1 and 5 are linear (matrix exponentials at 40 digits); the armatures of 2, 3 and
/// 4 were followed by a Runge-Kutta method of 8th order at a relative tolerance of 1e-12, and again
/// by other solvers. Ideal iron, no eddy currents. Signals are named as in the scenes beside them.
Bench case_1();  ///< linear coil, resistor and capacitor across the contact
Bench case_2();  ///< relay with armature, resistor and capacitor across the contact
Bench case_3();  ///< the same relay, resistor and diode across the coil
Bench case_4();  ///< two coils with armatures on one source
Bench case_5();  ///< five linear coils on one source

}  // namespace sixty::circuit
