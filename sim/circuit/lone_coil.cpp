#include "sim/circuit/lone_coil.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/circuit/dormand_prince.hpp"
#include "sim/circuit/shorten.hpp"

namespace sixty::circuit {
namespace {

struct Small {
  std::array<std::array<double, 3>, 7> k;
  double stage[3];
  double y0[3];
  double y1[3];
  double error = 0;
};

CoilState at_end(const Network& network, std::size_t j, const CoilState& from, const double* y) {
  CoilState s = from;
  s.held_a = Stepper::held_at(from, network.coils[j].magnet, y[0]);
  s.linkage_wb = y[0];
  if (moving(from.rest)) {
    s.gap_m = y[1];
    s.speed_m_per_s = y[2];
  }
  return s;
}

void try_step(const Stepper& stepper, const Network& network, std::size_t j, const CoilState& from,
              const Feed& feed, double t, double h, Small& small) {
  const Coil& c = network.coils[j];
  const auto rates = [&](const double* y, double dt, double* f) {
    const double held = Stepper::held_at(from, c.magnet, y[0]);
    const double current = coil_current_a(c.magnet, y[0], y[1], held);
    stepper.coil_rates(from, j, feed.volts(t + dt) - feed.self_ohm * current, current, y, f);
  };
  small.y0[0] = from.linkage_wb;
  small.y0[1] = from.gap_m;
  small.y0[2] = from.speed_m_per_s;
  rates(small.y0, 0, small.k[0].data());
  dormand_prince_step(3, small.y0, h, rates, small.k, small.stage, small.y1);
  small.error = std::max({dormand_prince_error(small.k, 0, h) / stepper.linkage_scale(j),
                          dormand_prince_error(small.k, 1, h) / c.armature.stroke_m,
                          dormand_prince_error(small.k, 2, h)}) /
                kRelativeTolerance;
}

LoneWay::Deed deed_of(const Stepper& stepper, const Network& network, std::size_t j,
                      const CoilState& s, const Hit& hit, const Feed& feed, double t) {
  const Coil& c = network.coils[j];
  LoneWay::Deed d;
  d.dt = t;
  d.hit = hit;
  d.before = s;
  d.after = s;
  const double current = stepper.coil_current(j, s);
  d.volts = feed.volts(t) - feed.self_ohm * current;
  switch (hit.kind) {
    case Hit::kStop:
      d.lost_j = meet_stop(d.after, c.armature, hit.direction < 0);
      break;
    case Hit::kTurn:
      d.turn =
          turn_back(d.after, c.armature, stepper.extra_load_n(j), pull_n(c.magnet, s.linkage_wb));
      break;
    case Hit::kKink:
      d.after.gap_m = c.armature.second_from_m;
      break;
    case Hit::kMark:
      d.after.gap_m = c.marks[hit.mark].gap_m;
      break;
    case Hit::kWake:
      d.after.rest = hit.direction < 0 ? Rest::kClosing : Rest::kOpening;
      d.after.speed_m_per_s = 0;
      d.after.expecting = 0;
      break;
    default:
      break;
  }
  return d;
}

LoneWay walk(const Stepper& stepper, const Network& network, std::size_t coil,
             const CoilState& from, const Feed& feed, double until) {
  LoneWay way;
  way.feed = feed;
  CoilState s = from;
  Small small;
  double t = 0;
  double step = until;
  for (int guard = 0; guard < 1000 && t < until; ++guard) {
    double h = std::min(step, until - t);
    try_step(stepper, network, coil, s, feed, t, h, small);
    if (small.error > 1 && h > 1e-9) {
      step = h * std::max(0.2, 0.85 / std::sqrt(std::sqrt(small.error)));
      continue;
    }
    const auto hit_in = [&](double length) {
      Hit found;
      stepper.coil_hit(s, coil, {small.y0, small.y1, small.k[0].data(), small.k[6].data(), length},
                       found);
      return found;
    };
    const Hit hit = shorten_to_hit(h, hit_in(h), [&](double length) {
      try_step(stepper, network, coil, s, feed, t, length, small);
      return hit_in(length);
    });
    s = at_end(network, coil, s, small.y1);
    t = until - t - h < 1e-15 ? until : t + h;
    if (hit.kind == Hit::kNone) continue;
    if (hit.kind == Hit::kMark && network.coils[coil].marks[hit.mark].contact >= 0) {
      way.contact_dt = t;
      way.contact_mark = hit.mark;
      break;
    }
    way.deeds.push_back(deed_of(stepper, network, coil, s, hit, feed, t));
    s = way.deeds.back().after;
  }
  way.end = s;
  return way;
}

}  // namespace

double Feed::volts(double dt) const {
  const double s = dt / h;
  const double a = 2 * (start_v - 2 * middle_v + end_v);
  const double b = -3 * start_v + 4 * middle_v - end_v;
  return start_v + s * (b + s * a);
}

LoneWay go_alone(const Stepper& stepper, const Network& network, std::size_t coil,
                 const CoilState& from, const Feed& feed) {
  return walk(stepper, network, coil, from, feed, feed.h);
}

CoilState state_on_way(const Stepper& stepper, const Network& network, std::size_t coil,
                       const CoilState& from, const LoneWay& way, double dt) {
  return walk(stepper, network, coil, from, way.feed, dt).end;
}

}  // namespace sixty::circuit
