#pragma once

#include <cstdint>
#include <vector>

#include "sim/circuit/magnet.hpp"

namespace sixty::circuit {

using Node = std::int32_t;   ///< number of a joined set of terminals
using Owner = std::int32_t;  ///< who is told of what happens at an element

/// Electromotive force behind a resistance (> 0).
struct Source {
  Node plus = 0, minus = 0;
  double emf_v = 0, resistance_ohm = 0;
  Owner owner = -1;
  /// It is a rectified alternating voltage, |emf_v sin(w t)|; rectified by ideal diodes of its own,
  /// so that a current flows on through it where a coil drives one.
  bool rectified = false;
  /// Of a rectified one: where its least volts are kept, against minus; -1: at plus.
  Node watched = -1;

  Node terminal() const { return watched >= 0 ? watched : plus; }
};

/// Wire, joint, ballast, the resistor of a suppression network. Range: > 0 ohm.
struct Resistor {
  Node a = 0, b = 0;
  double resistance_ohm = 0;
};

/// Capacitor with its series resistance (> 0).
struct Capacitor {
  Node a = 0, b = 0;
  double capacitance_f = 0, resistance_ohm = 0;
};

/// Ideal diode with a series resistance (> 0) and a constant forward drop.
struct Diode {
  Node anode = 0, cathode = 0;
  double resistance_ohm = 0, forward_v = 0;
};

/// What a pair of contacts does when it closes (bounce) and when it opens under current (spark).
/// Bounce: the moving blade of mass m, pressed by force F, flies back for 2 e u m/F at an impact of
/// speed u and keeps e of it; while it touches it conducts. Spark: with more current than the least
/// arc current and more voltage than the least arc voltage an arc burns at
/// U = arc_v + arc_gradient * gap until the current falls below the least one; without enough
/// current, but with more voltage than breaks down the gap, a glow discharge at glow_v carries it.
/// Source: least arc values and glow threshold CONT-14, CONT-22 (contact-protection network data
/// sheets); bounce 1-5 ms MAG-14 (common practice); gradient and opening speed: common practice, no
/// source.
struct ContactKind {
  bool bounces = false;
  double moving_mass_kg = 0.0008;
  double force_n = 0.1;
  double restitution = 0.4;
  double touch_s = 0.0002;  ///< how long an impact conducts
  bool sparks = false;
  double arc_min_a = 0.4;
  double arc_v = 12;
  double arc_gradient_v_per_m = 40e3;
  double glow_v = 320;
  double glow_min_a = 0.001;
  double opening_speed_m_per_s = 0.03;
};

/// Contact, switch, key, finger, wire of a fuse: conducts or does not.
struct Contact {
  Node a = 0, b = 0;
  double closed_ohm = 0.02;  ///< at the start; > 0
  bool closed = false;       ///< at the start
  ContactKind kind;
  Owner owner = -1;
};

/// A wire that melts, and then opens its contact. Heating: d(heat)/dt = ((i/melts_a)^2 - heat)/tau
/// melts at heat = 1; so it carries less than melts_a for ever, blows after
/// tau ln(x/(x - 1)) at x = (i/melts_a)^2 from cold, and its melting integral is melts_a^2 tau.
/// Source: one body that heats and cools in proportion (derived).
struct Fuse {
  std::int32_t contact = -1;   ///< what conducts while it is whole
  double melts_a = 1;          ///< least current that ever melts it; > 0
  double time_constant_s = 1;  ///< tau; > 0
};

/// A place on an armature's way at which something happens: a contact is worked, a pawl drops.
struct Mark {
  double gap_m = 0;
  int direction = -1;         ///< -1: passed while closing, +1: while opening
  std::int32_t contact = -1;  ///< contact that it works, -1 for none
  bool closes = false;        ///< what it does to the contact
  std::uint16_t code = 0;     ///< told to the owner; unused when `contact` is set
};

/// Winding with resistance, an inductance that its magnet gives, perhaps an armature.
struct Coil {
  Node a = 0, b = 0;
  double resistance_ohm = 0;
  Magnet magnet;
  Armature armature;
  std::vector<Mark> marks;
  Owner owner = -1;
};

/// All that is electrical in an installation, and the armatures that its coils move. Immutable
/// while it runs; a changed value (a fault, a repair, the temperature) makes a new Network.
struct Network {
  Node node_count = 0;
  std::vector<Source> sources;
  double half_period_s = 0.01;  ///< of the alternating voltage that is rectified
  std::vector<Resistor> resistors;
  std::vector<Capacitor> capacitors;
  std::vector<Diode> diodes;
  std::vector<Contact> contacts;
  std::vector<Fuse> fuses;
  std::vector<Coil> coils;

  /// Equal for equal values.
  std::uint64_t hash() const;
};

}  // namespace sixty::circuit
