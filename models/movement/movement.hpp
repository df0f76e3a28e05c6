#pragma once

#include <string>
#include <vector>

#include "models/movement/escapement.hpp"
#include "models/movement/escapement_outline.hpp"
#include "sim/part/missed.hpp"
#include "sim/part/part.hpp"

namespace sixty::models {

enum MovementEvent : std::uint16_t { kBeatDrops = 1, kWheelStands, kSwingTooSmall, kWheelResumes };
enum MovementCommand : std::uint16_t { kStart, kStop, kTurnNut, kSetHands, kSetCrutch, kTurnHands };
enum MovementLink : std::uint16_t { kDrive, kAir };  // that it takes
enum MovementReading : std::size_t {
  kArc,
  kRate,
  kTick,
  kTock,
  kBeatError,
  kShownError,
  kEscapeTorque,
  kPosition,
  kPendulumAngle,
  kWheelAngle,
  kTemperature
};

enum class Going : std::int64_t {
  kAtRest,    ///< the bob hangs still
  kBeats,     ///< wheel and pendulum go
  kStands,    ///< the wheel's torque is too small for what rides on it; the pendulum swings on
  kTooSmall,  ///< the pendulum swings on, but lets no tooth escape any more
};

/// The clock at its last accounted moment, and as it will be at the scheduled one.
struct MovementState {
  Beat beat;
  Swing now, ahead;
  Going going = Going::kAtRest;
  double nut_turns = 0;
  double crutch_rad = 0;  ///< off centre
  double temperature_k = 0, pressure_pa = 0;
  std::int64_t knocks = 0;  ///< of the surroundings, that it has felt
  SimTime hands_ns = 0;     ///< how far the hands were set forward
  EventHandle next;
  EventId since = kSceneStart;   ///< event at which `ahead` was foreseen
  std::int64_t since_beats = 0;  ///< and the beats until then
  SimTime still_since = 0;       ///< when the hands stopped; kNever while they go
  SimTime first_dead_ns = 0;     ///< when the clock was last started
  std::int64_t first_beats = 0;
  MissedMinutes stood;
  std::int64_t first_place = 0;  ///< of the seconds hand at the scene's start
};

/// Pendulum, escapement and train. Between two places of the escape arbor at which something rides,
/// the beats are stepped in a loop: the part keeps the state of the last accounted beat and the one
/// at the next such place, for which an event is scheduled. Whatever changes the drive or the
/// pendulum meanwhile, or wants to know, first brings the account up to the present.
class Movement final : public Part {
 public:
  explicit Movement(Builder& builder);
  void start(Ctx& ctx) const override;
  void on_event(const Event& event, Ctx& ctx) const override;
  void on_rebuilt(Ctx& ctx) const override;
  SimTime catch_up(SimTime now, States all) const override;
  Step next_step(SimTime after, const Reader& reader) const override;
  double read(std::size_t reading, const Reader& reader) const override;
  void report(Report& report, const Reader& reader) const override;
  void draw(Figure& figure, const Pose& at, const Reader& reader) const override;
  std::vector<Voice> voices() const override;

 private:
  void command(const Event& event, Ctx& ctx, MovementState& s) const;
  void let_go(double semi_arc, Ctx& ctx, MovementState& s) const;
  void arrive(const Event& event, Ctx& ctx, MovementState& s) const;
  void stand_still(const Event& event, Ctx& ctx, MovementState& s) const;
  void tell_riders(Ctx& ctx, const MovementState& s) const;
  void publish(States all, MovementState& s) const;
  void predict(EventId since, Ctx& ctx, MovementState& s) const;
  std::int64_t place(const MovementState& s, std::int64_t beats) const;
  std::int64_t beats_to_next_place(const MovementState& s, States all) const;
  template <class Look>
  Torques torques_from(const MovementState& s, const Look& look) const;
  Torques torques(const MovementState& s, States all) const;
  Torques torques(const MovementState& s, const Reader& r) const;
  Beat beat_now(const MovementState& s) const;
  void feel_air(States all, SimTime now, MovementState& s) const;
  void set_crutch(double offset_rad, Ctx& ctx, MovementState& s) const;
  static void goes_again(const Reader& r, MovementState& s);
  static void set_hands(SimTime dial, const Reader& r, MovementState& s);
  static SimTime shown(const MovementState& s);
  void advance(const MovementState& s, const Torques& t, SimTime until, Swing& swing) const;

  EscapementShape escapement_shape() const;
  /// Angle of the pendulum, positive with the bob to the left.
  double pendulum_rad(const MovementState& s, const Reader& r) const;
  /// How far the escape wheel is from where its tooth locks: behind while it falls, ahead as it
  /// pushes.
  double wheel_moved_rad(const MovementState& s, const Reader& r, EscapementShape::Pallet locks,
                         double pallets_rad) const;
  /// The wheel with its train at rest, and what it is away from there now.
  double wheel_rest_rad(const MovementState& s) const;
  double wheel_rad(const MovementState& s, const Reader& r) const;
  double energy_now(const MovementState& s, SimTime now) const;
  double interval_s(const MovementState& s, const Torques& t, double energy_j,
                    std::int64_t side) const;
  double shown_error_s(const MovementState& s, const Reader& r) const;
  double measured_rate(const MovementState& s, SimTime now) const;
  double rate_now(const MovementState& s, const Torques& t) const;
  void say(Report& report, const Reader& r) const;

  std::string name_;
  PendulumValues values_;
  double nut_turns_;
  double train_ratio_;
  double torque_share_;  ///< at the escape arbor, of the torque at the drive's
  double drop_rad_;
  double fall_rad_per_s_;  ///< of the wheel in its drop, on average
  StateSlot<MovementState> state_;
  StateSlot<Shaft> shaft_;
  StateSlot<Drive> drive_;
  StateSlot<Surroundings> air_;
  const std::vector<Rider>* riders_;
};

}  // namespace sixty::models
