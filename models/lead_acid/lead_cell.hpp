#pragma once

#include "sim/part/cell_bank.hpp"

namespace sixty::models {

/// Grams of water and litres of hydrogen (0 degC, 1 atm) that an ampere-hour of gassing costs a
/// cell. Derived, Faraday's law: M/(2F) with 18.015 g/mol, 22.414 l/mol, 96485.33 C/mol.
constexpr double kWaterPerAs = 18.015 / (2 * 96485.33);
constexpr double kHydrogenLPerAs = 22.414 / (2 * 96485.33);

/// One cell. Plain, for a part's state.
struct LeadCell {
  double capacity_as = 0;
  double ohm_factor = 1;
  double added_ohm = 0;
  double charge = 0;   ///< share of the capacity; what is above 1 lies on the plates' surface
  double water_g = 0;  ///< gassed away since it was topped up
  double gassed_as = 0;
  std::int64_t shorted = 0;  ///< 1: sediment joins its plates
  std::uint64_t changes = 0;
};

/// What all cells of a battery have in common, and the laws that they follow.
struct LeadCellKind {
  double capacity_as = 0;
  double full_v = 0, empty_v = 0;
  double ohm = 0;
  double surface = 0;    ///< share of the capacity that lies on the plates when they gas freely
  double surface_v = 0;  ///< volts that it lifts the cell by
  double surface_s = 1;  ///< time constant in which it goes by itself
  double stored = 1;     ///< share of a charging current that is stored
  double peukert = 1;
  double rated_s = 1;          ///< discharge time that the capacity is told for
  double water_reserve_g = 0;  ///< above the plates

  /// Volts when no current flows: straight from empty to full, up on the surface's charge, and down
  /// to nothing within a tenth of the capacity beyond empty. Units: V.
  double emf_v(const LeadCell& cell) const;
  /// Volts after long rest, without what lies on the surface.
  double rested_v(const LeadCell& cell) const;
  /// Resistance; plates that stand dry no longer share in it. Units: ohm.
  double resistance_ohm(const LeadCell& cell) const;
  /// Specific gravity of the acid, by the trade's rule: rested volts = gravity + 0.845 (SUP-08,
  /// common practice).
  double gravity(const LeadCell& cell) const;
  /// Charge out of the cell (negative: into it), with the interval's mean current. Peukert's law
  /// holds for currents above the rated one, t = H (C/(I H))^k (SUP-14); what is not stored, and
  /// what goes from the surface, becomes gas.
  void give(LeadCell& cell, double charge_as, double seconds) const;
};

}  // namespace sixty::models
