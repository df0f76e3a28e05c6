// Steps of a large network: only what works a contact ends them for all.
#include <algorithm>
#include <cmath>

#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {
namespace {

constexpr std::size_t kNobody = SIZE_MAX;

}  // namespace

/// Coils that meet something within step_ go through it alone; `forced` does so in any case.
void Integrator::find_lone_ways(std::size_t forced) {
  lone_ways_.clear();
  const auto& live = response_->live();
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < live.size(); ++i) {
    Hit hit;
    stepper_.coil_hit(
        now_.coils[live[i]], live[i],
        {&step_.y0[3 * i], &step_.y1[3 * i], &step_.f0[3 * i], &step_.f1[3 * i], step_.h}, hit);
    if (hit.kind != Hit::kNone || live[i] == forced) indices.push_back(i);
  }
  if (indices.empty()) return;
  std::vector<double> in[3];
  std::vector<double> out[3];
  std::vector<double> y;
  for (int place = 0; place < 3; ++place) {
    State s = now_;
    stepper_.middle(step_, y);
    const std::vector<double>& vars = place == 0 ? step_.y0 : place == 1 ? y : step_.y1;
    stepper_.scatter(*response_, vars, step_.h * place / 2, s);
    stepper_.currents_in(s, *response_, in[place]);
    out[place].resize(response_->outputs());
    response_->voltages(in[place].data(), out[place].data(), response_->rows_of_state());
  }
  for (const std::size_t i : indices) {
    Feed feed;
    feed.self_ohm = response_->self_ohm(i);
    feed.h = step_.h;
    feed.start_v = out[0][i] + feed.self_ohm * in[0][i];
    feed.middle_v = out[1][i] + feed.self_ohm * in[1][i];
    feed.end_v = out[2][i] + feed.self_ohm * in[2][i];
    lone_ways_.emplace_back(live[i],
                            go_alone(stepper_, network_, live[i], now_.coils[live[i]], feed));
  }
}

Hit Integrator::find_step_with_lone_ways(double limit) {
  double h = std::min(h_, limit);
  accurate_step(h);
  Hit hit = stepper_.earliest_hit(now_, *response_, step_, true);
  if (hit.kind != Hit::kNone && hit.theta < 1 - 1e-9) {
    h = std::max(kSmallestStep, h * hit.theta);
    stepper_.run(now_, *response_, h, step_);
  }
  std::size_t worker = kNobody;
  std::size_t mark = 0;
  for (int round = 0; round < 8; ++round) {
    find_lone_ways(worker);
    double first = h;
    std::size_t who = kNobody;
    for (const auto& [j, way] : lone_ways_) {
      if (way.contact_dt < 0 || way.contact_dt >= first) continue;
      first = way.contact_dt;
      who = j;
      mark = way.contact_mark;
    }
    if (who == kNobody) break;
    worker = who;
    h = std::max(kSmallestStep, first);
    stepper_.run(now_, *response_, h, step_);
  }
  if (worker == kNobody) {
    for (const auto& [j, way] : lone_ways_) {
      if (way.contact_dt >= 0) worker = j, mark = way.contact_mark;
    }
  }
  if (worker == kNobody) return hit;
  return {1, Hit::kMark, worker, mark, network_.coils[worker].marks[mark].direction};
}

/// Those that work a contact at the very instant at which the step ends for another one.
std::vector<Hit> Integrator::other_workers(const Hit& hit) const {
  std::vector<Hit> found;
  for (const auto& [j, way] : lone_ways_) {
    if (way.contact_dt < 0 || j == hit.element) continue;
    const int direction = network_.coils[j].marks[way.contact_mark].direction;
    found.push_back({1, Hit::kMark, j, way.contact_mark, direction});
  }
  return found;
}

void Integrator::tell_lone_ways() {
  std::vector<std::pair<double, std::pair<std::size_t, const LoneWay::Deed*>>> deeds;
  for (const auto& [j, way] : lone_ways_) {
    for (const LoneWay::Deed& d : way.deeds) deeds.push_back({d.dt, {j, &d}});
  }
  std::stable_sort(deeds.begin(), deeds.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [dt, deed] : deeds) {
    const auto& [j, d] = deed;
    const double t = t_ + dt;
    const Hit& hit = d->hit;
    if (hit.kind == Hit::kStop) {
      const What what = hit.direction < 0 ? What::kSeats : What::kReturns;
      emit_coil(what, j, t, motion_cause_[j], d->before, d->volts);
      ledger_.impact_j += d->lost_j;
    } else if (hit.kind == Hit::kWake) {
      const What what = hit.direction < 0 ? What::kStarts : What::kLeaves;
      emit_coil(what, j, t, drive_cause_[j], d->after, d->volts);
      motion_cause_[j] = static_cast<std::int32_t>(events_.size()) - 1;
    } else if (hit.kind == Hit::kTurn) {
      tell_turn(d->turn, j, t, d->after, d->volts);
    } else if (hit.kind == Hit::kMark) {
      emit_coil(What::kPasses, j, t, motion_cause_[j], d->after, d->volts);
      events_.back().code = network_.coils[j].marks[hit.mark].code;
    }
  }
}

}  // namespace sixty::circuit
