#pragma once

#include <memory>
#include <vector>

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// Node voltages once all is steady: coils are resistors, capacitors carry nothing.
struct SteadyNodes {
  std::vector<double> volts;
  std::vector<int> island;
  bool joined(Node a, Node b) const {
    return island[static_cast<std::size_t>(a)] == island[static_cast<std::size_t>(b)];
  }
  /// Range: joined nodes; between others anything may stand.
  double drop(Node a, Node b) const {
    return volts[static_cast<std::size_t>(a)] - volts[static_cast<std::size_t>(b)];
  }
};

/// The linear network that is left when coil currents, capacitor voltages, contacts and diodes are
/// given: all node voltages follow from one set of nodal equations, factored once.
/// Conducting parts form islands; a coil whose ends lie in different islands has no way for its
/// current and is `open`.
class Plan {
 public:
  Plan(const Network& network, const State& state);
  ~Plan();
  Plan(const Plan&) = delete;
  Plan& operator=(const Plan&) = delete;

  /// Node voltages, each island counted from its lowest-numbered node. Units: A, V.
  /// `coil_a` a current for each coil, `capacitor_v` a voltage for each capacitor, `spark_v` the
  /// signed voltage of each contact's spark (unused unless sparking), `emf_v` that of each source
  /// (unused unless rectified). All may be null: nothing there, a rectified source its mean.
  struct Given {
    const double *coil_a = nullptr, *capacitor_v = nullptr, *spark_v = nullptr, *emf_v = nullptr;
  };
  void node_voltages(const Given& given, std::vector<double>& node_v) const;
  /// The same of a state in which contacts and diodes stand as in the plan's. A coil that carries
  /// next to nothing counts as without current.
  void node_voltages_in(const State& state, std::vector<double>& node_v) const;
  static SteadyNodes steady(const Network& network, const State& state);

  bool open_coil(std::size_t j) const { return island_[coil_a_[j]] != island_[coil_b_[j]]; }
  int island_of(Node n) const { return island_[static_cast<std::size_t>(n)]; }
  /// Sum of the conductances at a node; infinite at an island's reference. Units: S.
  double node_siemens(std::size_t n) const;
  std::uint64_t key() const { return key_; }
  /// What of the state a plan depends on.
  static std::uint64_t key_of(const State& state);

 private:
  struct Factor;
  Plan(const Network& network, const State& state, bool coils_as_resistors);
  void join_islands(const Network& network, const State& state, bool coils_as_resistors);
  void stamp(const Network& network, const State& state, bool coils_as_resistors);

  const Network& network_;
  std::vector<int> island_;  // per node
  std::vector<std::size_t> coil_a_, coil_b_;
  std::vector<int> unknown_;  // per node, -1 for an island's reference
  std::vector<ContactState> contacts_;
  std::vector<std::uint8_t> diode_on_;
  std::vector<double> constant_;  // injections of the sources and diode drops, per node
  std::unique_ptr<Factor> factor_;
  std::uint64_t key_ = 0;
};

/// Voltage of a burning spark that carries next to nothing, signed as its current. Units: V.
/// Range: sparking. `dt`: how much older it is than the state tells, s.
double spark_volts(const ContactKind& kind, const ContactState& s, double dt);
/// Current through a contact with so many volts across it. Units: A.
double contact_current_a(const Contact& contact, const ContactState& s, double volts);

/// Conductance of a burning spark's linear part. Units: S. A stiff source of the arc voltage.
constexpr double kSparkSiemens = 2.0;

}  // namespace sixty::circuit
