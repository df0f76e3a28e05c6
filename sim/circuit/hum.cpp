// Fed with ripple a network comes to no rest, but to do the same in each half period of the mains.
#include <algorithm>
#include <cmath>

#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {
namespace {

constexpr double kOnOrbit = 4e-6;      // of each scale: what a half period still changes
constexpr double kNearOrbit = 2e-4;    // of each scale: as good as there
constexpr double kLongestSearch = 30;  // s

}  // namespace

/// At a zero of the mains: takes the orbit once it is near.
bool Integrator::try_hum(const Response::Steady& end) {
  if (!at_zero_) return false;
  at_zero_ = false;
  const bool again = zero_known_ && is_near(zero_, kOnOrbit);
  zero_ = now_;
  zero_known_ = true;
  if (finds_orbit_) {
    hums_ = again;
    return hums_;
  }
  orbit_ = find_orbit(end);
  // Where the search sets an armature off that in truth lies still, it is its own orbit.
  if (!orbit_->exists && again) orbit_ = orbit_from(state_on_grid());
  hums_ = orbit_->exists && is_near(orbit_->zero, kNearOrbit);
  if (!hums_) return false;
  rest_there(orbit_->zero, end.fed);
  for (std::size_t k = 0; k < ledger_.least_v.size(); ++k) {
    widen(ledger_, k, orbit_->cycle.least_v[k], orbit_->cycle.most_a[k]);
  }
  return true;
}

bool Integrator::is_near(const State& zero, double share) const {
  for (std::size_t j = 0; j < now_.coils.size(); ++j) {
    const CoilState& s = now_.coils[j];
    const double away_a = stepper_.coil_current(j, s) - stepper_.coil_current(j, zero.coils[j]);
    const double scale_a = emf_scale_v_ / network_.coils[j].resistance_ohm;
    if (moving(s.rest) || std::fabs(away_a) > share * scale_a) return false;
  }
  for (std::size_t k = 0; k < now_.capacitor_v.size(); ++k) {
    if (std::fabs(now_.capacitor_v[k] - zero.capacitor_v[k]) > share * emf_scale_v_) return false;
  }
  return true;
}

/// The same whoever asks: it is searched from where the mean of the ripple would lead.
std::shared_ptr<const Orbit> Integrator::find_orbit(const Response::Steady& end) const {
  const State from = near_orbit(end);
  std::shared_ptr<const Orbit>& found = responses_->orbits()[from.hash()];
  if (found == nullptr) found = follow_to_orbit(from);
  return found;
}

State Integrator::near_orbit(const Response::Steady& end) const {
  State s = now_;
  s.mains_s = 0;
  for (std::size_t j = 0; j < s.coils.size(); ++j) {
    CoilState& c = s.coils[j];
    const Magnet& m = network_.coils[j].magnet;
    // The ripple shakes what the iron kept out of it.
    c.held_a = end.fed.coils[j] != 0 ? 0 : held_on_grid(c.held_a, m.coercive_a);
    c.linkage_wb = linkage_wb(m, end.coil_a[j], c.gap_m, c.held_a);
    c.expecting = 0;
  }
  for (std::size_t k = 0; k < s.capacitor_v.size(); ++k) {
    if (end.keeps_charge[k] == 0) s.capacitor_v[k] = end.capacitor_v[k];
  }
  return s;
}

std::shared_ptr<const Orbit> Integrator::follow_to_orbit(const State& from) const {
  Integrator search(network_, inputs_, from, responses_);
  search.finds_orbit_ = true;
  while (!search.settled_ && search.events_.empty() && search.t_ < kLongestSearch) {
    search.advance_once();
  }
  if (!search.settled_ || !search.events_.empty()) return std::make_shared<const Orbit>();
  return orbit_from(search.now_);
}

std::shared_ptr<const Orbit> Integrator::orbit_from(const State& zero) const {
  Integrator cycle(network_, inputs_, zero, responses_, energy_);
  cycle.finds_orbit_ = true;
  cycle.advance(network_.half_period_s);
  return std::make_shared<const Orbit>(Orbit{true, zero, cycle.ledger_at(network_.half_period_s)});
}

}  // namespace sixty::circuit
