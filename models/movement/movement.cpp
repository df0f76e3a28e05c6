#include "models/movement/movement.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

constexpr std::int64_t kTurn = 60;            // beats in a turn of the escape arbor (ESC-08)
constexpr double kLeastArc = 0.1 * kDegree;   // less cannot be drawn by hand
constexpr double kLargestArc = 10 * kDegree;  // more than any case has room for
constexpr double kMostCrutch = 2 * kDegree;   // either way, to the end of its adjustment
constexpr SimTime kDial = 12 * kHour;
constexpr double kMostTurns = 30;                // of the rating nut, to the end of its thread
constexpr SimTime kSurelyDropped = 600'000'000;  // behind the dead point: over a quarter period

/// Steps from one place of the turn to another. Range: both 0 .. kTurn - 1.
std::int64_t steps_between(std::int64_t from, std::int64_t to) {
  return to >= from ? to - from : to - from + kTurn;
}

bool rides_at(const Riding& rider, std::int64_t place) {
  return steps_between(rider.make_at, place) < steps_between(rider.make_at, rider.break_at);
}

std::int64_t beats_until(std::int64_t from, std::int64_t to) {
  const std::int64_t steps = steps_between(from, to);
  return steps == 0 ? kTurn : steps;
}

PendulumValues values_of(const Builder& b) {
  PendulumValues v;
  v.mass_kg = b.number("bob_mass");
  v.length_m = b.number("length");
  v.q = b.number("quality_factor");
  v.air_share = b.assumptions().swing.air_share;
  v.gravity_m_per_s2 = b.flag("gravity_of_site")
                           ? site_gravity(b.number("latitude"), b.number("height"))
                           : b.number("gravity");
  v.release_rad = b.number("escaping_arc");
  v.push_from_rad = b.number("push_from");
  v.crutch_offset_rad = b.number("crutch_offset");
  v.efficiency = b.number("escapement_efficiency");
  v.expansion_per_k = b.number("rod_expansion");
  v.reference_k = b.number("rated_at");
  v.temperature_k = b.number("temperature");
  v.pressure_pa = b.number("air_pressure");
  v.bob_density = b.number("bob_density");
  v.added_mass = b.number("added_mass");
  v.thread_pitch_m = b.number("thread_pitch");
  return v;
}

}  // namespace

Movement::Movement(Builder& b)
    : name_(b.name()),
      values_(values_of(b)),
      nut_turns_(b.number("nut_turns")),
      train_ratio_(b.number("train_ratio")),
      torque_share_(b.number("train_efficiency") / train_ratio_),
      drop_rad_(b.number("drop")),
      fall_rad_per_s_(drop_rad_ / b.number("drop_time")),
      state_(b.state<MovementState>()),
      shaft_(b.offered<Shaft>("escape_arbor")),
      drive_(b.taken<Drive>("drive")),
      air_(b.taken<Surroundings>("surroundings")),
      riders_(b.riders("escape_arbor")) {}

void Movement::start(Ctx& ctx) const {
  MovementState& s = ctx.state(state_);
  s = MovementState{};
  s.nut_turns = nut_turns_;
  s.crutch_rad = values_.crutch_offset_rad;
  s.temperature_k = values_.temperature_k;
  s.pressure_pa = values_.pressure_pa;
  feel_air(ctx.states(), ctx.now(), s);
  s.first_place = ctx.reader().week_offset() / kSecond % kTurn;
  ctx.state(shaft_) = {s.first_place, kTurn, s.first_place};
  ctx.state(drive_).parts_per_step = Drive::kPartsPerTurn / kTurn / train_ratio_;
  for (const Rider& rider : *riders_) {
    if (rides_at(rider.at_start, s.first_place)) ctx.send(rider.part, kRideMakes, Phase::kContact);
  }
}

void Movement::on_event(const Event& event, Ctx& ctx) const {
  MovementState& s = ctx.state(state_);
  if (event.kind == kBeatDrops || event.kind == kWheelStands || event.kind == kSwingTooSmall) {
    arrive(event, ctx, s);
  } else {
    catch_up(ctx.now(), ctx.states());
    command(event, ctx, s);
  }
  predict(event.id, ctx, s);
}

void Movement::on_rebuilt(Ctx& ctx) const {
  MovementState& s = ctx.state(state_);
  catch_up(ctx.now(), ctx.states());
  s.beat = beat_now(s);
}

void Movement::command(const Event& event, Ctx& ctx, MovementState& s) const {
  switch (event.kind) {
    case kCommandBase + kStart:
      let_go(event.value, ctx, s);
      break;
    case kCommandBase + kStop:
      if (s.still_since == kNever) s.still_since = ctx.now();
      s.going = Going::kAtRest;
      s.now.energy_j = 0;
      break;
    case kCommandBase + kTurnNut:
      s.nut_turns = std::clamp(s.nut_turns + event.value, -kMostTurns, kMostTurns);
      s.beat = beat_now(s);
      break;
    case kCommandBase + kSetHands:
      set_hands(from_seconds(event.value), ctx.reader(), s);
      break;
    case kCommandBase + kSetCrutch:
      set_crutch(event.value, ctx, s);
      break;
    case kCommandBase + kTurnHands:
      s.hands_ns += from_seconds(event.value);
      break;
    case kLinkChangedBase + kAir:
      feel_air(ctx.states(), ctx.now(), s);
      break;
    default:
      break;  // the drive has changed
  }
}

// Rod and air are as warm as the surroundings: what the rod lags behind is left out.
void Movement::feel_air(States all, SimTime now, MovementState& s) const {
  if (air_.valid()) {
    s.temperature_k = all.of(air_).temperature_k;
    s.pressure_pa = all.of(air_).pressure_pa;
  }
  s.beat = beat_now(s);
  const bool knocked = air_.valid() && all.of(air_).knocks != s.knocks;
  if (!knocked) return;
  s.knocks = all.of(air_).knocks;
  const bool swings = s.going == Going::kBeats || s.going == Going::kStands;
  if (swings) knock(s.beat, values_.mass_kg, all.of(air_).knock_m_per_s, now, s.now);
}

Beat Movement::beat_now(const MovementState& s) const {
  PendulumValues v = values_;
  v.crutch_offset_rad = s.crutch_rad;
  v.temperature_k = s.temperature_k;
  v.pressure_pa = s.pressure_pa;
  return beat_of(v, s.nut_turns);
}

// Off by more than the arc at which a tooth escapes, the pendulum would never free the wheel.
void Movement::set_crutch(double offset_rad, Ctx& ctx, MovementState& s) const {
  const bool escapes = std::fabs(offset_rad) < values_.release_rad;
  const std::array<Condition, 1> conditions = {
      Condition{to_tr("offset, less than the escaping semi-arc, rad"), offset_rad,
                values_.release_rad, escapes}};
  ctx.because(escapes, conditions);
  if (!escapes) return;
  s.crutch_rad = offset_rad;
  s.beat = beat_now(s);
}

// The minute hand slips on its arbor, the shorter way round; what the arbor drives stays in step.
void Movement::set_hands(SimTime dial, const Reader& r, MovementState& s) {
  const SimTime minute = (r.week_offset() + shown(s)) / kMinute * kMinute;
  const SimTime ahead = (dial - minute % kDial + kDial + kDial / 2) % kDial - kDial / 2;
  s.hands_ns += ahead;
}

// A tooth on its pallet. Pitch and loudness: common practice, no source.
std::vector<Voice> Movement::voices() const {
  return {{Voice::Kind::kTick, kBeatDrops, 2300, 0.06, 0.3}};
}

SimTime Movement::shown(const MovementState& s) { return s.now.beats * kSecond + s.hands_ns; }

// The bob is let go at its farthest, a quarter of a period before it passes the dead point.
void Movement::let_go(double semi_arc, Ctx& ctx, MovementState& s) const {
  const bool has_room = semi_arc > 0 && semi_arc <= kLargestArc;
  const std::array<Condition, 1> conditions = {
      Condition{to_tr("semi-arc, no more than 10 deg, rad"), semi_arc, kLargestArc, has_room}};
  ctx.because(has_room, conditions);
  if (!has_room) return;
  s.now.energy_j = energy_of_arc(s.beat, semi_arc);
  s.now.side = 0;
  s.now.dead_parts = 0;
  s.now.dead_ns = ctx.now() + from_seconds(half_period_ns(s.beat, Torques{}, s.now) * 0.5e-9);
  s.going = Going::kBeats;
  goes_again(ctx.reader(), s);
  s.first_dead_ns = s.now.dead_ns;
  s.first_beats = s.now.beats;
}

void Movement::arrive(const Event& event, Ctx& ctx, MovementState& s) const {
  s.now = s.ahead;
  s.next = {};
  publish(ctx.states(), s);
  if (event.kind == kBeatDrops) {
    tell_riders(ctx, s);
  } else {
    stand_still(event, ctx, s);
  }
}

void Movement::stand_still(const Event& event, Ctx& ctx, MovementState& s) const {
  const bool too_small = event.kind == kSwingTooSmall;
  const Torques t = torques(s, ctx.states());
  const std::array<Condition, 1> conditions = {
      too_small ? Condition{to_tr("energy of the swing, J"), s.now.energy_j,
                            std::max(s.beat.least_j[0], s.beat.least_j[1]), false}
                : Condition{to_tr("torque at the escape arbor against drag, N.m"),
                            t.per_step_nm * s.now.wound, t.drag_nm, false}};
  ctx.because(false, conditions);
  ctx.journal(event.kind, s.now.beats);
  s.going = too_small ? Going::kTooSmall : Going::kStands;
  if (s.still_since == kNever) s.still_since = ctx.now();
}

void Movement::tell_riders(Ctx& ctx, const MovementState& s) const {
  const std::int64_t here = place(s, s.now.beats);
  for (const Rider& rider : *riders_) {
    const Riding riding = ctx.state(rider.now);
    if (riding.break_at == here) {
      ctx.send(rider.part, kRideBreaks, Phase::kContact, fall_rad_per_s_);
    }
    if (riding.make_at == here) {
      ctx.send(rider.part, kRideMakes, Phase::kContact, fall_rad_per_s_);
    }
  }
}

// Beats that dropped before the present are made good.
SimTime Movement::catch_up(SimTime now, States all) const {
  MovementState& s = all.of(state_);
  if (s.now.dead_ns < now) advance(s, torques(s, all), now, s.now);
  publish(all, s);
  return s.now.dead_ns;
}

// The drive may have been wound at this very instant, so it is told what was used, not what is
// left, and tells what is left. Taking whole steps off is exact in binary, so it does not matter
// how many are taken at once.
void Movement::publish(States all, MovementState& s) const {
  Shaft& shaft = all.of(shaft_);
  Drive& drive = all.of(drive_);
  const std::int64_t position = s.first_place + s.now.beats;
  drive.steps_taken += position - shaft.position;
  shaft.position = position;
  s.now.wound = drive.steps_left();
}

// What lies between the account and the foreseen event is beats and nothing else.
Step Movement::next_step(SimTime after, const Reader& r) const {
  const MovementState& s = r.state(state_);
  if (s.going != Going::kBeats) return {};
  const Torques t = torques(s, r);
  Swing swing = s.now;
  advance(s, t, after + 1, swing);
  if (next_of(s.beat, t, swing) != Did::kBeat) return {};
  const std::int64_t beats = swing.beats + 1;
  return {next_drop(s.beat, swing), kBeatDrops, beats, s.since,
          static_cast<std::uint64_t>(beats - s.since_beats)};
}

void Movement::advance(const MovementState& s, const Torques& t, SimTime until,
                       Swing& swing) const {
  if (s.going != Going::kBeats && s.going != Going::kStands) return;
  while (swing.dead_ns < until) {
    if (swing.dead_ns + kSurelyDropped >= until && next_drop(s.beat, swing) >= until) return;
    switch (next_of(s.beat, t, swing)) {
      case Did::kBeat:
        run_beats(s.beat, t, 1, swing);
        break;
      case Did::kStood:
        swing_free(s.beat, swing);
        break;
      case Did::kMissed:
        return;
    }
  }
}

void Movement::goes_again(const Reader& r, MovementState& s) {
  if (s.still_since != kNever) s.stood.add_before(r, (r.now() - s.still_since) / kMinute);
  s.still_since = kNever;
}

void Movement::predict(EventId since, Ctx& ctx, MovementState& s) const {
  ctx.cancel(s.next);
  s.next = {};
  s.since = since;
  s.since_beats = s.now.beats;
  if (s.going != Going::kBeats && s.going != Going::kStands) return;
  const Torques t = torques(s, ctx.states());
  const std::int64_t most = ctx.queue_each_step() ? 1 : beats_to_next_place(s, ctx.states());
  s.ahead = s.now;
  run_beats(s.beat, t, most - 1, s.ahead);
  Did next = next_of(s.beat, t, s.ahead);
  if (s.going == Going::kStands && next == Did::kBeat) {
    s.going = Going::kBeats;
    goes_again(ctx.reader(), s);
    ctx.journal(kWheelResumes, s.now.beats);
  }
  // A standing wheel has only one thing left to happen: that the swing becomes too small.
  while (s.going == Going::kStands && next == Did::kStood) {
    swing_free(s.beat, s.ahead);
    next = next_of(s.beat, t, s.ahead);
  }
  const SimTime at = std::max(next_drop(s.beat, s.ahead), ctx.now());
  if (next == Did::kBeat) {
    run_beats(s.beat, t, 1, s.ahead);
    s.next = ctx.schedule(at, kBeatDrops, Phase::kMotion, s.ahead.beats);
    return;
  }
  swing_free(s.beat, s.ahead);
  s.next = ctx.schedule(at, next == Did::kStood ? kWheelStands : kSwingTooSmall, Phase::kMotion,
                        s.ahead.beats);
}

std::int64_t Movement::place(const MovementState& s, std::int64_t beats) const {
  return (s.first_place + beats) % kTurn;
}

std::int64_t Movement::beats_to_next_place(const MovementState& s, States all) const {
  const std::int64_t here = place(s, s.now.beats);
  std::int64_t beats = kTurn;
  for (const Rider& rider : *riders_) {
    const Riding& riding = all.of(rider.now);
    beats =
        std::min({beats, beats_until(here, riding.make_at), beats_until(here, riding.break_at)});
  }
  return beats;
}

template <class Look>
Torques Movement::torques_from(const MovementState& s, const Look& look) const {
  const Drive& drive = look(drive_);
  Torques t;
  t.per_step_nm = drive.torque_per_part_nm * drive.parts_per_step * torque_share_;
  const std::int64_t here = place(s, s.now.beats);
  for (const Rider& rider : *riders_) {
    const Riding& riding = look(rider.now);
    if (rides_at(riding, here)) t.drag_nm += riding.drag_nm;
  }
  return t;
}

Torques Movement::torques(const MovementState& s, States all) const {
  return torques_from(
      s, [&](const auto& slot) -> const auto& { return all.of(slot); });
}

Torques Movement::torques(const MovementState& s, const Reader& r) const {
  return torques_from(
      s, [&](const auto& slot) -> const auto& { return r.state(slot); });
}

namespace {

class MovementType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "pendulum with deadbeat escapement and train";
    d.stand = {Stand::Where::kFixed, 262, 81, "", ""};
    d.help = "Keeps time beat by beat from the energy that its drive puts into the swing.";
    declare_pendulum(d);
    declare_surroundings(d);
    declare_train(d);
    d.offers<Shaft>("escape_arbor", "arbor of the escape wheel, one turn a minute");
    d.takes<Drive>("drive", "spring that drives the train");
    d.takes<Surroundings>("surroundings", "air in place of `temperature` and `air_pressure`", true);
    d.command("start", "draws the pendulum aside to this semi-arc and lets it go",
              quantity_field("semi_arc", "rad", kLeastArc, kLargestArc, "how far aside"));
    d.command("stop", "holds the pendulum");
    d.command("turn_nut", "turns the rating nut; upward makes the clock gain",
              quantity_field("turns", "turn", -2 * kMostTurns, 2 * kMostTurns,
                             "upward positive, to the end of the thread at most"));
    d.command("set_hands",
              "sets the hands to a time of the twelve-hour dial; what they drive stays",
              dial_time_field("time"));
    d.command("set_crutch", "sets the crutch, to put the clock in beat",
              quantity_field("offset", "rad", -kMostCrutch, kMostCrutch, "from its middle"))
        .sets = "crutch_offset";
    d.command("turn_hands", "turns the hands on from where they stand; what they drive stays",
              in_steps_of(60, quantity_field("by", "s", -to_seconds(kDial / 2),
                                             to_seconds(kDial / 2), "forward positive")));
    declare_readings(d);
    d.step(kBeatDrops, "beat", "a tooth drops and the wheel steps");
    d.called("tick", "beat");
    d.event(kWheelStands, "stands", "the drive does not overcome the drag on the escape arbor");
    d.event(kSwingTooSmall, "stops", "the swing has become too small to let a tooth escape");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    if (b.number("escaping_arc") <= std::fabs(b.number("crutch_offset"))) {
      b.refuse("crutch_offset", "the crutch is off by more than the escaping semi-arc",
               "give an offset smaller than escaping_arc; such a clock cannot be started");
    }
    return std::make_unique<Movement>(b);
  }

 private:
  static void declare_pendulum(Declaration& d) {
    d.quantity("bob_mass", "kg", 0.1, 50, "mass of the bob");
    d.quantity("length", "m", 0.9, 1.1, "equivalent length with the nut as it is counted from");
    d.quantity("quality_factor", "1", 200, 200000,
               "2 pi times energy over energy lost in a period");
    d.quantity("escaping_arc", "rad", 0.005, 0.1, "angle of the pendulum at which a tooth escapes");
    d.quantity("push_from", "rad", 0.0, 0.05, "angle before the dead point where the push begins");
    d.quantity("crutch_offset", "rad", 0.0, -0.05, 0.05, "angle by which the crutch is off centre");
    d.quantity("thread_pitch", "m", 1e-4, 5e-3, "pitch of the rating nut's thread");
    d.quantity("nut_turns", "turn", 0.0, -kMostTurns, kMostTurns,
               "turns of the rating nut, upward positive", "setting, not a property");
    d.quantity("rod_expansion", "1/K", 0.0, 40e-6, "linear expansion of the rod");
    d.quantity("rated_at", "K", 293.15, 253.15, 323.15, "temperature at which the length holds");
    d.quantity("bob_density", "kg/m3", 500, 20000, "mean density of the bob, for its buoyancy");
    d.quantity("added_mass", "1", 0.0, 10,
               "air that swings with the bob over the air that it displaces");
  }
  static void declare_surroundings(Declaration& d) {
    d.quantity("temperature", "K", 293.15, 233.15, 333.15, "temperature of rod and air");
    d.quantity("air_pressure", "Pa", 101325, 0, 120000, "pressure of the air",
               "standard atmosphere, exact by definition");
    d.flag("gravity_of_site", false, "take gravity from latitude and height instead of the value");
    d.quantity("gravity", "m/s2", 9.80665, 9.7, 9.9, "local gravity",
               "PEND-01, standard gravity, 3rd CGPM (1901)");
    d.quantity("latitude", "rad", 0.7853981633974483, -1.5708, 1.5708, "latitude of the site",
               "45 deg, stands for a site in between");
    d.quantity("height", "m", 0.0, -500, 6000, "height of the site above sea level");
  }
  static void declare_train(Declaration& d) {
    d.quantity("escapement_efficiency", "1", 0.01, 1,
               "share of the wheel's 6 deg x torque that the pendulum gets");
    d.quantity("train_ratio", "1", 1, 10000, "turns of the escape arbor to one of the drive's");
    d.quantity("train_efficiency", "1", 0.01, 1,
               "share of the drive's work that the train passes on");
    d.quantity("drop", "rad", 0.001, 0.1, "angle that the wheel falls free in each beat");
    d.quantity("drop_time", "s", 0.001, 0.1, "how long that fall lasts");
  }
  static void declare_readings(Declaration& d) {
    d.reading(kArcReading, "rad", "semi-arc of the swing");
    d.reading("rate", "s/day", "gain in a day at the present swing");
    d.reading("tick", "s", "from one drop to the next, one way").told = Told::kFine;
    d.reading("tock", "s", "from one drop to the next, the other way").told = Told::kFine;
    d.reading("beat_error", "s", "half the difference of tick and tock");
    d.reading("error", "s", "time shown less true time, at a drop");
    d.reading("escape_torque", "N.m", "torque at the escape arbor, drag not taken off");
    d.reading("position", "beat", "beats since the scene's start");
    d.swing("pendulum_angle", "rad", "of the rod, positive to the left");
    d.swing("wheel_angle", "rad", "of the escape wheel, from where it stands at the minute");
    d.reading("temperature", "K", "temperature of rod and air");
  }
};

}  // namespace

const PartType& movement_part() {
  static const MovementType type;
  return type;
}

}  // namespace sixty::models
