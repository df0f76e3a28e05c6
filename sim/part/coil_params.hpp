#pragma once

#include <string_view>
#include <vector>

#include "sim/part/air.hpp"

namespace sixty {

/// Parameters that parts with a coil have in common, by the same names: the winding and its iron,
/// an armature, and what a person wants to see of them.
///
/// Winding: resistance, temperature, turns, pole_area, residual_gap, iron_length, saturation,
/// permeability, coercive_force, shunt, shorted_turns, lead; and the air about it.
void declare_winding(Declaration& d, bool required);
/// Armature: stroke, moving_mass, preload, rate, second_gap, second_preload, second_rate, friction,
/// rebound_seat, rebound_open.
void declare_armature(Declaration& d, bool required);
/// starts, seats, leaves, returns, sticks, held.
void declare_armature_events(Declaration& d);

/// What a hand sets right at an armature: the spring's load at the open stop, and the gap there.
/// `set_spring` and `set_gap` are declared in this order.
struct HandRange {
  double least = 0, most = 0;
};
void declare_armature_care(Declaration& d, HandRange spring_n, HandRange gap_m);
constexpr std::uint16_t kArmatureCare = 2;  ///< commands
/// Does one of them. `care`: 0 or 1, counted from the first. A gap that would leave no way to one
/// of the armature's marks is refused. Returns whether it was done.
bool tend_armature(std::uint16_t care, double value, int coil, Ctx& ctx);

/// Slowly raised and lowered voltage at a coil. Units: V. Range: with armature.
double pull_in_v(const circuit::Coil& coil, double extra_load_n = 0);
double drop_out_v(const circuit::Coil& coil, double extra_load_n = 0);

/// A coil as it was built into the network.
struct BuiltCoil {
  int number = -1;
  circuit::Coil coil;
  double shorted_ohm = 0;  ///< what its shorted turns are to the rest, see add_coil(); 0: none are
  CopperInAir copper;

  bool has_armature() const { return coil.armature.present; }
  /// Order: at each change of a link.
  void follow(Ctx& ctx) const { copper.follow(number, ctx); }
};

/// The coil that the parameters describe, not yet in the network. Contradictions are refused.
circuit::Coil coil_of(Builder& b, circuit::Node a, circuit::Node node_b);
/// Puts a coil, the resistor across it (parameter shunt, 0: none) and the one in its lead
/// (parameter lead) into the network. A share f of the turns that is shorted among itself
/// (parameter shorted_turns) is to the terminals what a resistor R (1 - f)/f across the whole coil
/// would be: with turns as tightly coupled as in this magnet, the other turns and what the shorted
/// ones draw through them make up the whole coil's flux again. Source: two windings on one core, N1
/// = (1 - f) N, Ns = f N, R in proportion, V = R1 i1 + N1 dF/dt, 0 = Rs is + Ns dF/dt (derived).
BuiltCoil add_coil(Builder& b, circuit::Coil coil);

/// Flux density in a coil's iron as a share of what saturates it, and the pull on its armature now.
double iron_share(const Reader& r, int coil);
double pull_now_n(const Reader& r, int coil);
/// A current as a drawing tells it: what is left of one that dies away is none. Units: A.
inline double told_a(double current_a) {
  return current_a > -1e-4 && current_a < 1e-4 ? 0 : current_a;
}

/// Readings current, volts, gap, speed, flux, in this order.
constexpr std::size_t kCoilReadings = 5;
void declare_coil_readings(Declaration& d);
/// Range: reading < kCoilReadings, counted from the first of them.
double read_coil(const Reader& r, const BuiltCoil& coil, std::size_t reading);

/// How often a coil was driven in vain, as a person counts it: a contact that bounces, sparks or
/// chatters takes the coil away and gives it back within one drive. Plain, for a part's state.
class DrivesInVain {
 public:
  void held(const circuit::Located& held, SimTime now);
  /// The armature has started: what was taken away shortly before was given back.
  void started(SimTime now);
  std::int64_t count() const { return count_ + waiting_; }
  /// "<name> was driven 3 times without <what>: ..." and why. Range: count() > 0.
  std::string sentence(const std::string& name, const std::string& what) const;

 private:
  void judge();
  std::int64_t count_ = 0;    ///< drives that are over
  std::int64_t waiting_ = 0;  ///< 1: the last one may yet go on
  SimTime last_ = 0;          ///< when that was taken away
  double last_v_ = 0, last_needed_v_ = 0;
  double weak_v_ = 0, weak_needed_v_ = 0;  ///< of the weakest that lacked volts, 0: none did
};

/// Full trace: why an armature did not start, with the volts measured and needed.
void explain_held(const circuit::Located& held, Ctx& ctx);

}  // namespace sixty
