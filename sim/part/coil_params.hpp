#pragma once

#include <string_view>
#include <vector>

#include "sim/part/part.hpp"

namespace sixty {

/// Parameters that parts with a coil have in common, by the same names: the winding and its iron,
/// an armature, and what a person wants to see of them.
///
/// Winding: resistance, temperature, turns, pole_area, residual_gap, iron_length, saturation,
/// permeability, coercive_force, shunt.
void declare_winding(Declaration& d, bool required);
/// Armature: stroke, moving_mass, preload, rate, second_gap, second_preload, second_rate, friction,
/// rebound_seat, rebound_open.
void declare_armature(Declaration& d, bool required);
/// starts, seats, leaves, returns, sticks, held.
void declare_armature_events(Declaration& d);

/// A coil as it was built into the network.
struct BuiltCoil {
  int number = -1;
  circuit::Coil coil;

  /// Slowly raised and lowered voltage at the coil itself. Units: V. Range: with armature.
  double pull_in_v(double extra_load_n = 0) const;
  double drop_out_v(double extra_load_n = 0) const;
  bool has_armature() const { return coil.armature.present; }
};

/// The coil that the parameters describe, not yet in the network. Contradictions are refused.
circuit::Coil coil_of(Builder& b, circuit::Node a, circuit::Node node_b);
/// Puts a coil and the resistor across it (parameter shunt, 0: none) into the network.
BuiltCoil add_coil(Builder& b, circuit::Coil coil);

/// Readings current, volts, gap, speed, flux, in this order.
constexpr std::size_t kCoilReadings = 5;
void declare_coil_readings(Declaration& d);
/// Range: reading < kCoilReadings, counted from the first of them.
double read_coil(const Reader& r, int coil, std::size_t reading);

/// Full trace: why an armature did not start, with the volts measured and needed.
void explain_held(const circuit::Located& held, Ctx& ctx);

}  // namespace sixty
