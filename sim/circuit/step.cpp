#include "sim/circuit/step.hpp"

#include <algorithm>
#include <cmath>

#include "sim/circuit/dormand_prince.hpp"

namespace sixty::circuit {
namespace {

constexpr double kStiff = 2.5;

}  // namespace

Stepper::Stepper(const Network& network, const Inputs& inputs)
    : network_(network), inputs_(inputs) {
  for (const Source& s : network.sources) emf_scale_v_ = std::max(emf_scale_v_, std::fabs(s.emf_v));
  for (const Coil& c : network.coils) {
    const Magnet& m = c.magnet;
    linkage_scale_.push_back(m.inductance_h > 0 ? m.inductance_h * emf_scale_v_ / c.resistance_ohm
                                                : m.turns * m.pole_area_m2 * 0.3);
  }
}

double Stepper::held_at(const CoilState& s, const Magnet& m, double linkage) {
  if (m.coercive_a <= 0) return 0;
  // The remanence follows the flux like a slack link: full after a fall of 10 mT.
  const double held = s.held_a - m.coercive_a * (linkage - s.linkage_wb) / held_slack_wb(m);
  return std::clamp(held, 0.0, m.coercive_a);
}

double Stepper::coil_current(std::size_t j, const CoilState& s) const {
  return coil_current_a(network_.coils[j].magnet, s.linkage_wb, s.gap_m, s.held_a);
}

Forces Stepper::forces(std::size_t j, double linkage, double gap) const {
  const Coil& c = network_.coils[j];
  return forces_at(c.armature, gap, extra_load_n(j), pull_n(c.magnet, linkage));
}

double Stepper::spark_volts(std::size_t contact, const ContactState& s, double dt) const {
  return circuit::spark_volts(network_.contacts[contact].kind, s, dt);
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
    if (sparking(c)) c.timer_s += dt;
  }
  if (!response.rectified().empty()) state.mains_s += dt;
}

void Stepper::put_emfs(const Response& response, double mains_s, std::vector<double>& in) const {
  const auto& rectified = response.rectified();
  for (std::size_t k = 0; k < rectified.size(); ++k) {
    in[response.first_emf() + k] =
        emf_v(network_.sources[rectified[k]], mains_s, network_.half_period_s);
  }
}

/// What a response asks for, `dt` after a state, when the variables have come to `y`.
void Stepper::find_inputs(const State& state, const Response& response, const double* y,
                          double dt) const {
  end_in_ = nullptr;
  const auto& live = response.live();
  const std::size_t n = live.size();
  in_.resize(response.inputs());
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
  put_emfs(response, state.mains_s + dt, in_);
}

/// The same, and what it answers in those rows.
void Stepper::find_volts(const State& state, const Response& response, const double* y, double dt,
                         Response::Rows rows) const {
  find_inputs(state, response, y, dt);
  out_.resize(response.outputs());
  response.voltages(in_.data(), out_.data(), rows);
}

/// What is answered beside the state's own rows at the end of a step just run: the last that was
/// asked for was mostly its rates there.
void Stepper::find_end_beside(const State& from, const Response& response, const Step& step) const {
  if (end_in_ == &step && end_beside_) return;
  if (end_in_ != &step) find_inputs(from, response, step.y1.data(), step.h);
  out_.resize(response.outputs());
  response.voltages(in_.data(), out_.data(), response.rows_beside());
  end_in_ = &step;
  end_beside_ = true;
}

void Stepper::rates(const State& state, const Response& response, const double* y, double dt,
                    double* f) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  find_volts(state, response, y, dt, response.rows_of_state());
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = live[i];
    coil_rates(state.coils[j], j, out_[i], in_[i], y + 3 * i, f + 3 * i);
  }
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    const Capacitor& c = network_.capacitors[k];
    f[3 * n + k] = (out_[n + k] - y[3 * n + k]) / (c.resistance_ohm * c.capacitance_f);
  }
}

void Stepper::coil_rates(const CoilState& from, std::size_t j, double volts, double current_a,
                         const double* y, double* f) const {
  const Coil& c = network_.coils[j];
  f[0] = volts - c.resistance_ohm * current_a;
  f[1] = 0;
  f[2] = 0;
  if (!moving(from.rest)) return;
  const double friction =
      from.rest == Rest::kClosing ? c.armature.friction_n : -c.armature.friction_n;
  f[1] = y[2];
  const Forces force = forces(j, y[0], y[1]);
  const double net = from.rest == Rest::kClosing ? force.closing_n : force.opening_n;
  f[2] = (net + friction - c.armature.viscous_n_s_per_m * y[2]) / c.armature.mass_kg;
}

void Stepper::start(const State& from, const Response& response, Step& step) const {
  gather(from, response, step.y0);
  step.f0.resize(step.y0.size());
  rates(from, response, step.y0.data(), 0, step.f0.data());
  find_slopes(from, response, step);
}

void Stepper::go_on(const State& from, const Response& response, Step& step) const {
  std::swap(step.y0, step.y1);
  std::swap(step.f0, step.f1);
  find_slopes(from, response, step);
}

void Stepper::run(const State& from, const Response& response, double h, Step& step) const {
  const std::size_t n = step.y0.size();
  step.h = h;
  step.y1.resize(n);
  stage_.resize(n);
  end_beside_ = false;
  // Dormand-Prince is stable up to h |rate| = 3.3; nearer than this it pays to be implicit.
  if (response.small() && step.fastest_per_s * h > kStiff) {
    run_stiff(from, response, step);
    end_in_ = &step;
    return;
  }
  for (auto& k : k_) k.resize(n);
  k_[0] = step.f0;
  dormand_prince_step(
      n, step.y0.data(), h,
      [&](const double* y, double dt, double* f) { rates(from, response, y, dt, f); }, k_,
      stage_.data(), step.y1.data());
  end_in_ = &step;
  step.f1 = k_[6];
  step.error =
      error_of(response, from, [&](std::size_t i) { return dormand_prince_error(k_, i, h); });
}

void Stepper::run_stiff(const State& from, const Response& response, Step& step) const {
  find_system(from, response, step);
  rosenbrock_step(
      step.y0.data(), step.f0.data(), system_, slope_.data(), step.h,
      [&](const double* y, double dt, double* f) { rates(from, response, y, dt, f); }, work_,
      step.y1.data());
  step.f1.resize(step.y0.size());
  rates(from, response, step.y1.data(), step.h, step.f1.data());
  step.error = error_of(response, from, [&](std::size_t i) { return std::fabs(work_.u[5][i]); });
}

template <class Difference>
double Stepper::error_of(const Response& response, const State& from,
                         const Difference& difference) const {
  const auto& live = response.live();
  const std::size_t n = live.size();
  double worst = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = live[i];
    worst = std::max(worst, difference(3 * i) / linkage_scale_[j]);
    if (!moving(from.coils[j].rest)) continue;
    worst = std::max(worst, difference(3 * i + 1) / network_.coils[j].armature.stroke_m);
    worst = std::max(worst, difference(3 * i + 2));  // against 1 m/s
  }
  for (std::size_t k = 0; k < network_.capacitors.size(); ++k) {
    worst = std::max(worst, difference(3 * n + k) / emf_scale_v_);
  }
  return worst / kRelativeTolerance;
}

void Stepper::middle(const Step& step, std::vector<double>& y) const {
  y.resize(step.y0.size());
  for (std::size_t i = 0; i < y.size(); ++i) {
    y[i] = (step.y0[i] + step.y1[i]) / 2 + step.h * (step.f0[i] - step.f1[i]) / 8;
  }
}

/// Cubic Hermite interpolant at the share `s` of a step.
void Stepper::interpolate(const Step& step, double s, std::vector<double>& y) const {
  const double u = 1 - s;
  y.resize(step.y0.size());
  for (std::size_t i = 0; i < y.size(); ++i) {
    y[i] = u * u * ((1 + 2 * s) * step.y0[i] + s * step.h * step.f0[i]) +
           s * s * ((3 - 2 * s) * step.y1[i] - u * step.h * step.f1[i]);
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
  put_emfs(response, state.mains_s, in);
}

}  // namespace sixty::circuit
