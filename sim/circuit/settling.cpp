// Coming to rest: when a network has settled, and on which grid it stands then.
#include <algorithm>
#include <cmath>

#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {
namespace {

constexpr double kSteady = 4e-5;  // of the flux scale: well above the noise of the steps

/// Of the stroke: an armature that swings less about its balance is at rest, and so is its flux.
/// Without friction the noise of the steps keeps a light swing going for ever.
constexpr double kSwing = 5e-4;

/// Something happens to an armature on its way from one gap to another, or at either.
bool meets_anything(const Coil& c, double from_m, double to_m) {
  const double low = std::min(from_m, to_m);
  const double high = std::max(from_m, to_m);
  const auto between = [&](double gap_m) { return low <= gap_m && gap_m <= high; };
  const Armature& a = c.armature;
  return between(a.seat_m) || between(a.stroke_m) || between(a.second_from_m) ||
         std::any_of(c.marks.begin(), c.marks.end(),
                     [&](const Mark& m) { return between(m.gap_m); });
}

}  // namespace

/// Those with a steady way round them have arrived where it leads, the others carry nothing.
bool Integrator::capacitors_rest(const Response::Steady& end) const {
  const std::size_t count = network_.capacitors.size();
  const double most_v = kSteady * emf_scale_v_;
  std::vector<double> out;
  for (std::size_t k = 0; k < count; ++k) {
    const double now_v = now_.capacitor_v[k];
    double aim_v = end.capacitor_v[k];
    if (end.keeps_charge[k] != 0) {
      if (out.empty()) out = response_voltages();
      aim_v = out[response_->live().size() + k];
    }
    if (std::fabs(aim_v - now_v) > most_v) return false;
  }
  return true;
}

/// An armature at rest stays so.
bool Integrator::stays(std::size_t j, const CoilState& s) const {
  const Armature& a = network_.coils[j].armature;
  if (!a.present) return true;
  const Forces force = stepper_.forces(j, s.linkage_wb, s.gap_m);
  const double hold = hold_n(a, stepper_.extra_load_n(j));
  if (force.closing_n < -hold && s.rest != Rest::kSeated) return false;
  return force.opening_n <= hold || s.rest == Rest::kOpen;
}

/// Puts a coil where it would be at the end; false if it is not there yet.
bool Integrator::settle_coil(std::size_t j, double end_a, CoilState& s) const {
  const Coil& c = network_.coils[j];
  const double before = s.linkage_wb;
  const double near = moving(s.rest) ? kSwing : kSteady;
  if (moving(s.rest)) {
    s.gap_m = balance_gap_m(c, s, end_a, stepper_.extra_load_n(j), kSwing * c.armature.stroke_m);
    if (s.gap_m < 0) return false;
    s.speed_m_per_s = 0;
    s.rest = Rest::kStuck;
  }
  s.linkage_wb = linkage_wb(c.magnet, end_a, s.gap_m, s.held_a);
  if (std::fabs(s.linkage_wb - before) > near * stepper_.linkage_scale(j)) return false;
  return rest_on_grid(j, end_a, s) || stays(j, s);
}

/// Puts a coil at rest with what its iron keeps on the grid; false, and nothing done, if it would
/// not stay.
bool Integrator::rest_on_grid(std::size_t j, double end_a, CoilState& s) const {
  const Magnet& m = network_.coils[j].magnet;
  CoilState close_by = s;
  close_by.held_a = held_on_grid(s.held_a, m.coercive_a, kHeldAtRest);
  close_by.linkage_wb = linkage_wb(m, end_a, s.gap_m, close_by.held_a);
  if (!stays(j, close_by)) return false;
  s = close_by;
  return true;
}

/// Tells of those that were driven in vain.
void Integrator::give_up_expecting() {
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    CoilState& s = now_.coils[j];
    if (s.expecting == 0) continue;
    s.expecting = 0;
    if (s.rest != Rest::kOpen) continue;
    const Coil& c = network_.coils[j];
    const Statics needs = statics(c.magnet, c.armature, inputs_.coil_extra_load_n[j]);
    emit(What::kHeld, j, drive_cause_[j], stepper_.coil_current(j, s) * c.resistance_ohm,
         needs.pulls_in_a * c.resistance_ohm);
  }
}

/// Nothing goes on that is plain to see; what swings as little as this may be in balance.
bool Integrator::all_lies_still() const {
  constexpr double kSlowest = 1e-3;  // m/s
  for (const std::size_t j : response_->live()) {
    const CoilState& s = now_.coils[j];
    if (moving(s.rest) && std::fabs(s.speed_m_per_s) > kSlowest) return false;
  }
  return std::none_of(now_.contacts.begin(), now_.contacts.end(),
                      [](const ContactState& c) { return c.flight_s > 0 || sparking(c); });
}

/// Those that have stopped swinging.
void Integrator::tell_balanced(const State& steady) {
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    if (!moving(now_.coils[j].rest)) continue;
    emit_coil(What::kSticks, j, t_, motion_cause_[j], steady.coils[j], coil_volts()[j]);
  }
}

bool Integrator::try_settle() {
  if (!all_lies_still()) return false;
  const Response::Steady& end = response_->steady(now_);
  if (end.hums) return try_hum(end);
  State steady = now_;
  std::size_t next_live = 0;
  const auto& live = response_->live();
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    const bool followed = next_live < live.size() && live[next_live] == j;
    if (followed) ++next_live;
    // One that is not followed any more, hardly anything being left of its current, ends up exactly
    // where it would have been led.
    CoilState s = steady.coils[j];
    if (settle_coil(j, end.coil_a[j], s)) {
      steady.coils[j] = s;
    } else if (followed) {
      return false;
    }
  }
  if (!capacitors_rest(end)) return false;
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    if (end.keeps_charge[k] == 0) steady.capacitor_v[k] = end.capacitor_v[k];
  }
  steady.mains_s = 0;
  tell_balanced(steady);
  rest_there(steady, end.fed);
  // The steady state may be the extreme of all, and no step goes there.
  stepper_.add_to(ledger_, now_, *response_, 0, energy_);
  return true;
}

void Integrator::rest_there(const State& state, const Awake& fed) {
  now_ = state;
  dry_idle_contacts(network_, fed, now_);
  give_up_expecting();
  response_ = responses_->find(now_);
}

void Integrator::settle() {
  settled_ = true;
  keep_previous();
}

State Integrator::state_on_grid() const {
  if (settled_) return now_;
  constexpr double kGrid = 16384;
  const auto near = [](double value, double scale) {
    return std::floor(value / scale * kGrid + 0.5) / kGrid * scale;
  };
  State s = now_;
  for (const std::size_t j : response_->live()) {
    const Coil& c = network_.coils[j];
    CoilState& coil = s.coils[j];
    coil.linkage_wb = near(coil.linkage_wb, stepper_.linkage_scale(j));
    coil.held_a = held_on_grid(coil.held_a, c.magnet.coercive_a, kHeldInMotion);
    coil.speed_m_per_s = near(coil.speed_m_per_s, 1);
    if (!moving(coil.rest)) continue;
    const double gap_m = near(coil.gap_m, c.armature.stroke_m);
    if (!meets_anything(c, coil.gap_m, gap_m)) coil.gap_m = gap_m;
  }
  for (double& volts : s.capacitor_v) volts = near(volts, emf_scale_v_);
  for (ContactState& c : s.contacts) c.timer_s = near(c.timer_s, 1e-3);
  return s;
}

}  // namespace sixty::circuit
