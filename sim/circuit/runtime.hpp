#pragma once

#include <memory>
#include <vector>

#include "sim/base/ids.hpp"
#include "sim/circuit/fuses.hpp"

namespace sixty::circuit {

/// A happening with its cause as an event's id. Good until the network's next stretch begins.
struct Happening {
  const Located* located = nullptr;
  EventId cause = kSceneStart;
};

/// The network's part of a running world: plain values and shared immutable stretches, so that
/// copying it is a matter of a microsecond.
struct NetworkData {
  std::shared_ptr<const Network> network;
  std::shared_ptr<Network> edited;  ///< the next one, while its values are being changed
  Met met;
  SimTime began = 0;
  std::size_t next = 0;      ///< in the stretch's events
  SimTime next_at = kNever;  ///< when the network acts next of itself, kNever if it rests
  Inputs inputs;
  std::uint64_t mark = 0;    ///< of the inputs, other for others; kept by those that change them
  bool changed = false;      ///< inputs were changed since `began`
  std::vector<EventId> ids;  ///< of the stretch's events: the first `next` have one
  EventId cut_cause = kSceneStart;
  std::vector<EventId> drive_cause, motion_cause;  ///< per coil, from before the stretch
  Ledger total;                                    ///< up to `began`
  Fuses fuses;
  Located melted;  ///< what the last fuse that melted told
};

/// Sets a network running at a time: capacitors charged, all else at rest.
NetworkData begin_network(std::shared_ptr<const Network> network, SimTime now, Memo& memo);
/// Takes the next happening, which becomes event `id`; nothing happens at a mere end of a stretch.
/// Order: only at next_time(). Errors: IntegrationFailure, where a transient can be followed no
/// more.
bool take(NetworkData& data, EventId id, Memo& memo, Happening& happening);
/// Commands a contact: felt by the next recut(). The resistance alone is felt with what else
/// changes.
void set_contact(NetworkData& data, std::size_t contact, const ContactInput& input);
/// Loads an armature: likewise. Units: N.
void set_load(NetworkData& data, std::size_t coil, double newton);
/// Elements to change the values of (not their number or nodes): felt by the next recut().
Network& edit(NetworkData& data);
/// Makes the changed inputs (or network) felt at `now`; they were changed by event `cause`.
void recut(NetworkData& data, SimTime now, EventId cause, Memo& memo);
/// Sums from the start to `now`.
Ledger ledger_at(const NetworkData& data, SimTime now, Memo& memo);
/// Heat of a fuse at `now`: share of what melts it.
double fuse_heat(const NetworkData& data, std::size_t fuse, SimTime now, Memo& memo);
std::uint64_t state_hash(const NetworkData& data);

/// Looks at a network at any time without changing it; looking onward through one stretch is cheap.
class Probe {
 public:
  void look(const NetworkData& data, SimTime now);
  double coil_current_a(std::size_t coil) const;
  double coil_volts(std::size_t coil) const;
  double contact_current_a(std::size_t contact) const;
  double source_current_a(std::size_t source) const;
  double field_energy_j() const;
  const State& state() const { return state_; }
  /// Nothing changes any more until something is done to the network.
  bool rests() const;
  /// All goes on in the same way in each half period of the mains.
  bool hums() const;
  /// Between two nodes; 0 where no conducting way joins them.
  double volts(Node a, Node b) const;

 private:
  void look_within(double offset_s);
  void look_at_hum(double rested_s);
  void find_node_voltages();

  const Network* network_ = nullptr;
  std::shared_ptr<const Stretch> stretch_;
  std::shared_ptr<const State> start_;
  std::shared_ptr<const Idle> idle_;
  std::unique_ptr<Integrator> integrator_;  ///< none until one looks into what has not come to rest
  double offset_s_ = -1;
  State state_;
  std::unique_ptr<const Plan> plan_;  ///< of the whole network, as its contacts stood last
  std::vector<double> node_v_;
};

}  // namespace sixty::circuit
