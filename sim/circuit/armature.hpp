#pragma once

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// Lets a moving armature meet a stop: it stays or flies back. Returns the energy lost. Units: J.
double meet_stop(CoilState& s, const Armature& a, bool seat);
/// Lets an armature whose speed has come to nothing turn back or stick, by the net force without
/// friction (positive opens). Returns true if it sticks.
bool turn_back(CoilState& s, const Armature& a, double force_n);

}  // namespace sixty::circuit
