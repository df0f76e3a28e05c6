#pragma once

#include <vector>

#include "sim/circuit/armature.hpp"
#include "sim/circuit/response.hpp"
#include "sim/circuit/rosenbrock.hpp"

namespace sixty::circuit {

constexpr double kSmallestStep = 1e-9;  ///< s

/// One step: the variables and their rates at both ends. Per live coil: flux
/// linkage, gap, speed; then the capacitors' voltages.
struct Step {
  double h = 0;
  double error = 0;  ///< over the tolerance, largest of all variables
  std::vector<double> y0, f0, y1, f1;
  std::vector<CurrentSlopes> slopes;  ///< of each live coil, at the start; dense networks only
  double fastest_per_s = 0;           ///< no rate there is faster; dense networks only
};

/// What is summed up of an instant, but for the energy.
struct Flow {
  std::vector<double> source_a, terminal_v;  ///< of each source
  std::vector<double> fuse_share;        ///< of each fuse: heating over what melts it in the end
  std::vector<double> spark_a, spark_v;  ///< of each spark
};

/// The first thing within a step that changes what governs it.
struct Hit {
  enum Kind { kNone, kStop, kTurn, kMark, kKink, kWake, kDiode, kSparkOut };
  double theta = 2;  ///< where in the step, 0..1
  Kind kind = kNone;
  std::size_t element = 0;
  std::size_t mark = 0;
  int direction = 0;
  /// Whether it may be acted on a trifle before it is due. A wake, a turn or a diode's going over
  /// would be undone at once.
  bool may_come_early() const { return kind != kWake && kind != kTurn && kind != kDiode; }
};

/// The equations of motion of a network between two changes of contacts, diodes and rests.
/// Method: Dormand-Prince 5(4) (J. R. Dormand, P. J. Prince, J. Comp. Appl. Math. 6, 1980), and
/// where a current dies away much faster than the step lasts, Rosenbrock 4(3) (rosenbrock.hpp).
/// Equations: dlambda/dt = v - R i; m d2x/dt2 = load - pull +- friction - viscous dx/dt; C du/dt =
/// (v - u)/R.
class Stepper {
 public:
  Stepper(const Network& network, const Inputs& inputs);

  /// Makes ready for steps from a state: `step` gets its beginning.
  void start(const State& from, const Response& response, Step& step) const;
  /// The same where `from` is the end of the step that `step` holds.
  void go_on(const State& from, const Response& response, Step& step) const;
  /// Tries a step of `h` from the state that `step` begins with; it gets the end and the error.
  void run(const State& from, const Response& response, double h, Step& step) const;
  /// Puts the end of a step (or any y of it) into a state.
  void scatter(const Response& response, const std::vector<double>& y, double dt,
               State& state) const;
  /// The variables in the middle of a step, by its Hermite interpolant.
  void middle(const Step& step, std::vector<double>& y) const;
  void interpolate(const Step& step, double s, std::vector<double>& y) const;
  /// The earliest hit of a step, kNone when nothing changes in it. `switching_only`: only what
  /// changes the network for all: contacts, diodes, sparks.
  Hit earliest_hit(const State& from, const Response& response, const Step& step,
                   bool switching_only = false) const;
  /// What else armatures have met by the end of a step that ends at `hit`: at the same instant.
  std::vector<Hit> hits_beside(const State& from, const Response& response, const Step& step,
                               const Hit& hit) const;
  /// The earliest hit of one coil whose three variables went from one end to the other.
  struct Ends {
    const double *y0, *y1, *f0, *f1;
    double h;
  };
  void coil_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const;
  /// Rates of one coil's linkage, gap and speed at a voltage across it.
  void coil_rates(const CoilState& from, std::size_t j, double volts, double current_a,
                  const double* y, double* f) const;
  /// Adds `weight` seconds' worth of a state's currents and powers to the sums.
  void add_to(Ledger& ledger, const State& state, const Response& response, double weight,
              bool energy) const;
  /// What flows, without the energy, `dt` after a state, when the variables have come to `y`.
  void find_flow(const State& from, const Response& response, const double* y, double dt,
                 Flow& flow) const;
  /// The same at the end of a step just run.
  void find_end_flow(const State& from, const Response& response, const Step& step,
                     Flow& flow) const;
  /// Adds `weight` seconds' worth of it.
  void add(Ledger& ledger, const Response& response, const Flow& flow, double weight) const;
  /// Lets fuses cool for a time in which they were heated in its middle.
  void cool_fuses(Ledger& ledger, double h) const;
  /// Signed voltage of a contact's spark.
  double spark_volts(std::size_t contact, const ContactState& s, double dt) const;
  /// Remanence when the flux has gone from where the state has it to `linkage`.
  static double held_at(const CoilState& s, const Magnet& m, double linkage);
  /// Forces on the armature, see forces_at().
  Forces forces(std::size_t j, double linkage, double gap) const;
  double extra_load_n(std::size_t j) const { return inputs_.coil_extra_load_n[j]; }
  double coil_current(std::size_t j, const CoilState& s) const;
  void currents_in(const State& state, const Response& response, std::vector<double>& in) const;

  double linkage_scale(std::size_t j) const { return linkage_scale_[j]; }

 private:
  void gather(const State& state, const Response& response, std::vector<double>& y) const;
  void find_inputs(const State& state, const Response& response, const double* y, double dt) const;
  void find_volts(const State& state, const Response& response, const double* y, double dt,
                  Response::Rows rows) const;
  void find_end_beside(const State& from, const Response& response, const Step& step) const;
  void put_flow(const State& from, const Response& response, double mains_s, Flow& flow) const;
  void rates(const State& state, const Response& response, const double* y, double dt,
             double* f) const;
  template <class Difference>
  double error_of(const Response& response, const State& from, const Difference& difference) const;
  void run_stiff(const State& from, const Response& response, Step& step) const;
  static double held_slack_wb(const Magnet& m) { return m.turns * m.pole_area_m2 * 0.01; }
  static double held_slope(const CoilState& s, const Magnet& m, double linkage_rate);
  CurrentSlopes slopes_of(std::size_t j, const CoilState& s, double linkage_rate) const;
  void put_emfs(const Response& response, double mains_s, std::vector<double>& in) const;
  double outer_slope(const State& from, const Response& response, std::size_t row) const;
  void find_slopes(const State& from, const Response& response, Step& step) const;
  double fastest_rate(const Response& response, const Step& step) const;
  void find_system(const State& from, const Response& response, const Step& step) const;
  StiffSystem::Motion motion_of(std::size_t j, const CoilState& s) const;
  template <class Keep>
  void moving_hits(const CoilState& from, std::size_t j, const Ends& ends, const Keep& keep) const;
  void moving_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const;
  void resting_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const;
  void find_margins(const State& from, const Response& response, const double* y, double dt,
                    std::vector<double>& margins) const;
  void put_margins(const State& from, const Response& response, std::vector<double>& margins) const;
  double where_gone(const State& from, const Response& response, const Step& step,
                    std::size_t which, double margin0, double margin1) const;
  void switch_hits(const State& from, const Response& response, const Step& step, Hit& hit) const;

  const Network& network_;
  const Inputs& inputs_;
  std::vector<double> linkage_scale_;  // per coil, for the error
  double emf_scale_v_ = 1;
  /// What was asked of a response last, and what it answered.
  mutable std::vector<double> in_, out_;
  mutable const Step* end_in_ = nullptr;  ///< whose end that is, nullptr if none's
  mutable bool end_beside_ = false;       ///< and whether what lies beside was answered too
  mutable double kept_h_ = -1;            ///< s; how much of a fuse's heat is left after it
  mutable std::vector<double> fuse_keep_;
  mutable Flow flow_;
  mutable std::vector<double> stage_, k_[7], slope_, margin_, margin0_, margin1_, middle_;
  mutable StiffSystem system_;
  mutable RosenbrockWork work_;
};

}  // namespace sixty::circuit
