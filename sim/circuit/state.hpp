#pragma once

#include <cmath>
#include <cstdint>
#include <vector>

#include "sim/base/hash.hpp"
#include "sim/circuit/network.hpp"

namespace sixty::circuit {

/// What is decided outside the network and can change at any event: the commanded contacts and the
/// loads that other mechanisms put on armatures.
struct ContactInput {
  double closed_ohm = 0.02;  ///< resistance at the next closing
  double closing_speed_m_per_s = 0;
  std::uint64_t closed = 0;  ///< commanded, for contacts that no armature works
  bool operator==(const ContactInput&) const = default;
};

struct Inputs {
  std::vector<ContactInput> contacts;
  std::vector<double> coil_extra_load_n;
  /// Of the contacts' commanded positions and the loads.
  std::uint64_t commands_hash() const;
  std::uint64_t hash() const {
    return hash_bytes(coil_extra_load_n.data(), coil_extra_load_n.size() * sizeof(double),
                      hash_bytes(contacts.data(), contacts.size() * sizeof(ContactInput)));
  }
};

enum class Rest : std::uint8_t { kOpen, kSeated, kClosing, kOpening, kStuck };
inline bool moving(Rest rest) { return rest == Rest::kClosing || rest == Rest::kOpening; }

enum class Gap : std::uint8_t { kOpen, kClosed, kArc, kGlow };

/// A coil's own variables.
struct CoilState {
  double linkage_wb = 0;
  double held_a = 0;  ///< remanence, see Magnet
  double gap_m = 0;
  double speed_m_per_s = 0;  ///< dx/dt, negative while closing
  Rest rest = Rest::kOpen;
  std::uint8_t expecting = 0;  ///< driven, and not yet started
  std::uint8_t pad[6] = {};
};

/// A contact's own variables.
struct ContactState {
  double ohm = 0.02;      ///< resistance of the present closing; the network's own while dry
  double timer_s = 0;     ///< till the next bounce edge; age of an arc
  double flight_s = 0;    ///< how long the next bounce keeps it open, 0 when it lies still
  double spark_sign = 0;  ///< direction of a spark's current
  Gap gap = Gap::kOpen;
  std::uint8_t commanded = 0;
  /// No source reaches it, so that nothing has felt its film yet: what the inputs say of the
  /// closing is read when one does. So equal moments are found equal, whatever lies under idle
  /// contacts.
  std::uint8_t dry = 1;
  std::uint8_t pad[5] = {};
};

inline bool sparking(const ContactState& s) { return s.gap == Gap::kArc || s.gap == Gap::kGlow; }

/// How long a bouncing contact stays as it is; a spark burns at most till the blade is back.
/// Range: while flight_s > 0. Units: s.
inline double till_bounce_edge_s(const ContactState& s) {
  return sparking(s) ? s.flight_s - s.timer_s : s.timer_s;
}

/// Everything that the network's future depends on, besides Network and Inputs.
struct State {
  std::vector<CoilState> coils;
  std::vector<ContactState> contacts;
  std::vector<double> capacitor_v;
  std::vector<std::uint8_t> diode_on;
  double mains_s = 0;  ///< since the alternating voltage was last zero; 0 where nothing feels it

  std::uint64_t hash() const;
  bool same(const State& other) const;
};

/// Electromotive force of a source at a time since the alternating voltage was zero. Units: V, s.
double emf_v(const Source& source, double mains_s, double half_period_s);
double mean_v(const Source& source);
/// How fast it changes. Units: V/s.
double emf_slope(const Source& source, double mains_s, double half_period_s);
/// State at rest with the contacts as the network and the inputs have them.
State rest_state(const Network& network);
Inputs initial_inputs(const Network& network);

/// Running sums that the future does not depend on.
struct Ledger {
  std::vector<double> charge_as;  ///< through each source
  std::vector<double> least_v;    ///< at the terminals of each source, infinite before any step
  std::vector<double> most_a;     ///< from each source, of largest size either way
  std::vector<double> spark_j;    ///< in each contact
  /// Heat of each fuse at the end, and its most, if it was cold at the start: share of what melts
  /// it.
  std::vector<double> fuse_heat, fuse_most;
  std::vector<double> fuse_keep;  ///< share that is left at the end of the heat it began with
  double source_j = 0;            ///< delivered by the sources' electromotive forces
  double heat_j = 0;              ///< in all resistances, diodes and sparks
  double work_j = 0;              ///< done by the pull on the armatures
  double impact_j = 0;            ///< lost at stops
  double friction_j = 0;
};

/// Makes the extremes of a source hold these too.
inline void widen(Ledger& ledger, std::size_t source, double volts, double current_a) {
  if (volts < ledger.least_v[source]) ledger.least_v[source] = volts;
  const bool more = std::fabs(current_a) > std::fabs(ledger.most_a[source]);
  if (more) ledger.most_a[source] = current_a;
}
/// Before anything has happened.
Ledger empty_ledger(const Network& network);

}  // namespace sixty::circuit
