#include "sim/circuit/step.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::circuit {
namespace {

constexpr double kRelativeTolerance = 2e-6;

/// Dormand-Prince 5(4): stage coefficients, and fifth minus fourth order weights.
constexpr double kA[6][6] = {
    {1.0 / 5, 0, 0, 0, 0, 0},
    {3.0 / 40, 9.0 / 40, 0, 0, 0, 0},
    {44.0 / 45, -56.0 / 15, 32.0 / 9, 0, 0, 0},
    {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729, 0, 0},
    {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656, 0},
    {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84}};
constexpr double kC[6] = {1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1};
constexpr double kE[7] = {71.0 / 57600,      0,           -71.0 / 16695, 71.0 / 1920,
                          -17253.0 / 339200, 22.0 / 525, -1.0 / 40};

bool moving(Rest r) { return r == Rest::kClosing || r == Rest::kOpening; }

}  // namespace

Stepper::Stepper(const Network& network, const Inputs& inputs)
    : network_(network), inputs_(inputs) {
  for (const Source& s : network.sources) emf_scale_v_ = std::max(emf_scale_v_, std::fabs(s.emf_v));
  for (const Coil& c : network.coils) {
    const Magnet& m = c.magnet;
    linkage_scale_.push_back(m.inductance_h > 0
                                 ? m.inductance_h * emf_scale_v_ / c.resistance_ohm
                                 : m.turns * m.pole_area_m2 * 0.3);
  }
}

double Stepper::held_at(const CoilState& s, const Magnet& m, double linkage) {
  if (m.coercive_a <= 0) return 0;
  // The remanence follows the flux like a slack link: full after a fall of 10 mT.
  const double slack = m.turns * m.pole_area_m2 * 0.01;
  const double held = s.held_a - m.coercive_a * (linkage - s.linkage_wb) / slack;
  return std::clamp(held, 0.0, m.coercive_a);
}

double Stepper::coil_current(std::size_t j, const CoilState& s) const {
  return coil_current_a(network_.coils[j].magnet, s.linkage_wb, s.gap_m, s.held_a);
}

double Stepper::net_force_n(std::size_t j, double linkage, double gap) const {
  const Coil& c = network_.coils[j];
  return load_n(c.armature, gap, inputs_.coil_extra_load_n[j]) - pull_n(c.magnet, linkage);
}

double Stepper::spark_volts(std::size_t contact, const ContactState& s, double dt) const {
  const ContactKind& kind = network_.contacts[contact].kind;
  if (s.gap == Gap::kGlow) return kind.glow_v * s.spark_sign;
  const double gap_m = kind.opening_speed_m_per_s * (s.timer_s + dt);
  return (kind.arc_v + kind.arc_gradient_v_per_m * gap_m) * s.spark_sign;
}

void Stepper::gather(const State& state, const Response& response, std::vector<double>& y) const {
  const auto& live = response.live();
  y.resize(3 * live.size() + state.capacitor_v.size());
  for (std::size_t i = 0; i < live.size(); ++i) {
    const CoilState& s = state.coils[live[i]];
    y[3 * i] = s.linkage_wb;
    y[3 * i + 1] = s.gap_m;
    y[3 * i + 2] = s.speed_m_per_s;
  }
  std::copy(state.capacitor_v.begin(), state.capacitor_v.end(),
            y.begin() + static_cast<std::ptrdiff_t>(3 * live.size()));
}

void Stepper::scatter(const Response& response, const std::vector<double>& y, double dt,
                      State& state) const {
  const auto& live = response.live();
  for (std::size_t i = 0; i < live.size(); ++i) {
    CoilState& s = state.coils[live[i]];
    s.held_a = held_at(s, network_.coils[live[i]].magnet, y[3 * i]);
    s.linkage_wb = y[3 * i];
    if (!moving(s.rest)) continue;
    s.gap_m = y[3 * i + 1];
    s.speed_m_per_s = y[3 * i + 2];
  }
  std::copy(y.begin() + static_cast<std::ptrdiff_t>(3 * live.size()), y.end(),
            state.capacitor_v.begin());
  for (ContactState& c : state.contacts) {
    if (c.gap == Gap::kArc || c.gap == Gap::kGlow) c.timer_s += dt;
  }
}

void Stepper::rates(const State& state, const Response& response, const double* y, double dt,
                    double* f) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  in_.resize(response.inputs());
  out_.resize(response.outputs());
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = live[i];
    const Magnet& m = network_.coils[j].magnet;
    const double held = held_at(state.coils[j], m, y[3 * i]);
    in_[i] = coil_current_a(m, y[3 * i], y[3 * i + 1], held);
  }
  const std::size_t capacitors = network_.capacitors.size();
  for (std::size_t k = 0; k < capacitors; ++k) in_[n + k] = y[3 * n + k];
  for (std::size_t k = 0; k < response.sparks().size(); ++k) {
    const std::size_t contact = response.sparks()[k];
    in_[n + capacitors + k] = spark_volts(contact, state.contacts[contact], dt);
  }
  response.voltages(in_.data(), out_.data());
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = live[i];
    const Coil& c = network_.coils[j];
    f[3 * i] = out_[i] - c.resistance_ohm * in_[i];
    f[3 * i + 1] = 0;
    f[3 * i + 2] = 0;
    if (!moving(state.coils[j].rest)) continue;
    const double friction =
        state.coils[j].rest == Rest::kClosing ? c.armature.friction_n : -c.armature.friction_n;
    f[3 * i + 1] = y[3 * i + 2];
    f[3 * i + 2] = (net_force_n(j, y[3 * i], y[3 * i + 1]) + friction) / c.armature.mass_kg;
  }
  for (std::size_t k = 0; k < capacitors; ++k) {
    const Capacitor& c = network_.capacitors[k];
    f[3 * n + k] = (out_[n + k] - y[3 * n + k]) / (c.resistance_ohm * c.capacitance_f);
  }
}

void Stepper::run(const State& from, const Response& response, double h, Step& step) const {
  gather(from, response, step.y0);
  const std::size_t n = step.y0.size();
  step.h = h;
  step.f0.resize(n);
  step.f1.resize(n);
  step.y1.resize(n);
  stage_.resize(n);
  for (auto& k : k_) k.resize(n);
  rates(from, response, step.y0.data(), 0, k_[0].data());
  step.f0 = k_[0];
  for (std::size_t s = 0; s < 6; ++s) {
    std::vector<double>& target = s == 5 ? step.y1 : stage_;
    for (std::size_t i = 0; i < n; ++i) {
      double sum = 0;
      for (std::size_t q = 0; q <= s; ++q) sum += kA[s][q] * k_[q][i];
      target[i] = step.y0[i] + h * sum;
    }
    rates(from, response, target.data(), kC[s] * h, s == 5 ? step.f1.data() : k_[s + 1].data());
  }
  step.error = error_of(response, from, step);
}

double Stepper::error_of(const Response& response, const State& from, const Step& step) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  const auto difference = [&](std::size_t i) {
    double e = kE[6] * step.f1[i];
    for (std::size_t q = 0; q < 6; ++q) e += kE[q] * k_[q][i];
    return std::fabs(e * step.h);
  };
  double worst = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = live[i];
    worst = std::max(worst, difference(3 * i) / linkage_scale_[j]);
    if (!moving(from.coils[j].rest)) continue;
    worst = std::max(worst, difference(3 * i + 1) / network_.coils[j].armature.stroke_m);
    worst = std::max(worst, difference(3 * i + 2));  // against 1 m/s
  }
  for (std::size_t k = 3 * n; k < step.y1.size(); ++k) {
    worst = std::max(worst, difference(k) / emf_scale_v_);
  }
  return worst / kRelativeTolerance;
}

void Stepper::middle(const Step& step, std::vector<double>& y) const {
  y.resize(step.y0.size());
  for (std::size_t i = 0; i < y.size(); ++i) {
    y[i] = (step.y0[i] + step.y1[i]) / 2 + step.h * (step.f0[i] - step.f1[i]) / 8;
  }
}

void Stepper::currents_in(const State& state, const Response& response,
                          std::vector<double>& in) const {
  in.resize(response.inputs());
  const auto& live = response.live();
  for (std::size_t i = 0; i < live.size(); ++i) {
    in[i] = coil_current(live[i], state.coils[live[i]]);
  }
  std::copy(state.capacitor_v.begin(), state.capacitor_v.end(),
            in.begin() + static_cast<std::ptrdiff_t>(live.size()));
  for (std::size_t k = 0; k < response.sparks().size(); ++k) {
    const std::size_t contact = response.sparks()[k];
    in[live.size() + state.capacitor_v.size() + k] =
        spark_volts(contact, state.contacts[contact], 0);
  }
}

double Stepper::unrest_v(const State& state, const Response& response) const {
  currents_in(state, response, in_);
  out_.resize(response.outputs());
  response.voltages(in_.data(), out_.data());
  const auto& live = response.live();
  double worst = 0;
  for (std::size_t i = 0; i < live.size(); ++i) {
    worst = std::max(worst,
                     std::fabs(out_[i] - network_.coils[live[i]].resistance_ohm * in_[i]));
  }
  for (std::size_t k = 0; k < state.capacitor_v.size(); ++k) {
    worst = std::max(worst, 10 * std::fabs(out_[live.size() + k] - state.capacitor_v[k]));
  }
  return worst;
}

}  // namespace sixty::circuit
