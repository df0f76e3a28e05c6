#pragma once

#include <map>
#include <memory>
#include <vector>

#include "sim/circuit/blocks.hpp"
#include "sim/circuit/plan.hpp"

namespace sixty::circuit {

/// A plan made ready for many evaluations: voltages at the things whose state changes, from the
/// state. Up to kMatrixLimit variables one matrix tells all; beyond, a sparse solve, whose cost
/// grows only linearly with the network.
class Response {
 public:
  Response(const Network& network, const State& state);

  /// Coils whose state can change: not dormant (no current, at rest, no source in their island).
  const std::vector<std::size_t>& live() const { return live_; }
  /// A current can come through the contact.
  bool awake_contact(std::size_t k) const { return awake_.contacts[k] != 0; }
  const std::vector<std::size_t>& sparks() const { return sparks_; }
  /// Sources whose electromotive force changes with time.
  const std::vector<std::size_t>& rectified() const { return rectified_; }
  /// `in`: currents of the live coils, voltages of all capacitors, signed voltages of all sparks,
  /// electromotive forces of the rectified sources.
  /// `out`: voltages of the live coils, capacitor branches, sparking contacts, rectified sources,
  /// all sources at their terminals, fuses, diodes whose ends are joined.
  void voltages(const double* in, double* out) const { voltages(in, out, {0, outputs()}); }
  /// Rows of `out`, from the first on and without the last.
  struct Rows {
    std::size_t first = 0, last = 0;
  };
  /// The same of some rows only; the others stay as they are.
  void voltages(const double* in, double* out, Rows rows) const;
  /// What the state's rates ask for: live coils, capacitors, sparks.
  Rows rows_of_state() const { return {0, first_emf()}; }
  /// What switches and is summed up: from the sparks on.
  Rows rows_beside() const { return {live_.size() + capacitors_, outputs()}; }
  std::size_t inputs() const { return first_emf() + rectified_.size(); }
  /// Where in `in` the electromotive forces begin.
  std::size_t first_emf() const { return live_.size() + capacitors_ + sparks_.size(); }
  std::size_t first_diode() const {
    return inputs() + network_.sources.size() + network_.fuses.size();
  }
  std::size_t outputs() const { return first_diode() + joined_diodes_.size(); }
  /// Diodes between whose ends there is a voltage.
  const std::vector<std::size_t>& joined_diodes() const { return joined_diodes_; }
  /// So few variables that an implicit step pays. gain() may then be asked.
  bool small() const { return inputs() <= kSmall; }
  /// Change of output `row` with input `column`. Range: has_matrix().
  double gain(std::size_t row, std::size_t column) const {
    return matrix_[column * outputs() + row];
  }
  /// All node voltages for the same `in`.
  void nodes(const double* in, std::vector<double>& node_v) const;
  /// Volts at the coil per ampere through it: what its own current costs it. In a large network
  /// only what its own terminals meet is counted (exact for a coil alone with its shunt).
  double self_ohm(std::size_t live_index) const;
  const Plan& plan() const { return plan_; }
  /// Where the contacts and diodes as they are lead in the end. Range: nothing sparks.
  /// What no source feeds carries exactly nothing, and what idle contacts have as film matters to
  /// no bit of it.
  struct Steady {
    Awake fed;
    std::vector<double> coil_a;              ///< per coil
    std::vector<double> capacitor_v;         ///< per capacitor that does not keep its charge
    std::vector<std::uint8_t> keeps_charge;  ///< no steady way for a current round it
    /// A rectified source feeds something: it ends in hum, not at rest, and the rest is a mean.
    bool hums = false;
  };
  const Steady& steady(const State& state) const;

 private:
  static constexpr std::size_t kSmall = 24;
  static constexpr std::size_t kMatrixLimit = 48;
  bool has_matrix() const { return inputs() <= kMatrixLimit; }
  void spread(const double* in) const;
  double difference(const std::vector<double>& node_v, std::size_t row) const;

  const Network& network_;
  Plan plan_;
  Awake awake_;
  std::vector<std::size_t> live_;
  std::vector<std::size_t> sparks_;
  std::vector<std::size_t> rectified_;
  std::vector<std::size_t> joined_diodes_;
  std::size_t capacitors_ = 0;
  mutable std::unique_ptr<const Steady> steady_;
  std::vector<double> matrix_;  // column by column, the last one is the constant
  mutable std::vector<double> coil_a_, capacitor_v_, spark_v_, emf_v_, node_v_;
};

/// What a humming network does in each half period of the mains.
struct Orbit {
  bool exists = false;  ///< else an armature trembles
  State zero;           ///< where the mains go through zero
  Ledger cycle;         ///< from there to the next zero
};

/// Closed contacts that nothing comes through once all is steady forget their film.
void dry_idle_contacts(const Network& network, const Awake& fed, State& state);

/// The responses of one network that were asked for lately, so that the few that a transient goes
/// to and fro between are built once. Range: lives no longer than the network.
class Responses {
 public:
  explicit Responses(const Network& network) : network_(network) {}
  std::shared_ptr<const Response> find(const State& state);
  /// Where a humming network ends up, by the hash of where the search began.
  std::map<std::uint64_t, std::shared_ptr<const Orbit>>& orbits() { return orbits_; }

 private:
  static constexpr std::size_t kMost = 64;
  struct Known {
    std::uint64_t key = 0;
    std::shared_ptr<const Response> response;
  };
  const Network& network_;
  std::vector<Known> known_;
  std::size_t oldest_ = 0;
  std::map<std::uint64_t, std::shared_ptr<const Orbit>> orbits_;
};

}  // namespace sixty::circuit
