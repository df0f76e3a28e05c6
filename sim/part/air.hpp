#pragma once

#include "sim/part/part.hpp"

namespace sixty {

/// The optional link `surroundings`: what is as warm, as damp and as old as the air about a part.
/// Declared once, however many of a part's properties depend on it.
void declare_air(Declaration& d);

/// Something that the part takes has changed. Whoever follows it looks what, so that it may be
/// called for any link.
inline bool is_link_change(const Event& event) {
  return event.kind >= kLinkChangedBase && event.kind < kLinkChangedBase + 0x100;
}

/// Copper as warm as the surroundings that its part takes, if it takes any; what it lags behind
/// them is left out.
class CopperInAir {
 public:
  CopperInAir() = default;
  /// `cold_ohm`: at 20 degC.
  CopperInAir(Builder& b, double cold_ohm)
      : air_(b.taken<Surroundings>("surroundings")), cold_ohm_(cold_ohm) {}
  bool in_air() const { return air_.valid(); }
  /// Units: ohm. Range: in_air().
  double ohm(Ctx& ctx) const;
  /// Order: at each change of a link. Does nothing to a part that takes none.
  void follow(int coil, Ctx& ctx) const;

 private:
  StateSlot<Surroundings> air_;
  double cold_ohm_ = 0;
};

}  // namespace sixty
