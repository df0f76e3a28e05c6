// Where within a step something happens that changes the equations.
#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/step.hpp"

namespace sixty::circuit {
namespace {

/// Cubic Hermite interpolant of one variable over a step.
struct Hermite {
  double y0, y1, d0, d1;  // ends, and rates times the step
  double at(double s) const {
    const double u = 1 - s;
    return (1 + 2 * s) * u * u * y0 + s * u * u * d0 + s * s * (3 - 2 * s) * y1 - s * s * u * d1;
  }
  /// First place found at which it takes a value that lies between (or at) its ends.
  double where(double value) const {
    double low = 0;
    double high = 1;
    double f_low = y0 - value;
    double f_high = y1 - value;
    if (f_low == 0) return 0;
    for (int i = 0; i < 60 && high - low > 1e-14; ++i) {
      // Regula falsi with the Illinois halving, kept inside by bisection now and then.
      double s = (i % 8 == 7) ? (low + high) / 2 : high - f_high * (high - low) / (f_high - f_low);
      if (!(s > low && s < high)) s = (low + high) / 2;
      const double f = at(s) - value;
      if (f == 0) return s;
      if ((f < 0) == (f_low < 0)) {
        low = s;
        f_low = f;
        f_high /= 2;
      } else {
        high = s;
        f_high = f;
        f_low /= 2;
      }
    }
    return high;
  }
  /// Where it turns against `way`, given that it has done so at the end; 0 if it never went there.
  double turn(int way) const {
    if (y0 * way > 0) return where(0);
    if (d0 * way <= 0) return 0;
    // From rest it has gone the right way for a while; if that does not show, the step is too long.
    double s = 0.5;
    while (s > 1e-3 && at(s) * way <= 0) s /= 2;
    if (s <= 1e-3) return 0.5;
    double high = 1;
    for (int i = 0; i < 50; ++i) {
      const double middle = (s + high) / 2;
      (at(middle) * way > 0 ? s : high) = middle;
    }
    return high;
  }
};

void keep_earliest(Hit& hit, double theta, Hit::Kind kind, std::size_t element, std::size_t mark,
                   int direction) {
  if (theta < hit.theta) hit = {theta, kind, element, mark, direction};
}

}  // namespace

/// All that a moving coil meets in a step, told to `keep(theta, kind, mark, way)`.
template <class Keep>
void Stepper::moving_hits(const CoilState& from, std::size_t j, const Ends& ends,
                          const Keep& keep) const {
  const auto& [y0, y1, f0, f1, h] = ends;
  const Coil& c = network_.coils[j];
  const int way = from.rest == Rest::kClosing ? -1 : 1;
  const Hermite x{y0[1], y1[1], f0[1] * h, f1[1] * h};
  const Hermite v{y0[2], y1[2], f0[2] * h, f1[2] * h};
  const double x0 = ends.y0[1];
  const double x1 = ends.y1[1];
  const auto crossed = [way, x0, x1](double gap) {
    return way < 0 ? x0 > gap && x1 <= gap : x0 < gap && x1 >= gap;
  };
  for (std::size_t k = 0; k < c.marks.size(); ++k) {
    if (c.marks[k].direction == way && crossed(c.marks[k].gap_m)) {
      keep(x.where(c.marks[k].gap_m), Hit::kMark, k, way);
    }
  }
  if (crossed(c.armature.second_from_m)) {
    keep(x.where(c.armature.second_from_m), Hit::kKink, 0, way);
  }
  const double stop = way < 0 ? c.armature.seat_m : c.armature.stroke_m;
  // Also from a place that is at the stop already, within rounding.
  if (way < 0 ? x1 <= stop : x1 >= stop) {
    keep(crossed(stop) ? x.where(stop) : 0.0, Hit::kStop, 0, way);
  }
  if (y1[2] * way < 0) keep(v.turn(way), Hit::kTurn, 0, way);
}

void Stepper::moving_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const {
  moving_hits(from, j, ends, [&](double theta, Hit::Kind kind, std::size_t mark, int way) {
    keep_earliest(hit, theta, kind, j, mark, way);
  });
}

std::vector<Hit> Stepper::hits_beside(const State& from, const Response& response, const Step& step,
                                      const Hit& hit) const {
  std::vector<Hit> found;
  const auto& live = response.live();
  for (std::size_t i = 0; i < live.size(); ++i) {
    const std::size_t j = live[i];
    if (!moving(from.coils[j].rest)) continue;
    moving_hits(from.coils[j], j,
                {&step.y0[3 * i], &step.y1[3 * i], &step.f0[3 * i], &step.f1[3 * i], step.h},
                [&](double, Hit::Kind kind, std::size_t mark, int way) {
                  if (kind == hit.kind && j == hit.element && mark == hit.mark) return;
                  found.push_back({1, kind, j, mark, way});
                });
  }
  return found;
}

void Stepper::resting_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const {
  const auto& [y0, y1, f0, f1, h] = ends;
  const Coil& c = network_.coils[j];
  if (!c.armature.present) return;
  const Rest rest = from.rest;
  const double gap = from.gap_m;
  const double pull_now = pull_n(c.magnet, y1[0]);
  const Forces force = forces_at(c.armature, gap, extra_load_n(j), pull_now);
  const double hold = hold_n(c.armature, extra_load_n(j));
  int way = 0;
  if (rest != Rest::kSeated && force.closing_n < -hold) way = -1;
  if (rest != Rest::kOpen && force.opening_n > hold) way = 1;
  if (way == 0) return;
  const double load = (way < 0 ? force.closing_n : force.opening_n) + pull_now;
  const double pull = load - way * hold;
  if (pull <= 0) {
    keep_earliest(hit, 0, Hit::kWake, j, 0, way);
    return;
  }
  const Magnet& m = c.magnet;
  double linkage = m.turns * m.pole_area_m2 * std::sqrt(pull * kMu0 / m.pole_area_m2);
  if (y1[0] < 0) linkage = -linkage;
  const Hermite flux{y0[0], y1[0], f0[0] * h, f1[0] * h};
  const bool between = (y0[0] - linkage) * (y1[0] - linkage) <= 0;
  keep_earliest(hit, between ? flux.where(linkage) : 0.0, Hit::kWake, j, 0, way);
}

/// How far each diode and each spark is from going over into its other state, in `margins`: the
/// joined diodes first, then the sparks.
void Stepper::find_margins(const State& from, const Response& response, const double* y, double dt,
                           std::vector<double>& margins) const {
  find_volts(from, response, y, dt, response.rows_beside());
  put_margins(from, response, margins);
}

/// By what has just been answered.
void Stepper::put_margins(const State& from, const Response& response,
                          std::vector<double>& margins) const {
  constexpr double kSlack = 1e-9;  // V
  margins.clear();
  for (std::size_t i = 0; i < response.joined_diodes().size(); ++i) {
    const std::size_t k = response.joined_diodes()[i];
    const double beyond_v = out_[response.first_diode() + i] - network_.diodes[k].forward_v;
    margins.push_back((from.diode_on[k] != 0 ? beyond_v : -beyond_v) + kSlack);
  }
  const std::size_t first = response.live().size() + network_.capacitors.size();
  for (std::size_t i = 0; i < response.sparks().size(); ++i) {
    const ContactState& s = from.contacts[response.sparks()[i]];
    const ContactKind& kind = network_.contacts[response.sparks()[i]].kind;
    const double current_a = (out_[first + i] - in_[first + i]) * kSparkSiemens * s.spark_sign;
    margins.push_back(current_a - (s.gap == Gap::kArc ? kind.arc_min_a : kind.glow_min_a));
  }
}

/// Where in the step a margin that is there at its beginning and gone at its end is gone first.
double Stepper::where_gone(const State& from, const Response& response, const Step& step,
                           std::size_t which, double margin0, double margin1) const {
  if (margin0 <= 0) return 1;
  const auto margin_at = [&](double s) {
    interpolate(step, s, middle_);
    find_margins(from, response, middle_.data(), s * step.h, margin_);
    return margin_[which];
  };
  double low = 0;
  double high = 1;
  // Regula falsi with the Illinois halving; the end beyond the crossing is what is asked for.
  for (int round = 0; round < 30 && high - low > 1e-9 && margin1 < 0; ++round) {
    const double s = high - margin1 * (high - low) / (margin1 - margin0);
    const double margin = margin_at(s);
    if (margin > 0) {
      low = s;
      margin0 = margin;
      margin1 /= 2;
    } else {
      high = s;
      margin1 = margin;
      margin0 /= 2;
    }
  }
  return high;
}

void Stepper::switch_hits(const State& from, const Response& response, const Step& step,
                          Hit& hit) const {
  const auto& diodes = response.joined_diodes();
  const auto& sparks = response.sparks();
  if (sparks.empty() && diodes.empty()) return;
  find_end_beside(from, response, step);
  put_margins(from, response, margin1_);
  const bool any = std::any_of(margin1_.begin(), margin1_.end(), [](double m) { return m < 0; });
  if (!any) return;
  find_margins(from, response, step.y0.data(), 0, margin0_);
  for (std::size_t i = 0; i < margin1_.size(); ++i) {
    if (margin1_[i] >= 0) continue;
    const bool diode = i < diodes.size();
    // A gap that never gets what keeps a spark alive goes out before it has taken any energy.
    const bool stillborn = !diode && margin0_[i] < 0;
    const double theta =
        stillborn ? 0 : where_gone(from, response, step, i, margin0_[i], margin1_[i]);
    keep_earliest(hit, theta, diode ? Hit::kDiode : Hit::kSparkOut,
                  diode ? diodes[i] : sparks[i - diodes.size()], 0, 0);
  }
}

void Stepper::coil_hit(const CoilState& from, std::size_t j, const Ends& ends, Hit& hit) const {
  if (moving(from.rest)) {
    moving_hit(from, j, ends, hit);
  } else {
    resting_hit(from, j, ends, hit);
  }
}

Hit Stepper::earliest_hit(const State& from, const Response& response, const Step& step,
                          bool switching_only) const {
  Hit hit;
  const auto& live = response.live();
  for (std::size_t i = 0; i < live.size() && !switching_only; ++i) {
    coil_hit(from.coils[live[i]], live[i],
             {&step.y0[3 * i], &step.y1[3 * i], &step.f0[3 * i], &step.f1[3 * i], step.h}, hit);
  }
  switch_hits(from, response, step, hit);
  return hit;
}

}  // namespace sixty::circuit
