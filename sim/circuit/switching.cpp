// What happens at contacts and diodes, and to the coils whose voltage they change.
#include <algorithm>
#include <cmath>

#include "sim/circuit/blocks.hpp"
#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {
namespace {

constexpr double kShortestFlight = 30e-6;  // s; shorter bounces leave the contact closed

/// Closes the gap. A spark in it leaves nothing behind: states that are equal are to be found so.
void close_gap(ContactState& s) {
  s.gap = Gap::kClosed;
  s.spark_sign = 0;
}

}  // namespace

std::vector<double> Integrator::response_voltages() const {
  std::vector<double> in;
  stepper_.currents_in(now_, *response_, in);
  std::vector<double> out(response_->outputs());
  response_->voltages(in.data(), out.data(), response_->rows_of_state());
  return out;
}

std::vector<double> Integrator::coil_volts() const {
  const std::vector<double> out = response_voltages();
  std::vector<double> volts(network_.coils.size(), 0.0);
  for (std::size_t i = 0; i < response_->live().size(); ++i) volts[response_->live()[i]] = out[i];
  return volts;
}

double Integrator::contact_volts(std::size_t contact) const {
  const Contact& c = network_.contacts[contact];
  const Plan& plan = response_->plan();
  if (plan.island_of(c.a) != plan.island_of(c.b)) return 0;
  std::vector<double> in;
  stepper_.currents_in(now_, *response_, in);
  std::vector<double> node_v;
  response_->nodes(in.data(), node_v);
  return node_v[static_cast<std::size_t>(c.a)] - node_v[static_cast<std::size_t>(c.b)];
}

void Integrator::begin(const Inputs& inputs) {
  const std::vector<double> before = coil_volts();
  bool changed = false;
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    const bool wanted = inputs.contacts[k].closed != 0;
    if (worked_by_mark_[k] != 0 || wanted == (now_.contacts[k].commanded != 0)) continue;
    command(k, wanted, inputs.contacts[k].closing_speed_m_per_s, kCauseIsCut);
    changed = true;
  }
  if (changed) {
    after_switching(before, kCauseIsCut);
  } else {
    find_currents();  // the first state of all has not been led to its contacts and diodes yet
  }
}

void Integrator::command(std::size_t contact, bool closed, double speed, std::int32_t cause) {
  ContactState& s = now_.contacts[contact];
  if ((s.commanded != 0) == closed) return;
  s.commanded = closed ? 1 : 0;
  if (closed) {
    close_gap(s);
    s.timer_s = 0;
    s.flight_s = 0;
    touch(contact, speed);
    emit(What::kMakes, contact, cause, contact_volts(contact));
    return;
  }
  const double volts = contact_volts(contact);
  const double current = s.gap == Gap::kClosed ? volts / s.ohm : 0;
  open(contact, cause, volts, current);
  s.flight_s = 0;
  s.ohm = network_.contacts[contact].closed_ohm;
  s.dry = 1;
}

void Integrator::touch(std::size_t contact, double speed) {
  const ContactKind& kind = network_.contacts[contact].kind;
  ContactState& s = now_.contacts[contact];
  s.flight_s = 0;
  if (!kind.bounces) return;
  consulted_[contact] |= kSpeedRead;
  const double flight = 2 * kind.restitution * speed * kind.moving_mass_kg / kind.force_n;
  if (flight < kShortestFlight) return;
  s.flight_s = flight;
  s.timer_s = kind.touch_s;
}

void Integrator::open(std::size_t contact, std::int32_t cause, double volts, double current_a) {
  ContactState& s = now_.contacts[contact];
  s.gap = Gap::kOpen;
  s.timer_s = 0;
  just_opened_.emplace_back(contact, current_a);
  emit(What::kBreaks, contact, cause, volts);
  events_.back().current_a = current_a;
}

void Integrator::run_timers(double h) {
  for (std::size_t k = 0; k < now_.contacts.size(); ++k) {
    ContactState& s = now_.contacts[k];
    if (s.flight_s <= 0) continue;
    if (!sparking(s)) s.timer_s -= h;
    if (till_bounce_edge_s(s) > 1e-12) continue;
    if (s.gap == Gap::kClosed) {
      just_opened_.emplace_back(k, contact_volts(k) / s.ohm);
      s.gap = Gap::kOpen;
      s.timer_s = s.flight_s;
    } else {
      close_gap(s);
      s.flight_s *= network_.contacts[k].kind.restitution;
      s.timer_s = network_.contacts[k].kind.touch_s;
      if (s.flight_s < kShortestFlight) s.flight_s = s.timer_s = 0;
    }
    find_currents();  // a bounce neither drives a coil anew nor gives it up
  }
}

/// Lets currents find their ways through what has been switched.
void Integrator::find_currents() {
  smooth_ = false;
  for (int round = 0; round < 64; ++round) {
    response_ = responses_->find(now_);
    if (!(wet_contacts() || free_currents() || mend_diodes() || strike_sparks())) break;
  }
  just_opened_.clear();
  h_ = std::min(h_, 50e-6);
}

void Integrator::after_switching(const std::vector<double>& volts_before, std::int32_t cause) {
  find_currents();
  const std::vector<double> after = coil_volts();
  for (std::size_t j = 0; j < after.size(); ++j) judge_drive(j, volts_before[j], after[j], cause);
}

void Integrator::judge_drive(std::size_t j, double before, double after, std::int32_t cause) {
  CoilState& s = now_.coils[j];
  const double way = (s.linkage_wb != 0 ? s.linkage_wb : after) < 0 ? -1 : 1;
  const double gain = way * (after - before);
  if (std::fabs(gain) <= 0.1 * emf_scale_v_) return;
  if (gain < 0 && s.expecting != 0 && s.rest == Rest::kOpen) {
    const Coil& c = network_.coils[j];
    const Statics needs = statics(c.magnet, c.armature, inputs_.coil_extra_load_n[j]);
    s.expecting = 0;
    emit(What::kHeld, j, drive_cause_[j], before, needs.pulls_in_a * c.resistance_ohm);
  }
  drive_cause_[j] = cause;
  if (cause == kCauseIsCut && t_ == 0) driven_anew_[j] = 1;
  if (gain > 0 && network_.coils[j].armature.present && s.rest == Rest::kOpen) s.expecting = 1;
}

/// Contacts that a current can come through now have the film that their inputs tell of.
bool Integrator::wet_contacts() {
  bool any = false;
  for (std::size_t k = 0; k < network_.contacts.size(); ++k) {
    ContactState& s = now_.contacts[k];
    if (s.dry == 0 || s.gap != Gap::kClosed || !response_->awake_contact(k)) continue;
    s.dry = 0;
    s.ohm = inputs_.contacts[k].closed_ohm;
    consulted_[k] |= kFilmRead;
    any = true;
  }
  return any;
}

bool Integrator::free_currents() {
  for (std::size_t j = 0; j < network_.coils.size(); ++j) {
    if (!response_->plan().open_coil(j)) continue;
    CoilState& s = now_.coils[j];
    const double current = stepper_.coil_current(j, s);
    if (std::fabs(current) <= kNoCurrent) continue;
    if (divert(j, current)) return true;
    // Nowhere to go: the gap takes the field's energy at once.
    const Magnet& m = network_.coils[j].magnet;
    const double field = field_energy_j(m, s.linkage_wb, s.gap_m);
    s.linkage_wb = linkage_wb(m, 0, s.gap_m, s.held_a);
    const double lost = field - field_energy_j(m, s.linkage_wb, s.gap_m);
    ledger_.heat_j += lost;
    if (!just_opened_.empty()) ledger_.spark_j[just_opened_.front().first] += lost;
    return true;
  }
  return false;
}

bool Integrator::divert(std::size_t j, double current_a) {
  const Plan& plan = response_->plan();
  const Coil& c = network_.coils[j];
  // Outside the coil the current runs from its far end back to its near one.
  const int from = plan.island_of(current_a > 0 ? c.b : c.a);
  const int to = plan.island_of(current_a > 0 ? c.a : c.b);
  for (std::size_t k = 0; k < network_.diodes.size(); ++k) {
    const Diode& d = network_.diodes[k];
    if (now_.diode_on[k] != 0) continue;
    if (plan.island_of(d.anode) != from || plan.island_of(d.cathode) != to) continue;
    now_.diode_on[k] = 1;
    return true;
  }
  for (const auto& [k, carried] : just_opened_) {
    const ContactKind& kind = network_.contacts[k].kind;
    ContactState& s = now_.contacts[k];
    if (!kind.sparks || sparking(s) || carried == 0) continue;
    s.gap = std::fabs(carried) >= kind.arc_min_a ? Gap::kArc : Gap::kGlow;
    s.spark_sign = carried < 0 ? -1 : 1;
    s.timer_s = 0;
    return true;
  }
  return false;
}

bool Integrator::mend_diodes() {
  if (network_.diodes.empty()) return false;
  std::vector<double> in;
  stepper_.currents_in(now_, *response_, in);
  std::vector<double> node_v;
  response_->nodes(in.data(), node_v);
  for (std::size_t k = 0; k < network_.diodes.size(); ++k) {
    const Diode& d = network_.diodes[k];
    const Plan& plan = response_->plan();
    if (plan.island_of(d.anode) != plan.island_of(d.cathode)) continue;
    const double forward = node_v[static_cast<std::size_t>(d.anode)] -
                           node_v[static_cast<std::size_t>(d.cathode)] - d.forward_v;
    const bool on = now_.diode_on[k] != 0;
    if (on ? forward < -2e-9 : forward > 2e-9) {
      now_.diode_on[k] = on ? 0 : 1;
      return true;
    }
  }
  return false;
}

bool Integrator::strike_sparks() {
  for (const auto& [k, carried] : just_opened_) {
    const ContactKind& kind = network_.contacts[k].kind;
    ContactState& s = now_.contacts[k];
    if (!kind.sparks || s.gap != Gap::kOpen || carried == 0) continue;
    const double volts = std::fabs(contact_volts(k));
    const bool arc = std::fabs(carried) >= kind.arc_min_a && volts > kind.arc_v;
    if (!arc && volts <= kind.glow_v) continue;
    s.gap = arc ? Gap::kArc : Gap::kGlow;
    s.spark_sign = carried < 0 ? -1 : 1;
    s.timer_s = 0;
    return true;
  }
  return false;
}

}  // namespace sixty::circuit
