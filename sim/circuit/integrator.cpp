// Running: steps, rests, stops. What happens at contacts is in switching.cpp.
#include "sim/circuit/integrator.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/armature.hpp"
#include "sim/circuit/shorten.hpp"

namespace sixty::circuit {
namespace {

constexpr double kLargestStep = 1e6;
constexpr double kLargestMovingStep = 5e-3;
constexpr std::size_t kLoneFrom = 7;  // live coils from which each meets its stops alone

/// A stretch is cut after so many happenings, or when the only interrupter has made again: where
/// several strike, never twice in the same way, that would only make many stretches of few.
constexpr std::size_t kEventsInStretch = 48;
/// So many steps in which nothing happens are a circuit that cannot be followed: it must not hang.
constexpr std::size_t kMostSteps = 100'000;
/// After so many steps in which nothing happens, one is made much shorter: at the longest step that
/// the error allows, what a coil still lacks may stay the same from step to step for ever.
constexpr std::size_t kQuietSteps = 64;

constexpr double kAtTurn = 1e-12;  // s
/// Where a diode goes over nothing jumps: less caution is needed than after a contact.
constexpr double kStepAfterDiode = 400e-6;  // s

/// A rectified voltage has a corner at its zeros, and rises and falls between: so that no diode
/// opens and shuts within one step, steps end at its crests too.
double till_mains_turn_s(const Network& network, double mains_s) {
  const double crest_s = network.half_period_s / 2;
  return (mains_s < crest_s - kAtTurn ? crest_s : network.half_period_s) - mains_s;
}

}  // namespace

Integrator::Integrator(const Network& network, const Inputs& inputs, const State& start,
                       bool energy)
    : Integrator(network, inputs, start, std::make_shared<Responses>(network), energy) {}

Integrator::Integrator(const Network& network, const Inputs& inputs, const State& start,
                       std::shared_ptr<Responses> responses, bool energy)
    : network_(network),
      inputs_(inputs),
      energy_(energy),
      stepper_(network_, inputs_),
      now_(start),
      responses_(std::move(responses)) {
  for (const Source& s : network.sources) emf_scale_v_ = std::max(emf_scale_v_, std::fabs(s.emf_v));
  ledger_ = empty_ledger(network);
  for (std::size_t j = 0; j < network.coils.size(); ++j) {
    drive_cause_.push_back(cause_drive(j));
    motion_cause_.push_back(cause_motion(j));
  }
  driven_anew_.assign(network.coils.size(), 0);
  consulted_.assign(network.contacts.size(), 0);
  worked_by_mark_.assign(network.contacts.size(), 0);
  broken_.assign(network.contacts.size(), 0);
  for (const Coil& c : network.coils) {
    for (const Mark& m : c.marks) {
      if (m.contact >= 0) worked_by_mark_[static_cast<std::size_t>(m.contact)] = 1;
    }
  }
  response_ = responses_->find(now_);
  begin(inputs);
  release_rests();
  keep_previous();
}

void Integrator::keep_previous() {
  prev_ = now_;
  t_prev_ = t_;
  response_prev_ = response_;
  ledger_prev_ = ledger_;
}

void Integrator::emit(What what, std::size_t element, std::int32_t cause, double volts,
                      double needed) {
  const bool contact = what == What::kMakes || what == What::kBreaks || what == What::kSparkEnds;
  if (!contact) {
    emit_coil(what, element, t_, cause, now_.coils[element], volts);
    events_.back().needed_v = needed;
    return;
  }
  put_event(what, element, t_, cause, volts).owner = network_.contacts[element].owner;
}

Located& Integrator::put_event(What what, std::size_t element, double t, std::int32_t cause,
                               double volts) {
  Located e;
  e.t_s = t;
  e.offset_ns = from_seconds(t);
  e.what = what;
  e.element = static_cast<std::int32_t>(element);
  e.cause = cause;
  e.volts = volts;
  events_.push_back(e);
  return events_.back();
}

void Integrator::emit_coil(What what, std::size_t j, double t, std::int32_t cause,
                           const CoilState& s, double volts) {
  Located& e = put_event(what, j, t, cause, volts);
  e.owner = network_.coils[j].owner;
  e.current_a = stepper_.coil_current(j, s);
  e.gap_m = s.gap_m;
  e.speed_m_per_s = s.speed_m_per_s;
}

void Integrator::tell_turn(Turn turn, std::size_t j, double t, const CoilState& s, double volts) {
  if (turn == Turn::kBack) return;
  const What what = turn == Turn::kSticks  ? What::kSticks
                    : turn == Turn::kSeats ? What::kSeats
                                           : What::kReturns;
  emit_coil(what, j, t, motion_cause_[j], s, volts);
}

void Integrator::wake(std::size_t j, int direction) {
  CoilState& s = now_.coils[j];
  s.rest = direction < 0 ? Rest::kClosing : Rest::kOpening;
  s.speed_m_per_s = 0;
  s.expecting = 0;
  smooth_ = false;
  emit(direction < 0 ? What::kStarts : What::kLeaves, j, drive_cause_[j], coil_volts()[j]);
  motion_cause_[j] = static_cast<std::int32_t>(events_.size()) - 1;
}

/// Sets an armature going that nothing holds any more; true if so.
bool Integrator::release_rest(std::size_t j) {
  const CoilState& s = now_.coils[j];
  if (moving(s.rest) || !network_.coils[j].armature.present) return false;
  const Forces force = stepper_.forces(j, s.linkage_wb, s.gap_m);
  const double hold = hold_n(network_.coils[j].armature, stepper_.extra_load_n(j));
  const bool closes = force.closing_n < -hold && s.rest != Rest::kSeated;
  const bool opens = force.opening_n > hold && s.rest != Rest::kOpen;
  if (closes) wake(j, -1);
  if (opens) wake(j, 1);
  return closes || opens;
}

/// After something has happened also of coils that were not followed: one that has just lost its
/// current at once, for one.
void Integrator::release_rests() {
  bool any = false;
  if (smooth_) {
    for (const std::size_t j : response_->live()) any = release_rest(j) || any;
  } else {
    for (std::size_t j = 0; j < network_.coils.size(); ++j) any = release_rest(j) || any;
  }
  if (any) response_ = responses_->find(now_);
}

void Integrator::arrive(std::size_t j, bool seat) {
  const Armature& a = network_.coils[j].armature;
  now_.coils[j].gap_m = seat ? a.seat_m : a.stroke_m;
  emit(seat ? What::kSeats : What::kReturns, j, motion_cause_[j], coil_volts()[j]);
  ledger_.impact_j += meet_stop(now_.coils[j], a, seat);
}

void Integrator::pass(std::size_t j, const Mark& mark) {
  now_.coils[j].gap_m = mark.gap_m;
  if (mark.contact < 0) {
    emit(What::kPasses, j, motion_cause_[j], coil_volts()[j]);
    events_.back().code = mark.code;
    return;
  }
  const std::vector<double> before = coil_volts();
  const auto contact = static_cast<std::size_t>(mark.contact);
  if (mark.closes && broken_[contact] != 0) cycled_ = true;
  if (!mark.closes && broken_[contact] == 0) {
    broken_[contact] = 1;
    ++strikers_;
  }
  command(contact, mark.closes, std::fabs(now_.coils[j].speed_m_per_s), motion_cause_[j]);
  after_switching(before, static_cast<std::int32_t>(events_.size()) - 1);
}

void Integrator::act(const Hit& hit) {
  const std::size_t j = hit.element;
  switch (hit.kind) {
    case Hit::kStop:
      arrive(j, hit.direction < 0);
      break;
    case Hit::kTurn: {
      CoilState& s = now_.coils[j];
      const Coil& c = network_.coils[j];
      const Turn turn =
          turn_back(s, c.armature, stepper_.extra_load_n(j), pull_n(c.magnet, s.linkage_wb));
      tell_turn(turn, j, t_, s, coil_volts()[j]);
      break;
    }
    case Hit::kMark:
      pass(j, network_.coils[j].marks[hit.mark]);
      break;
    case Hit::kKink:
      now_.coils[j].gap_m = network_.coils[j].armature.second_from_m;
      break;
    case Hit::kWake:
      wake(j, hit.direction);
      break;
    case Hit::kDiode: {
      const std::vector<double> before = coil_volts();
      const double h = h_;
      now_.diode_on[j] ^= 1;
      after_switching(before, kCauseIsCut);
      h_ = std::max(h_, std::min(h, kStepAfterDiode));
      break;
    }
    case Hit::kSparkOut: {
      const std::vector<double> before = coil_volts();
      ContactState& s = now_.contacts[j];
      if (!sparking(s)) break;  // the contact has come back in the same step
      s.timer_s = s.flight_s > 0 ? till_bounce_edge_s(s) : 0;
      s.spark_sign = 0;
      s.gap = Gap::kOpen;
      emit(What::kSparkEnds, j, kCauseIsCut, ledger_.spark_j[j]);
      after_switching(before, static_cast<std::int32_t>(events_.size()) - 1);
      break;
    }
    case Hit::kNone:
      break;
  }
}

double Integrator::step_limit() const {
  double limit = kLargestStep;
  if (!response_->rectified().empty()) limit = till_mains_turn_s(network_, now_.mains_s);
  for (const std::size_t j : response_->live()) {
    if (moving(now_.coils[j].rest)) limit = std::min(limit, kLargestMovingStep);
  }
  for (const ContactState& c : now_.contacts) {
    if (c.flight_s > 0) limit = std::min(limit, till_bounce_edge_s(c));
    if (sparking(c)) limit = std::min(limit, kLargestMovingStep);
  }
  return limit;
}

/// Tries `h` and shorter ones until the error is small enough; true if `h` had to give way.
bool Integrator::accurate_step(double& h) {
  bool shortened = false;
  for (;;) {
    stepper_.run(now_, *response_, h, step_);
    if (step_.error <= 1 || h <= kSmallestStep) return shortened;
    // Fourth root by two square roots and a little caution: exact enough for a step size.
    h = std::max(kSmallestStep, h * std::max(0.2, 0.85 / std::sqrt(std::sqrt(step_.error))));
    shortened = true;
  }
}

/// Finds a step that ends at the first thing that happens.
Hit Integrator::find_step(double limit) {
  double h = std::min(h_, limit);
  accurate_step(h);
  const Hit hit = stepper_.earliest_hit(now_, *response_, step_);
  return shorten_to_hit(h, hit, [&](double length) {
    stepper_.run(now_, *response_, length, step_);
    return stepper_.earliest_hit(now_, *response_, step_);
  });
}

/// Sums over the step as it went without anybody's going alone. Simpson's rule. What flows at its
/// end does so at the next one's beginning, where it goes on smoothly.
void Integrator::add_flows() {
  const double h = step_.h;
  stepper_.find_end_flow(now_, *response_, step_, end_flow_);
  if (!smooth_ || !flow_goes_on_) stepper_.find_flow(now_, *response_, step_.y0.data(), 0, flow_);
  stepper_.middle(step_, middle_);
  stepper_.find_flow(now_, *response_, middle_.data(), h / 2, middle_flow_);
  stepper_.add(ledger_, *response_, flow_, h / 6);
  stepper_.add(ledger_, *response_, middle_flow_, 4 * h / 6);
  stepper_.add(ledger_, *response_, end_flow_, h / 6);
  std::swap(flow_, end_flow_);
  flow_goes_on_ = true;
}

/// The same with the energy, but for the end.
void Integrator::add_beginning_and_middle() {
  const double h = step_.h;
  State s = now_;
  stepper_.add_to(ledger_, s, *response_, h / 6, energy_);
  stepper_.middle(step_, middle_);
  stepper_.scatter(*response_, middle_, h / 2, s);
  stepper_.add_to(ledger_, s, *response_, 4 * h / 6, energy_);
}

/// Sums over the beginning of a step in which coils met something alone: exact enough for a balance
/// of energy, which needs every piece between two such deeds. Gauss's rule of three points.
void Integrator::add_by_pieces(Ledger& ledger, double length_s) const {
  std::vector<double> edges = {0, length_s};
  for (const auto& [j, way] : lone_ways_) {
    for (const LoneWay::Deed& d : way.deeds) {
      if (d.dt < length_s) edges.push_back(d.dt);
    }
  }
  std::sort(edges.begin(), edges.end());
  constexpr double kPlace[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
  constexpr double kWeight[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18};
  for (std::size_t k = 0; k + 1 < edges.size(); ++k) {
    const double length = edges[k + 1] - edges[k];
    if (length < 1e-12) continue;
    for (int i = 0; i < 3; ++i) {
      const State s = state_at(t_prev_ + edges[k] + kPlace[i] * length);
      stepper_.add_to(ledger, s, *response_prev_, kWeight[i] * length, energy_);
    }
  }
}

/// A step that goes on where the last one ended smoothly begins with that end.
void Integrator::begin_step() {
  if (smooth_) {
    stepper_.go_on(now_, *response_, step_);
  } else {
    stepper_.start(now_, *response_, step_);
  }
}

/// Where the alternating voltage goes through zero, the next half period begins.
void Integrator::turn_mains() {
  at_zero_ = now_.mains_s >= network_.half_period_s - kAtTurn;
  if (!at_zero_) return;
  now_.mains_s = 0;
  flow_goes_on_ = false;
}

void Integrator::step_once() {
  keep_previous();
  lone_ways_.clear();
  begin_step();
  const double limit = step_limit();
  const bool large = response_->live().size() >= kLoneFrom;
  const Hit hit = large ? find_step_with_lone_ways(limit) : find_step(limit);
  const double h = step_.h;
  const double growth = step_.error > 1e-6 ? 0.85 / std::sqrt(std::sqrt(step_.error)) : 4.0;
  // A step that was cut short by a hit, or by a limit, says nothing against the longer one.
  const double next = h * std::clamp(growth, 0.2, 4.0);
  if (hit.kind == Hit::kNone) h_ = h < limit ? next : std::max(h_, next);
  if (steps_ % kQuietSteps == 0) h_ /= 4;
  const bool by_pieces = energy_ && !lone_ways_.empty();
  stepper_.cool_fuses(ledger_, h / 2);
  if (!energy_) add_flows();
  if (energy_ && !by_pieces) add_beginning_and_middle();
  stepper_.scatter(*response_, step_.y1, h, now_);
  if (energy_ && !by_pieces) stepper_.add_to(ledger_, now_, *response_, h / 6, energy_);
  smooth_ = hit.kind == Hit::kNone && lone_ways_.empty();
  for (const auto& [j, way] : lone_ways_) now_.coils[j] = way.end;
  tell_lone_ways();
  t_ += h;
  turn_mains();
  if (by_pieces) add_by_pieces(ledger_, h);
  stepper_.cool_fuses(ledger_, h / 2);
  run_timers(h);
  if (hit.kind == Hit::kNone) return;
  const std::vector<Hit> beside =
      large ? other_workers(hit) : stepper_.hits_beside(prev_, *response_prev_, step_, hit);
  act(hit);
  for (const Hit& other : beside) act(other);
}

/// Errors: IntegrationFailure, when it gets nowhere.
void Integrator::guard_steps() {
  if (events_.size() != guarded_events_) {
    guarded_events_ = events_.size();
    steps_ = 0;
  }
  if (++steps_ <= kMostSteps) return;
  const auto& live = response_->live();
  const auto mover = std::find_if(live.begin(), live.end(),
                                  [&](std::size_t j) { return moving(now_.coils[j].rest); });
  const Owner owner = mover != live.end() ? network_.coils[*mover].owner
                      : live.empty()      ? -1
                                          : network_.coils[live.front()].owner;
  throw IntegrationFailure(t_, owner);
}

void Integrator::advance_once() {
  guard_steps();
  if (try_settle()) {
    settle();
    return;
  }
  step_once();
  release_rests();
}

void Integrator::advance(double until_s) {
  while (!settled_ && t_ < until_s) advance_once();
}

void Integrator::advance_stretch(double until_s) {
  const auto goes_on = [&] {
    const bool cycled = cycled_ && strikers_ == 1;
    return !settled_ && t_ < until_s && !cycled && events_.size() < kEventsInStretch;
  };
  while (goes_on()) advance_once();
}

State Integrator::state_at(double t_s) const {
  if (t_s >= t_) return now_;
  if (t_s <= t_prev_) return prev_;
  Step part;
  stepper_.start(prev_, *response_prev_, part);
  stepper_.run(prev_, *response_prev_, t_s - t_prev_, part);
  State s = prev_;
  stepper_.scatter(*response_prev_, part.y1, part.h, s);
  for (const auto& [j, way] : lone_ways_) {
    s.coils[j] = state_on_way(stepper_, network_, j, prev_.coils[j], way, part.h);
  }
  for (ContactState& c : s.contacts) {
    if (c.flight_s > 0 && !sparking(c)) c.timer_s -= part.h;
  }
  return s;
}

Ledger Integrator::steady_second() const {
  Ledger one = empty_ledger(network_);
  if (!hums_) {
    stepper_.add_to(one, now_, *response_, 1, energy_);
    return one;
  }
  const Ledger& cycle = orbit_->cycle;
  const double per_s = 1 / network_.half_period_s;
  for (std::size_t k = 0; k < one.charge_as.size(); ++k) {
    one.charge_as[k] = cycle.charge_as[k] * per_s;
  }
  for (std::size_t k = 0; k < one.fuse_heat.size(); ++k) {
    // The heat to which as much again after each half period tends.
    const double tau_s = network_.fuses[k].time_constant_s;
    one.fuse_heat[k] = cycle.fuse_heat[k] / (1 - det_exp(-network_.half_period_s / tau_s)) / tau_s;
  }
  one.source_j = cycle.source_j * per_s;
  one.heat_j = cycle.heat_j * per_s;
  return one;
}

void Integrator::add_steady(Ledger& ledger, double length_s) const {
  if (!hums_) {
    stepper_.add_to(ledger, now_, *response_, length_s, energy_);
    return;
  }
  const Ledger one = steady_second();
  for (std::size_t k = 0; k < one.charge_as.size(); ++k) {
    ledger.charge_as[k] += one.charge_as[k] * length_s;
  }
  ledger.source_j += one.source_j * length_s;
  ledger.heat_j += one.heat_j * length_s;
}

Ledger Integrator::ledger_at(double t_s) const {
  if (t_s >= t_) {
    Ledger ledger = ledger_;
    if (settled_ && t_s > t_) add_steady(ledger, t_s - t_);
    return ledger;
  }
  Ledger ledger = ledger_prev_;
  const double h = t_s - t_prev_;
  if (h <= 0) return ledger;
  stepper_.cool_fuses(ledger, h / 2);
  if (energy_ && !lone_ways_.empty()) {
    add_by_pieces(ledger, h);
    for (const auto& [j, way] : lone_ways_) {
      for (const LoneWay::Deed& d : way.deeds) ledger.impact_j += d.dt <= h ? d.lost_j : 0;
    }
  } else {
    stepper_.add_to(ledger, prev_, *response_prev_, h / 6, energy_);
    stepper_.add_to(ledger, state_at(t_prev_ + h / 2), *response_prev_, 4 * h / 6, energy_);
    stepper_.add_to(ledger, state_at(t_s), *response_prev_, h / 6, energy_);
  }
  stepper_.cool_fuses(ledger, h / 2);
  return ledger;
}

}  // namespace sixty::circuit
