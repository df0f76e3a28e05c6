#include "models/lead_acid/lead_cell.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"

namespace sixty::models {
namespace {

constexpr double kBeyondEmpty = 0.1;  // of the capacity: then there is nothing left at all
constexpr double kMostSurface = 4;    // times that on which it gasses freely; more does not stay
constexpr double kDryest = 0.9;       // of the plates, however much water is lacking
/// Water that stands between the plates, over that above them.
constexpr double kBetweenPlates = 3;
constexpr double kGravityRule = 0.845;  // V, SUP-08

}  // namespace

double LeadCellKind::rested_v(const LeadCell& cell) const {
  const double charge = std::min(cell.charge, 1.0);
  if (cell.shorted != 0) return 0;
  if (charge >= 0) return empty_v + (full_v - empty_v) * charge;
  return empty_v * std::max(1 + charge / kBeyondEmpty, 0.0);
}

double LeadCellKind::emf_v(const LeadCell& cell) const {
  if (cell.shorted != 0 || cell.charge <= 1) return rested_v(cell);
  return full_v + surface_v * (cell.charge - 1) / surface;
}

double LeadCellKind::resistance_ohm(const LeadCell& cell) const {
  const double lacking_g = std::max(cell.water_g - water_reserve_g, 0.0);
  const double dry = std::min(lacking_g / (kBetweenPlates * water_reserve_g), kDryest);
  return ohm * cell.ohm_factor / (1 - dry) + cell.added_ohm;
}

double LeadCellKind::gravity(const LeadCell& cell) const {
  return std::max(empty_v + (full_v - empty_v) * std::clamp(cell.charge, 0.0, 1.0) - kGravityRule,
                  1.0);
}

void LeadCellKind::give(LeadCell& cell, double charge_as, double seconds) const {
  if (cell.shorted != 0) return;
  double gas_as = 0;
  if (charge_as > 0) {
    const double rated_a = cell.capacity_as / rated_s;
    const double over = seconds > 0 ? charge_as / seconds / rated_a : 1;
    const double factor = over > 1 ? det_pow(over, peukert - 1) : 1;
    cell.charge = std::max(cell.charge - factor * charge_as / cell.capacity_as, -kBeyondEmpty);
  } else {
    gas_as -= (1 - stored) * charge_as;
    cell.charge -= stored * charge_as / cell.capacity_as;
  }
  if (cell.charge > 1) {
    const double before = cell.charge;
    const double kept = (cell.charge - 1) * det_exp(-std::min(seconds / surface_s, 700.0));
    cell.charge = 1 + std::min(kept, kMostSurface * surface);
    gas_as += (before - cell.charge) * cell.capacity_as;
  }
  cell.gassed_as += gas_as;
  cell.water_g += gas_as * kWaterPerAs;
}

}  // namespace sixty::models
