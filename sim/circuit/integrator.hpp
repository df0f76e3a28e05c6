#pragma once

#include <memory>
#include <stdexcept>
#include <utility>
#include <vector>

#include "sim/circuit/located.hpp"
#include "sim/circuit/lone_coil.hpp"
#include "sim/circuit/response.hpp"
#include "sim/circuit/step.hpp"

namespace sixty::circuit {

/// A transient that cannot be followed to its end.
struct IntegrationFailure : std::runtime_error {
  IntegrationFailure(double at_s, Owner of)
      : std::runtime_error("a transient does not come to an end"), t_s(at_s), owner(of) {}
  double t_s;   ///< since the stretch began
  Owner owner;  ///< of a coil that moves or carries current, -1 for none
};

/// Follows a network from one state under unchanging inputs until all has come to rest (the steady
/// state is then set exactly), telling the instants at which contacts and armatures act. A pure
/// function of (network, inputs, start): the same bytes on every call.
///
/// An instant is found on the step's cubic Hermite interpolant; the step is then redone to end
/// there. In a large network only what works a contact ends the step for all; a coil that meets a
/// stop goes its own way through the step (lone_coil.hpp). Stops are rigid.
class Integrator {
 public:
  /// `start` still has the contacts as they were until this instant; where `inputs` command
  /// another position the change is made first. `energy`: keep the sums of heat, work and the like.
  Integrator(const Network& network, const Inputs& inputs, const State& start, bool energy = false);
  /// The same with responses that others use too.
  Integrator(const Network& network, const Inputs& inputs, const State& start,
             std::shared_ptr<Responses> responses, bool energy = false);

  /// Goes on until `until_s` lies within the last step, or all is at rest, or as much has happened
  /// as makes a stretch. Units: s since the start.
  /// Errors: IntegrationFailure.
  void advance(double until_s);
  void advance_stretch(double until_s = 1e18);
  bool settled() const { return settled_; }
  /// A contact that an armature works has broken and made again.
  bool strikes() const { return cycled_; }
  /// It has settled in hum: it is where it was half a period of the mains ago, at their zero.
  bool hums() const { return hums_; }
  double time_s() const { return t_; }
  const std::vector<Located>& events() const { return events_; }
  const State& state() const { return now_; }
  /// The same with all that goes on put on a grid (fractions of 1/16384 of each variable's scale):
  /// where a stretch ends that has not settled. The strokes of an interrupter so become exactly
  /// alike after a few.
  State state_on_grid() const;
  const Ledger& ledger() const { return ledger_; }

  /// State and sums at a time within the last step, or after the settling.
  State state_at(double t_s) const;
  /// Fuses' heat is not followed beyond the settling.
  Ledger ledger_at(double t_s) const;
  /// Sums over one second of what goes on as it is now; no fuse cools in it.
  Ledger steady_second() const;
  /// Coils whose voltage the start changed noticeably (more than a tenth of the largest source).
  const std::vector<std::uint8_t>& driven_anew() const { return driven_anew_; }
  /// What was read of each contact's inputs, as bits.
  enum Consulted : std::uint8_t { kFilmRead = 1, kSpeedRead = 2 };
  const std::vector<std::uint8_t>& consulted() const { return consulted_; }

 private:
  void advance_once();
  void guard_steps();
  void settle();
  using Shared = std::shared_ptr<const Response>;

  void begin(const Inputs& inputs);
  void command(std::size_t contact, bool closed, double speed, std::int32_t cause);
  void touch(std::size_t contact, double speed);
  void open(std::size_t contact, std::int32_t cause, double volts, double current_a);
  std::vector<double> response_voltages() const;
  std::vector<double> coil_volts() const;
  double contact_volts(std::size_t contact) const;
  void find_currents();
  void after_switching(const std::vector<double>& volts_before, std::int32_t cause);
  void judge_drive(std::size_t j, double before, double after, std::int32_t cause);
  bool wet_contacts();
  bool mend_diodes();
  bool strike_sparks();
  bool free_currents();
  bool divert(std::size_t j, double current_a);

  bool release_rest(std::size_t j);
  void release_rests();
  void tell_turn(Turn turn, std::size_t j, double t, const CoilState& s, double volts);
  void wake(std::size_t j, int direction);
  void act(const Hit& hit);
  void arrive(std::size_t j, bool seat);
  void pass(std::size_t j, const Mark& mark);
  void run_timers(double h);
  double step_limit() const;
  void keep_previous();
  void begin_step();
  void turn_mains();
  void step_once();
  void add_flows();
  void add_beginning_and_middle();
  void add_by_pieces(Ledger& ledger, double length_s) const;
  Hit find_step(double limit);
  Hit find_step_with_lone_ways(double limit);
  bool accurate_step(double& h);
  std::vector<Hit> other_workers(const Hit& hit) const;
  void find_lone_ways(std::size_t forced);
  void tell_lone_ways();
  bool all_lies_still() const;
  bool settle_coil(std::size_t j, double end_a, CoilState& s) const;
  bool rest_on_grid(std::size_t j, double end_a, CoilState& s) const;
  void give_up_expecting();
  void tell_balanced(const State& steady);
  bool try_settle();
  bool try_hum(const Response::Steady& end);
  bool is_near(const State& zero, const Awake& fed, double share) const;
  State with_orbit(const Awake& fed) const;
  std::shared_ptr<const Orbit> find_orbit(const Response::Steady& end) const;
  State near_orbit(const Response::Steady& end) const;
  std::shared_ptr<const Orbit> follow_to_orbit(const State& from) const;
  std::shared_ptr<const Orbit> orbit_from(const State& zero) const;
  void rest_there(const State& state, const Awake& fed);
  void add_steady(Ledger& ledger, double length_s) const;
  bool stays(std::size_t j, const CoilState& s) const;
  bool capacitors_rest(const Response::Steady& end) const;
  void emit(What what, std::size_t element, std::int32_t cause, double volts, double needed = 0);
  Located& put_event(What what, std::size_t element, double t, std::int32_t cause, double volts);
  void emit_coil(What what, std::size_t j, double t, std::int32_t cause, const CoilState& s,
                 double volts);

  const Network& network_;
  Inputs inputs_;
  bool energy_;
  Stepper stepper_;
  double emf_scale_v_ = 1;
  double t_ = 0;
  double h_ = 20e-6;
  std::size_t steps_ = 0, guarded_events_ = 0;
  bool settled_ = false;
  bool hums_ = false;
  bool at_zero_ = false;  ///< the last step ended where the alternating voltage went through zero
  std::shared_ptr<const Orbit> orbit_;  ///< that it has settled in, or tries to find
  bool finds_orbit_ = false;
  bool zero_known_ = false;
  State zero_;                ///< at the zero of the mains before
  std::size_t strikers_ = 0;  ///< contacts that armatures have broken
  bool cycled_ = false;       ///< a contact worked by an armature has broken and made again
  bool smooth_ = false;       ///< the last step ended with nothing happening
  State now_;
  State prev_;
  double t_prev_ = 0;
  Ledger ledger_;
  Ledger ledger_prev_;
  std::shared_ptr<Responses> responses_;
  Shared response_;
  Shared response_prev_;
  std::vector<std::uint8_t> worked_by_mark_;  // per contact
  std::vector<std::uint8_t> broken_;          // per contact: by an armature, since the start
  std::vector<Located> events_;
  std::vector<std::int32_t> drive_cause_;
  std::vector<std::int32_t> motion_cause_;
  std::vector<std::uint8_t> driven_anew_;
  std::vector<std::uint8_t> consulted_;
  std::vector<std::pair<std::size_t, double>> just_opened_;  // contact, current it carried
  Step step_;
  std::vector<double> middle_;
  Flow flow_, middle_flow_, end_flow_;
  bool flow_goes_on_ = false;  ///< flow_ is what flows now, if nothing has happened since
  std::vector<std::pair<std::size_t, LoneWay>> lone_ways_;  // coils that met something in the step
};

}  // namespace sixty::circuit
