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
  const bool again = zero_known_ && is_near(zero_, end.fed, kOnOrbit);
  zero_ = now_;
  zero_known_ = true;
  if (finds_orbit_) {
    hums_ = again;
    return hums_;
  }
  orbit_ = find_orbit(end);
  // Where the search sets an armature off that in truth lies still, it is its own orbit.
  if (!orbit_->exists && again) orbit_ = orbit_from(state_on_grid());
  hums_ = orbit_->exists && is_near(orbit_->zero, end.fed, kNearOrbit);
  if (!hums_) return false;
  rest_there(with_orbit(end.fed), end.fed);
  for (std::size_t k = 0; k < ledger_.least_v.size(); ++k) {
    widen(ledger_, k, orbit_->cycle.least_v[k], orbit_->cycle.most_a[k]);
  }
  return true;
}

/// What nothing feeds is near when it carries hardly anything any more.
bool Integrator::is_near(const State& zero, const Awake& fed, double share) const {
  for (std::size_t j = 0; j < now_.coils.size(); ++j) {
    const CoilState& s = now_.coils[j];
    if (moving(s.rest)) return false;
    const double there_a = fed.coils[j] != 0 ? stepper_.coil_current(j, zero.coils[j]) : 0;
    const double scale_a = emf_scale_v_ / network_.coils[j].resistance_ohm;
    if (std::fabs(stepper_.coil_current(j, s) - there_a) > share * scale_a) return false;
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

/// Of coils that nothing feeds, only where they lie: so that whatever their iron keeps, it is one
/// orbit.
State Integrator::near_orbit(const Response::Steady& end) const {
  State s = now_;
  s.mains_s = 0;
  dry_idle_contacts(network_, end.fed, s);
  for (std::size_t j = 0; j < s.coils.size(); ++j) {
    CoilState& c = s.coils[j];
    c.held_a = 0;  // the ripple shakes it out of the iron that is fed
    c.linkage_wb = linkage_wb(network_.coils[j].magnet, end.coil_a[j], c.gap_m, 0);
    c.expecting = 0;
  }
  for (std::size_t k = 0; k < s.capacitor_v.size(); ++k) {
    if (end.keeps_charge[k] == 0) s.capacitor_v[k] = end.capacitor_v[k];
  }
  return s;
}

/// The state once it goes round the orbit; what nothing feeds rests with what its iron keeps.
State Integrator::with_orbit(const Awake& fed) const {
  State s = orbit_->zero;
  for (std::size_t j = 0; j < s.coils.size(); ++j) {
    CoilState& c = s.coils[j];
    if (fed.coils[j] != 0) {
      c.expecting = now_.coils[j].expecting;
      continue;
    }
    c = now_.coils[j];
    rest_on_grid(j, 0, c);
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
