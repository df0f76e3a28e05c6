// How the rates of a network's variables depend on them: for stiff steps.
#include <algorithm>
#include <cmath>

#include "sim/circuit/step.hpp"

namespace sixty::circuit {

/// Slope of the remanence with the flux, 0 where it is at an end of its range and stays there.
double Stepper::held_slope(const CoilState& s, const Magnet& m, double linkage_rate) {
  if (m.coercive_a <= 0) return 0;
  if (s.held_a <= 0 && linkage_rate >= 0) return 0;
  if (s.held_a >= m.coercive_a && linkage_rate <= 0) return 0;
  return -m.coercive_a / held_slack_wb(m);
}

/// Slopes of a live coil's current with its linkage and its gap.
CurrentSlopes Stepper::slopes_of(std::size_t j, const CoilState& s, double linkage_rate) const {
  const Magnet& m = network_.coils[j].magnet;
  CurrentSlopes slopes = current_slopes(m, s.linkage_wb, s.gap_m);
  if (m.turns > 0) slopes.per_wb -= held_slope(s, m, linkage_rate) / m.turns;
  if (!moving(s.rest)) slopes.per_m = 0;
  return slopes;
}

void Stepper::find_slopes(const State& from, const Response& response, Step& step) const {
  if (!response.small()) return;
  const auto& live = response.live();
  step.slopes.resize(live.size());
  for (std::size_t i = 0; i < live.size(); ++i) {
    step.slopes[i] = slopes_of(live[i], from.coils[live[i]], step.f0[3 * i]);
  }
  step.fastest_per_s = fastest_rate(response, step);
}

double Stepper::fastest_rate(const Response& response, const Step& step) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  // Gershgorin: no eigenvalue is larger than the largest sum over a row.
  double fastest = 0;
  for (std::size_t i = 0; i < n; ++i) {
    double sum = network_.coils[live[i]].resistance_ohm * step.slopes[i].per_wb;
    for (std::size_t q = 0; q < n; ++q)
      sum += std::fabs(response.gain(i, q)) * step.slopes[q].per_wb;
    fastest = std::max(fastest, sum);
  }
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    const Capacitor& c = network_.capacitors[k];
    fastest =
        std::max(fastest, (1 - response.gain(n + k, n + k)) / (c.resistance_ohm * c.capacitance_f));
  }
  return fastest;
}

void Stepper::find_system(const State& from, const Response& response, const Step& step) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  const std::size_t capacitors = network_.capacitors.size();
  system_.reset(n, capacitors);
  slope_.assign(system_.size(), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t q = 0; q < n; ++q) {
      const double ohm =
          response.gain(i, q) - (i == q ? network_.coils[live[i]].resistance_ohm : 0);
      system_.slope(i, q) = ohm * step.slopes[q].per_wb;
      system_.by_gap(i, q) = ohm * step.slopes[q].per_m;
    }
    for (std::size_t k = 0; k < capacitors; ++k) system_.slope(i, n + k) = response.gain(i, n + k);
    slope_[3 * i] = outer_slope(from, response, i);
    system_.motion(i) = motion_of(live[i], from.coils[live[i]]);
  }
  for (std::size_t k = 0; k < capacitors; ++k) {
    const Capacitor& c = network_.capacitors[k];
    const double per_s = 1 / (c.resistance_ohm * c.capacitance_f);
    for (std::size_t q = 0; q < n; ++q) {
      const double ohm = response.gain(n + k, q);
      system_.slope(n + k, q) = per_s * ohm * step.slopes[q].per_wb;
      system_.by_gap(n + k, q) = per_s * ohm * step.slopes[q].per_m;
    }
    for (std::size_t q = 0; q < capacitors; ++q) {
      system_.slope(n + k, n + q) = per_s * (response.gain(n + k, n + q) - (q == k ? 1 : 0));
    }
    slope_[3 * n + k] = per_s * outer_slope(from, response, n + k);
  }
}

/// What an armature's acceleration depends on, where it is under way.
StiffSystem::Motion Stepper::motion_of(std::size_t j, const CoilState& s) const {
  if (!moving(s.rest)) return {};
  const Coil& c = network_.coils[j];
  const Armature& a = c.armature;
  const bool second =
      s.rest == Rest::kClosing ? s.gap_m <= a.second_from_m : s.gap_m < a.second_from_m;
  const double rate = a.rate_n_per_m + (second ? a.second_rate_n_per_m : 0);
  return {true, pull_slope(c.magnet, s.linkage_wb) / a.mass_kg, rate / a.mass_kg,
          a.viscous_n_s_per_m / a.mass_kg};
}

/// What the lengthening of sparks and the mains do to one voltage. Units: V/s.
double Stepper::outer_slope(const State& from, const Response& response, std::size_t row) const {
  const std::size_t first = response.live().size() + network_.capacitors.size();
  double sum = 0;
  for (std::size_t k = 0; k < response.sparks().size(); ++k) {
    const std::size_t contact = response.sparks()[k];
    const ContactState& s = from.contacts[contact];
    if (s.gap != Gap::kArc) continue;
    const ContactKind& kind = network_.contacts[contact].kind;
    sum += response.gain(row, first + k) * kind.arc_gradient_v_per_m * kind.opening_speed_m_per_s *
           s.spark_sign;
  }
  for (std::size_t k = 0; k < response.rectified().size(); ++k) {
    const Source& source = network_.sources[response.rectified()[k]];
    sum += response.gain(row, response.first_emf() + k) *
           emf_slope(source, from.mains_s, network_.half_period_s);
  }
  return sum;
}

}  // namespace sixty::circuit
