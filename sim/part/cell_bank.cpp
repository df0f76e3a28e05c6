#include "sim/part/cell_bank.hpp"

#include <cmath>

#include "sim/base/math.hpp"

namespace sixty {
namespace {

double to_grid(double value, double step) { return std::floor(value / step + 0.5) * step; }

}  // namespace

double Curve::at(double x) const {
  if (x <= points_.front().x) return points_.front().y;
  for (std::size_t k = 1; k < points_.size(); ++k) {
    const Point& from = points_[k - 1];
    const Point& to = points_[k];
    if (x <= to.x) return from.y + (to.y - from.y) * (x - from.x) / (to.x - from.x);
  }
  return points_.back().y;
}

bool FeltSource::follow(double true_emf_v, double true_ohm, double emf_step_v, double ohm_step) {
  constexpr double kLag = 0.75;  // of a step: a bank that hovers between two does not flutter
  const double log_step = det_log(1 + ohm_step);
  const double log_ohm = det_log(true_ohm);
  if (std::fabs(true_emf_v - emf_v) <= kLag * emf_step_v &&
      std::fabs(log_ohm - det_log(resistance_ohm)) <= kLag * log_step) {
    return false;
  }
  emf_v = to_grid(true_emf_v, emf_step_v);
  resistance_ohm = det_exp(to_grid(log_ohm, log_step));
  return true;
}

SimTime next_reckoning(double capacity_as, double mean_a) {
  constexpr double kHard = 1e-5;  // of the capacity a second: gone within a day or so
  return mean_a > kHard * capacity_as ? kMinute : 10 * kMinute;
}

std::size_t cell_of(double argument, std::size_t cells) {
  const auto number = static_cast<std::size_t>(std::llround(argument));
  return number >= 1 && number <= cells ? number - 1 : cells;
}

ParamDecl cell_argument(double most) {
  return in_steps_of(1, quantity_field("cell", "cell", 1, most,
                                       "counted from the positive end; beyond the last: none"));
}

double drawn_factor(Ctx& ctx, std::uint32_t stream, std::uint64_t number, double share) {
  return 1 + share * (2 * ctx.draw(stream, number) - 1);
}

std::string cells_named(const std::vector<std::size_t>& cells) {
  std::string text = cells.size() == 1 ? "cell " : "cells ";
  for (std::size_t k = 0; k < cells.size(); ++k) {
    if (k > 0) text += k + 1 == cells.size() ? " and " : ", ";
    text += std::to_string(cells[k] + 1);
  }
  return text;
}

}  // namespace sixty
