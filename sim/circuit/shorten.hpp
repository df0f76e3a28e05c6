#pragma once

#include <algorithm>

#include "sim/circuit/step.hpp"

namespace sixty::circuit {

/// Shortens a step of length `h`, in which `hit` was found, until it ends there. `try_step(length)`
/// makes the step anew and tells its first hit; the last call made is for the `h` that is returned.
/// What may come early is taken as soon as a shorter step ends just before it; a wake or a turn
/// must really have been reached, or it would be undone at once.
template <class Try>
Hit shorten_to_hit(double& h, Hit hit, const Try& try_step) {
  double made = h;
  double before = 0;  // the longest step seen to end before the hit
  const double nearness = std::max(kSmallestStep, 1e-5 * h);
  double reach = nearness;
  for (int round = 0; round < 60 && hit.kind != Hit::kNone; ++round) {
    if (hit.theta >= 1 - 1e-6 || h - before <= reach) break;
    made = std::max(h * hit.theta, before + reach);
    if (made >= h) break;
    const Hit again = try_step(made);
    if (again.kind == Hit::kNone) {
      if (hit.may_come_early()) {
        h = made;
        break;
      }
      before = made;
      if (hit.theta == 0) reach *= 4;
      hit.theta = 0;
    } else {
      h = made;
      hit = again;
      reach = nearness;
    }
  }
  if (made != h) hit = try_step(h);
  return hit;
}

}  // namespace sixty::circuit
