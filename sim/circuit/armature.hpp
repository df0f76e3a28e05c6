#pragma once

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// Lets a moving armature meet a stop: it stays or flies back. Returns the energy lost. Units: J.
double meet_stop(CoilState& s, const Armature& a, bool seat);
/// Net forces without friction on an armature, positive opens: what it feels when it starts to
/// close and when it starts to open. They differ where the second spring is just touched. Units: N.
struct Forces {
  double closing_n = 0;
  double opening_n = 0;
};
Forces forces_at(const Armature& a, double gap_m, double extra_n, double pull_n);

/// Net force that an armature at rest withstands: its friction when at rest, and a trifle for the
/// rounding of the sum of its loads, so that one in balance stays. Units: N.
double hold_n(const Armature& a, double extra_n);

/// Where near its gap an armature would lie in balance between its load and the pull of a steady
/// current: without friction it never stops swinging about that place. `reach_m` is how far from
/// there is as good as there, and how far the swing that its speed is worth may go. Errors:
/// negative where no stable balance is that near.
double balance_gap_m(const Coil& coil, const CoilState& s, double current_a, double extra_n,
                     double reach_m);

enum class Turn : std::uint8_t { kBack, kSticks, kSeats, kReturns };
/// Lets an armature whose speed has come to nothing turn back, stick, or rest at the stop that it
/// had hardly left. `extra_n`: load beyond the second gap, `pull_n`: of the magnet.
Turn turn_back(CoilState& s, const Armature& a, double extra_n, double pull_n);

}  // namespace sixty::circuit
